//! One operation on one machine, read from text and worked out.

use wearland::cycle::{CutEstimate, OperationEstimate, estimate_operation};
use wearland::diag::{Color, render};
use wearland::input::{Origin, load};

const HEAD: &str = r#"
[scenario]
title = "families"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[part.piece]
material = "C45"
[part.piece.blank]
[[part.piece.operation]]
id = 10
machines = ["machine"]
"#;

/// Works out an operation whose cuts, machine and tools stand in `body`; its machine is called `machine`.
pub(super) fn operation(body: &str) -> OperationEstimate {
    let bytes = format!("{HEAD}{body}").into_bytes();
    let loaded = load(&Origin::Text { name: "families.toml".to_owned(), bytes }).unwrap();
    assert!(loaded.scenario.is_some(), "{}", render(&loaded.diagnostics, &loaded.sources, Color::Plain));
    let scenario = loaded.scenario.unwrap();
    estimate_operation(&scenario.shop, (0, 0, 0), wearland::quantity::Money::ZERO).unwrap()
}

/// The only cut of an operation.
pub(super) fn only_cut(body: &str) -> CutEstimate {
    let mut cuts = operation(body).cuts;
    assert_eq!(cuts.len(), 1);
    cuts.remove(0).0
}

/// Fails unless a figure is within a share of the one expected.
pub(crate) fn assert_near(got: f64, expected: f64, share: f64) {
    let error = (got - expected).abs() / expected.abs();
    assert!(error <= share, "got {got}, expected {expected}, off by {error:.1e}");
}
