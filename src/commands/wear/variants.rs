//! What could be done differently in an operation: coolant, speed, another tool of the same shape.

use crate::cycle::{Making, Operation, Shop};
use crate::quantity::CuttingSpeed;
use crate::schedule::Scenario;
use crate::tooling::Tool;

/// A way to do an operation.
pub(super) struct Variant {
    /// In words: `dry`, `speed +10 %`.
    pub(super) name: String,
    /// What it changes.
    pub(super) change: Change,
}

/// What a variant changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Change {
    /// Nothing.
    Nothing,
    /// Every coolant of the operation.
    Coolant(usize),
    /// Every cutting speed, by this factor.
    Speed(f64),
    /// One tool by another.
    Tool(usize, usize),
}

/// The variants of an operation: as written, each coolant, a tenth faster and slower, each other tool of the same shape.
pub(super) fn variants(scenario: &Scenario, item: usize, operation: &Operation) -> Vec<Variant> {
    let shop = &scenario.shop;
    let mut variants = vec![Variant { name: "as written".to_owned(), change: Change::Nothing }];
    let coolants = shop.coolants.iter().enumerate();
    variants.extend(
        coolants.map(|(id, coolant)| Variant { name: coolant.key.clone(), change: Change::Coolant(id) }),
    );
    for (name, factor) in [("speed +10 %", 1.1), ("speed -10 %", 0.9)] {
        variants.push(Variant { name: name.to_owned(), change: Change::Speed(factor) });
    }
    let Making::Part { material, .. } = shop.items[item].making else { return variants };
    let group = shop.materials[material].group;
    let mut tools: Vec<usize> = operation.cuts.iter().map(|cut| cut.tool).collect();
    tools.sort_unstable();
    tools.dedup();
    for old in tools {
        for (new, tool) in shop.tools.iter().enumerate() {
            if new != old && tool.life_in(group).is_some() && same_shape(&shop.tools[old], tool) {
                let name = format!("{} for {}", tool.key, shop.tools[old].key);
                variants.push(Variant { name, change: Change::Tool(old, new) });
            }
        }
    }
    variants
}

/// Whether one tool fits where the other sits and leaves the same shape.
fn same_shape(one: &Tool, other: &Tool) -> bool {
    let (a, b) = (&one.geometry, &other.geometry);
    one.kind == other.kind
        && one.substrate != other.substrate
        && (a.diameter, a.width, a.corner_radius, a.point_angle)
            == (b.diameter, b.width, b.corner_radius, b.point_angle)
        && (a.edge_angle, a.starts) == (b.edge_angle, b.starts)
}

impl Change {
    /// The reference speed of a tool that is put in another's place, where the speed of the cut is none for it.
    fn own_speed(self, shop: &Shop, item: usize, operation: usize) -> Option<CuttingSpeed> {
        let (Self::Tool(old, new), Making::Part { material, .. }) = (self, &shop.items[item].making) else {
            return None;
        };
        let material = &shop.materials[*material];
        let law = shop.tools[new].life_in(material.group)?;
        let index = material.speed_index.value;
        let mut cuts = shop.items[item].operations[operation].cuts.iter().filter(|cut| cut.tool == old);
        let trusted = cuts.all(|cut| law.speeds.contains(cut.speed / index));
        (!trusted).then(|| law.speed.value * index)
    }

    /// The scenario with this operation done so.
    pub(super) fn apply(self, scenario: &mut Scenario, item: usize, operation: usize) {
        let own = self.own_speed(&scenario.shop, item, operation);
        let operation = &mut scenario.shop.items[item].operations[operation];
        for cut in &mut operation.cuts {
            match self {
                Self::Nothing => {}
                Self::Coolant(id) => cut.coolant = Some(id),
                Self::Speed(factor) => cut.speed = cut.speed * factor,
                Self::Tool(old, new) => {
                    if cut.tool == old {
                        cut.tool = new;
                        cut.speed = own.unwrap_or(cut.speed);
                    }
                }
            }
        }
    }
}
