//! What comes first on a machine, and how much of it: work that goes on, and lots large enough for their setup.

use super::rules::Violation;
use super::sheet::{Course, Sheet};

/// When a lot begins, and its pieces.
type Begun = (i64, u64);

pub(super) fn check(sheet: &Sheet<'_>, found: &mut Vec<Violation>) {
    let needs = needs(sheet);
    let mut started: Vec<Vec<Begun>> = vec![Vec::new(); sheet.problem.steps.len()];
    for course in &sheet.courses {
        started[course.activity.step].push((course.lot.start, u64::from(course.lot.pieces)));
    }
    for machine in 0..sheet.rows.len() {
        goes_on(sheet, machine, found);
        let row: Vec<&Course<'_>> = sheet.row(machine).collect();
        let mut campaigns = row.chunk_by(|one, other| one.lot.activity == other.lot.activity).peekable();
        while let Some(campaign) = campaigns.next() {
            // The last of a machine may go on after the horizon.
            if campaigns.peek().is_some() {
                found.extend(too_small(sheet, campaign, (&needs, &started)));
            }
        }
    }
}

/// Until the work that goes on is started, nothing else is laid on its machine.
fn goes_on(sheet: &Sheet<'_>, machine: usize, found: &mut Vec<Violation>) {
    let problem = sheet.problem;
    let running = problem.running.iter();
    let mut left: Vec<(usize, u64)> = running
        .filter(|running| problem.activities[running.activity].machine == Some(machine))
        .map(|running| (running.activity, u64::from(running.pieces)))
        .collect();
    for course in sheet.row(machine) {
        left.retain(|(_, pieces)| *pieces > 0);
        let Some((activity, open)) = left.first().copied() else { return };
        match left.iter_mut().find(|(activity, _)| *activity == course.lot.activity) {
            Some((_, pieces)) => *pieces = pieces.saturating_sub(u64::from(course.lot.pieces)),
            None => {
                let name = &problem.steps[problem.activities[activity].step].name;
                found.push(Violation(format!(
                    "{} turns to {} at {} s while {open} pieces of {name} that goes on are not started",
                    sheet.on(course),
                    sheet.makes(course),
                    course.lot.start
                )));
                return;
            }
        }
    }
}

/// Pieces that must be started of each step for all orders and the stock wanted at the end: no more than this is ever needed.
fn needs(sheet: &Sheet<'_>) -> Vec<f64> {
    let problem = sheet.problem;
    let mut used = vec![0.0; problem.steps.len()];
    for demand in problem.demands.iter().filter(|demand| demand.market.is_none()) {
        used[demand.step] += demand.quantity;
    }
    let mut needs = vec![0.0; problem.steps.len()];
    for (id, step) in problem.steps.iter().enumerate().rev() {
        let short = (used[id] + step.closing - step.opening.floor()).max(0.0);
        needs[id] = if step.good > 0.0 { (short / step.good - 1e-6).ceil().max(0.0) } else { f64::INFINITY };
        for (input, each) in &step.inputs {
            used[*input] += each * needs[id];
        }
    }
    needs
}

/// A setup is followed by the least lot or by all that is still wanted when the lots after it end. What other machines start
/// until then counts as begun before: whoever laid the lots may have known.
fn too_small(sheet: &Sheet<'_>, campaign: &[&Course<'_>], of: (&[f64], &[Vec<Begun>])) -> Option<Violation> {
    let (needs, started) = of;
    let (first, last) = (campaign.first()?, campaign.last()?);
    let least = u64::from(first.activity.least_lot);
    let pieces: u64 = campaign.iter().map(|course| u64::from(course.lot.pieces)).sum();
    if first.outside || first.lot.setup <= 0.0 || pieces >= least {
        return None;
    }
    let step = first.activity.step;
    let begun: u64 =
        started[step].iter().filter(|(start, _)| *start <= last.lot.end).map(|(_, pieces)| pieces).sum();
    #[expect(clippy::cast_precision_loss, reason = "far fewer than 2^52 pieces")]
    let begun = begun as f64;
    (begun < needs[step] - 1e-6).then(|| {
        Violation(format!(
            "{} is set up for {} at {} s and makes {pieces} pieces, at least {least} are owed",
            sheet.on(first),
            sheet.makes(first),
            first.lot.start
        ))
    })
}
