//! Seeded planning problems, by rules written down so that others can make the same kind.
//!
//! 1. Machines are dealt into families of two to four alike; a single one left over joins the family before it.
//! 2. Families belong to one of two skills in turn. A skill has so many people as 0.6 of its machines, rounded up.
//! 3. Shifts of 480 minutes follow one another. A machine minute costs 1.0, a crew minute 0.5; both cost 1.0, 1.1 or 1.25
//!    times as much in the first, second and third shift of a day.
//! 4. A part has two to five operations in a row; what one makes in a shift, the next may use from the shift after. No two
//!    operations in a row have the same first family. Two operations in five may also be done by another family.
//! 5. Minutes a piece: lognormal, median 4, sigma 0.5; on the other family times 0.9 to 1.3. An operator is busy for 0.3 to 0.6
//!    of them. A setup takes 20 to 90 minutes of machine and setter and costs the machine's minutes.
//! 6. A piece of material costs lognormal, median 10, sigma 0.5; each operation adds 1.5 a minute of value. A piece that lies
//!    between operations for a shift costs 0.001 of its value; finished pieces leave at once. An hour late costs 0.05 of
//!    the value when finished; what is never shipped is late until a day after the last shift.
//! 7. A part has one to `max(2, shifts / 7)` orders, each due at the end of a shift drawn evenly from those that leave two
//!    shifts for each operation, the last shift included.
//! 8. Quantities are drawn from 0.5 to 1.5 of one number, the same for all, at which the family with the most work is loaded to
//!    88 % without setups, operations with two families being counted half to each; then rounded, at least one piece.

use rand::rngs::ChaCha8Rng;
use rand::{RngExt, SeedableRng};
use wearland::schedule::{Activity, Demand, Lag, Problem, Resource, ResourceKind, Slot, Step};

/// How large a problem is.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Size {
    /// Name.
    pub(crate) name: &'static str,
    /// Parts.
    pub(crate) parts: usize,
    /// Machines.
    pub(crate) machines: usize,
    /// Shifts.
    pub(crate) shifts: usize,
}

/// The sizes, least first.
pub(crate) const SIZES: [Size; 5] = [
    Size { name: "small", parts: 8, machines: 6, shifts: 9 },
    Size { name: "shop", parts: 25, machines: 15, shifts: 21 },
    Size { name: "mid", parts: 80, machines: 30, shifts: 21 },
    Size { name: "plant", parts: 200, machines: 60, shifts: 42 },
    Size { name: "large", parts: 1000, machines: 200, shifts: 63 },
];

/// Minutes of a shift.
const SHIFT: f64 = 480.0;
/// Load of the family with the most work.
const LOAD: f64 = 0.88;
/// Skills.
const SKILLS: usize = 2;

/// The problem of a size and seed.
pub(crate) fn generated(size: Size, seed: u64) -> Problem {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut shop = Shop { problem: Problem::default(), families: Vec::new(), load: Vec::new() };
    shop.add_slots(size.shifts);
    shop.add_machines(&mut random, size.machines);
    for part in 0..size.parts {
        shop.add_part(&mut random, part);
    }
    shop.scale_orders();
    shop.problem
}

struct Shop {
    problem: Problem,
    /// Machines of each family.
    families: Vec<Vec<usize>>,
    /// Minutes of each family at quantities of one.
    load: Vec<f64>,
}

impl Shop {
    fn add_slots(&mut self, shifts: usize) {
        for at in 0..shifts {
            let start = i64::try_from(at).unwrap_or(0) * 8 * 3600;
            self.problem.slots.push(Slot { start, end: start + 8 * 3600 });
        }
    }

    fn add_machines(&mut self, random: &mut ChaCha8Rng, machines: usize) {
        let mut left = machines;
        while left > 0 {
            let drawn: usize = random.random_range(2..=4);
            let many = if left == 1 { 1 } else { drawn.min(left) };
            let from = machines - left;
            let members: Vec<usize> = (from..from + many).collect();
            match self.families.last_mut() {
                Some(last) if many == 1 => last.extend(members),
                _ => self.families.push(members),
            }
            left -= many;
        }
        for (family, members) in self.families.iter().enumerate() {
            for machine in members {
                let name = format!("F{family}M{machine}");
                self.problem.resources.push(self.resource(name, ResourceKind::Machine, (1.0, 1.0)));
            }
        }
        for skill in 0..SKILLS {
            let of_skill = self.families.iter().enumerate().filter(|(family, _)| family % SKILLS == skill);
            let machines: f64 = of_skill.map(|(_, members)| count(members.len())).sum();
            let people = (0.6 * machines).ceil();
            let crew = self.resource(format!("skill {skill}"), ResourceKind::Crew, (people, 0.5));
            self.problem.resources.push(crew);
        }
        self.load = vec![0.0; self.families.len()];
    }

    fn resource(&self, name: String, kind: ResourceKind, (many, rate): (f64, f64)) -> Resource {
        let slots = &self.problem.slots;
        Resource {
            name,
            kind,
            minutes: vec![SHIFT * many; slots.len()],
            cost: (0..slots.len()).map(|at| rate * [1.0, 1.1, 1.25][at % 3]).collect(),
            windows: slots.iter().map(|slot| vec![(slot.start, slot.end)]).collect(),
            set_up: None,
        }
    }

    fn add_part(&mut self, random: &mut ChaCha8Rng, part: usize) {
        let operations: usize = random.random_range(2..=5);
        let material = lognormal(random, 10.0, 0.5);
        let mut value = material;
        let mut before = usize::MAX;
        for operation in 0..operations {
            let step = self.problem.steps.len();
            let first = self.other_family(random, before);
            let minutes = lognormal(random, 4.0, 0.5);
            value += 1.5 * minutes;
            self.problem.steps.push(Step {
                name: format!("P{part}.{operation}"),
                good: 1.0,
                inputs: if operation > 0 { vec![(step - 1, 1.0)] } else { Vec::new() },
                lag: Lag::NextSlot,
                holding: if operation + 1 < operations { 0.001 * value } else { 0.0 },
                ..Step::default()
            });
            let cost = if operation == 0 { material } else { 0.0 };
            self.add_way(random, first, (step, minutes, cost));
            if random.random_bool(0.4) {
                let second = self.other_family(random, first);
                let slower = minutes * random.random_range(0.9..1.3);
                self.add_way(random, second, (step, slower, cost));
            }
            before = first;
        }
        self.add_orders(random, part, (operations, value));
    }

    fn other_family(&self, random: &mut ChaCha8Rng, than: usize) -> usize {
        loop {
            let family = random.random_range(0..self.families.len());
            if family != than || self.families.len() == 1 {
                return family;
            }
        }
    }

    /// An activity on each machine of a family.
    fn add_way(&mut self, random: &mut ChaCha8Rng, family: usize, (step, minutes, cost): (usize, f64, f64)) {
        let busy = random.random_range(0.3..0.6);
        let setup = random.random_range(20.0..90.0);
        let crew = self.problem.resources.len() - SKILLS + family % SKILLS;
        for machine in &self.families[family] {
            self.problem.activities.push(Activity {
                step,
                machine: Some(*machine),
                uses: vec![(*machine, minutes), (crew, busy * minutes)],
                run: minutes,
                load: 1,
                cost,
                setup,
                setup_within: setup,
                setter: Some(crew),
                ..Activity::default()
            });
        }
    }

    fn add_orders(&mut self, random: &mut ChaCha8Rng, part: usize, (operations, value): (usize, f64)) {
        let shifts = self.problem.slots.len();
        let step = self.problem.steps.len() - 1;
        let orders = random.random_range(1..=(shifts / 7).max(2));
        for order in 0..orders {
            let due = random.random_range((2 * operations).min(shifts) - 1..shifts);
            self.problem.demands.push(Demand {
                name: format!("P{part} order {order}"),
                step,
                quantity: random.random_range(0.5..1.5),
                due: self.problem.slots[due].end,
                late_price: 0.05 * value,
                ..Demand::default()
            });
        }
    }

    fn scale_orders(&mut self) {
        let mut wanted = vec![0.0; self.problem.steps.len()];
        for demand in &self.problem.demands {
            wanted[demand.step] += demand.quantity;
        }
        for step in (0..wanted.len()).rev() {
            for (input, pieces) in &self.problem.steps[step].inputs {
                wanted[*input] += wanted[step] * pieces;
            }
        }
        for (family, members) in self.families.iter().enumerate() {
            let first = members[0];
            for activity in self.problem.activities.iter().filter(|of| of.machine == Some(first)) {
                let ways = self.families.iter().filter(|members| {
                    self.problem
                        .activities
                        .iter()
                        .any(|other| other.step == activity.step && other.machine == Some(members[0]))
                });
                self.load[family] += wanted[activity.step] * activity.run / count(ways.count());
            }
        }
        let shifts = count(self.problem.slots.len());
        let most = self.families.iter().zip(&self.load);
        let most =
            most.map(|(members, load)| load / (count(members.len()) * shifts * SHIFT)).fold(0.0, f64::max);
        for demand in &mut self.problem.demands {
            demand.quantity = (demand.quantity * LOAD / most).round().max(1.0);
        }
    }
}

fn lognormal(random: &mut ChaCha8Rng, median: f64, sigma: f64) -> f64 {
    // Two even draws give one normal one.
    let (radius, angle): (f64, f64) = (random.random_range(f64::EPSILON..1.0), random.random_range(0.0..1.0));
    let normal = (-2.0 * radius.ln()).sqrt() * (std::f64::consts::TAU * angle).cos();
    median * (sigma * normal).exp()
}

/// A number of things as a number to reckon with.
#[expect(clippy::cast_precision_loss, reason = "far fewer than 2^52")]
fn count(things: usize) -> f64 {
    things as f64
}
