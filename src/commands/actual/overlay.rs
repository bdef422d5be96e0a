//! Availability and performance as TOML to lay over the scenario.

use super::turns::MachineSum;
use crate::commands::study::Worked;
use crate::diag::escaped;
use crate::input::Origin;
use std::fmt::Write;

/// Least share that a scenario takes.
const LEAST: f64 = 0.01;

/// The text of the overlay.
pub(super) fn overlay(worked: &Worked, machines: &[MachineSum], counts: &Origin) -> String {
    let name = match counts {
        Origin::Path(path) => {
            path.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned())
        }
        Origin::Text { name, .. } => name.clone(),
        Origin::Demo => "demo".to_owned(),
    };
    let mut text = format!(
        "# Availability and performance from {}, by `wearland actual`. Lay over the scenario: wearland plan SCENARIO --overlay THIS-FILE\n",
        escaped(&name).replace(['\n', '\r'], " ")
    );
    for sum in machines {
        let key = &worked.scenario.shop.machines[sum.machine].key;
        let machine = format!("\"{}\"", key.replace('\\', "\\\\").replace('"', "\\\""));
        let few = if sum.turns < 5 { ": few shifts tell little" } else { "" };
        let percent = |share: f64| format!("{:.2} %", 100.0 * share.clamp(LEAST, 1.0));
        // Writing to a text cannot fail.
        let _ = write!(
            text,
            "\n# {} shifts, {:.1} h open, {:.1} h by the model{few}\n[machine.{machine}]\navailability = \"{}\"\n",
            sum.turns,
            sum.open.to_h(),
            sum.model.to_h(),
            percent(sum.availability(worked))
        );
        if let Some(performance) = sum.performance(worked) {
            let _ = writeln!(text, "performance = \"{}\"", percent(performance));
        }
    }
    text
}
