//! Edges taken from each stock against those that have come in.

use super::rules::Violation;
use super::sheet::Sheet;

/// By the end of each slot no more edges are taken than came in by its start.
pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let problem = sheet.problem;
    let mut taken = vec![vec![0_u64; problem.slots.len()]; problem.edge_stocks.len()];
    for course in &sheet.courses {
        for change in &course.changes {
            let point = &problem.points[change.point];
            if let Some(stock) = point.stock {
                taken[stock][course.lot.slot] += u64::from(point.edges);
            }
        }
    }
    for (stock, taken) in problem.edge_stocks.iter().zip(&taken) {
        let (mut there, mut gone) = (0_u64, 0_u64);
        for (slot, taken) in taken.iter().enumerate() {
            there += stock.arrivals.get(slot).map_or(0, |arrived| u64::from(*arrived));
            gone += taken;
            if gone > there {
                found.push(Violation(format!(
                    "{gone} edges of {} are taken by shift {slot}, {there} have come in",
                    stock.name
                )));
                break;
            }
        }
    }
}
