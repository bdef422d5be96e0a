//! How parts, operations, cuts and machines are called in tables, and machines that are alike joined.

use crate::cycle::OperationEstimate;
use crate::schedule::Scenario;

/// Item and number of the operation: `drive-shaft`, `10`.
pub(in crate::commands) fn operation(scenario: &Scenario, estimate: &OperationEstimate) -> (String, String) {
    let item = &scenario.shop.items[estimate.item];
    (item.key.clone(), item.operations[estimate.operation].id.to_string())
}

/// Estimates with all machines on which the operation comes out the same.
pub(in crate::commands) fn alike<'a>(
    scenario: &Scenario,
    estimates: &'a [OperationEstimate],
) -> Vec<(&'a OperationEstimate, String)> {
    let mut groups: Vec<(&OperationEstimate, Vec<&str>)> = Vec::new();
    for estimate in estimates {
        let name = scenario.shop.machines[estimate.machine].key.as_str();
        let same = groups.iter_mut().find(|(first, _)| {
            first.item == estimate.item
                && first.operation == estimate.operation
                && first.cuts == estimate.cuts
                && first.elements == estimate.elements
        });
        match same {
            Some((_, names)) => names.push(name),
            None => groups.push((estimate, vec![name])),
        }
    }
    groups.into_iter().map(|(estimate, names)| (estimate, names.join(", "))).collect()
}
