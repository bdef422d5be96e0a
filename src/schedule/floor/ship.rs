//! What leaves at the end of a route.

use super::super::plan::Shipment;
use super::shift::{Floor, whole};

impl Floor<'_> {
    /// Ships what is done by the end of a slot: earliest due first, then the heavier weight.
    pub(super) fn ship(&mut self, slot: usize) {
        let (start, end) = (self.problem.slots[slot].start, self.problem.slots[slot].end);
        for demand in self.by_due() {
            let wanted = &self.problem.demands[demand];
            let step = wanted.step;
            let lying = self.goods[step].done_by(end);
            let open = whole(wanted.quantity + 1e-9) - self.shipped[demand];
            // The stock wanted at the end is kept, unless the program ships from it now and makes it up later.
            let spare = lying.saturating_sub(whole((self.problem.steps[step].closing - 1e-9).ceil()));
            let planned =
                whole((self.shipments[demand][slot] - 1e-6).ceil()).saturating_sub(self.shipped[demand]);
            let pieces = open.min(spare.max(planned)).min(lying);
            if pieces == 0 {
                continue;
            }
            self.shipped[demand] += pieces;
            let mut parts: Vec<Shipment> = Vec::new();
            for (done, pieces) in self.goods[step].take_done(pieces) {
                let at = done.max(start);
                let in_time = at <= wanted.due;
                match parts.last_mut() {
                    // All that is in time counts as one.
                    Some(last) if last.at == at || (in_time && last.at <= wanted.due) => {
                        last.at = at;
                        last.pieces += pieces;
                    }
                    _ => parts.push(Shipment { demand, slot, at, pieces }),
                }
            }
            self.plan.shipments.extend(parts);
        }
    }

    fn by_due(&self) -> Vec<usize> {
        let demands = &self.problem.demands;
        let mut order: Vec<usize> =
            (0..demands.len()).filter(|demand| demands[*demand].market.is_none()).collect();
        let weight = |demand: usize| demands[demand].weight + demands[demand].late_price;
        order.sort_by(|one, other| {
            let due = demands[*one].due.cmp(&demands[*other].due);
            due.then(weight(*other).total_cmp(&weight(*one))).then(one.cmp(other))
        });
        order
    }
}
