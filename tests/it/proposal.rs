//! From a drawing to cuts: what is proposed runs through a plan, takes exactly the metal between stock and drawing, and is
//! the same each time.

use crate::program::{project, run, stdout};
use std::f64::consts::PI;
use wearland::cycle::{Making, Stock, propose};
use wearland::input::{Origin, Purpose, load_for};

const DRAWING: &str = "tests/drawings/drive-shaft.toml";

/// The shaft of the drawing with other features.
fn drawn(features: &str) -> String {
    let text = std::fs::read_to_string(project(DRAWING)).unwrap();
    let (head, rest) = text.split_once("[part.shaft.drawing]").unwrap();
    let order = rest.split_once("[[order]]").unwrap().1;
    format!("{head}[part.shaft.drawing]\n{features}\n[[order]]{order}")
}

#[test]
fn a_drawing_becomes_an_operation_that_plans() {
    let proposal = stdout(&["propose", DRAWING]);
    assert!(proposal.starts_with("# Proposed from the drawing"));
    assert_eq!(proposal, stdout(&["propose", DRAWING]));
    let whole = std::fs::read_to_string(project(DRAWING)).unwrap() + &proposal;
    let file = std::env::temp_dir().join(format!("wearland-proposal-{}.toml", std::process::id()));
    std::fs::write(&file, whole).unwrap();
    let plan = run(&["plan", file.to_str().unwrap()]);
    std::fs::remove_file(&file).unwrap();
    assert_eq!(plan.status.code(), Some(0), "{}", String::from_utf8_lossy(&plan.stderr));
    // Every cut, and every choice in it, is said.
    let cuts = proposal.matches("[[part.shaft.operation.cut]]").count();
    assert!(cuts >= 15, "{cuts} cuts");
    assert!(proposal.matches("# why: ").count() >= 2 * cuts);
}

#[test]
fn the_proposed_cuts_take_the_metal_between_stock_and_drawing() {
    // Front: 14, then 16 finished, 20; behind the thickest step a cone 20 to 15 and a finished end of 14.
    let features = r#"
steps = [
    { diameter = "14 mm", length = "20 mm" },
    { diameter = "16 mm", length = "31 mm", tolerance = "IT7", roughness = "1.6 um" },
    { diameter = "20 mm", length = "50 mm", roughness = "3.2 um" },
    { diameter = "20 mm", end = "15 mm", length = "20 mm" },
    { diameter = "14 mm", length = "20 mm", tolerance = "IT8" },
]
grooves = [{ diameter = "14 mm", width = "3 mm", at = "47 mm" }]
"#;
    let origin = Origin::Text { name: "drawn.toml".to_owned(), bytes: drawn(features).into_bytes() };
    let scenario = load_for(&origin, &[], Purpose::Propose).unwrap().scenario.unwrap();
    let proposal = propose(&scenario.shop, 0).unwrap();
    let Making::Part { stock: Stock::Bar(bar), drawing: Some(drawing), .. } = &scenario.shop.items[0].making
    else {
        unreachable!("the part is drawn and cut from bar")
    };
    let cone =
        |one: f64, other: f64, length: f64| PI * length * (one * one + one * other + other * other) / 12.0;
    let piece: f64 = drawing
        .steps
        .iter()
        .map(|step| {
            let (start, end) = (step.diameter.to_mm(), step.end.unwrap_or(step.diameter).to_mm());
            cone(start, end, step.length.to_mm())
        })
        .sum();
    let groove = PI / 4.0 * (16.0_f64.powi(2) - 14.0_f64.powi(2)) * 3.0;
    let used = drawing.length().to_mm() + 2.0 * bar.facing.to_mm() + bar.cutoff.to_mm();
    let size = bar.size.to_mm();
    let expected = cone(size, size, used) - (piece - groove);
    let removed: f64 = proposal.cuts.iter().map(|cut| cut.estimate.removed.unwrap().to_cm3() * 1000.0).sum();
    assert!((removed / expected - 1.0).abs() < 1e-9, "removed {removed}, expected {expected}");
}

#[test]
fn tools_fit_what_they_cut() {
    let origin = Origin::Path(project(DRAWING));
    let scenario = load_for(&origin, &[], Purpose::Propose).unwrap().scenario.unwrap();
    let proposal = propose(&scenario.shop, 0).unwrap();
    for proposed in &proposal.cuts {
        let tool = &scenario.shop.tools[proposed.cut.tool];
        assert!(proposed.cut.work.tools().0.contains(&tool.kind), "{} for {}", tool.key, proposed.cut.id);
        assert!(!proposed.estimate.limits.iter().any(|limit| limit.broken()), "{}", proposed.cut.id);
        assert!(proposed.estimate.edge.pieces > 0, "{}", proposed.cut.id);
        let pitched = proposed.cut.id.starts_with("thread") || proposed.cut.id.starts_with("tap");
        assert_eq!(proposed.cut.feed.is_none(), pitched, "{}", proposed.cut.id);
        if let Some(asked) = proposed.cut.asked.roughness {
            let corner = tool.geometry.corner_radius.unwrap();
            let feed = proposed.cut.feed.unwrap().advance();
            // Ra of feed marks, f^2 / (18 sqrt(3) r).
            let marks = feed.to_mm().powi(2) / (18.0 * 3.0_f64.sqrt() * corner.to_mm()) * 1000.0;
            assert!(marks <= asked.to_um(), "{} leaves {marks} um", proposed.cut.id);
        }
    }
}

#[test]
fn what_cannot_be_proposed_is_named_at_its_place() {
    let cases = [
        (
            "steps = [{ diameter = \"14 mm\", length = \"50 mm\" }, { diameter = \"12 mm\", length = \"20 mm\" }, { diameter = \"20 mm\", length = \"71 mm\" }]",
            "thinner",
        ),
        (
            "steps = [{ diameter = \"20 mm\", length = \"141 mm\" }]\ncross_holes = [{ diameter = \"4.37 mm\", depth = \"10 mm\" }]",
            "a drill or reamer of this size",
        ),
        ("steps = [{ diameter = \"20 mm\", length = \"140 mm\" }]", "the steps are 140 mm long together"),
        ("steps = [{ diameter = \"25 mm\", length = \"141 mm\" }]", "thicker than the bar"),
    ];
    for (features, wanted) in cases {
        let file = std::env::temp_dir().join(format!("wearland-drawn-{}.toml", std::process::id()));
        std::fs::write(&file, drawn(features)).unwrap();
        let answer = run(&["propose", file.to_str().unwrap()]);
        std::fs::remove_file(&file).unwrap();
        let said = String::from_utf8_lossy(&answer.stderr);
        assert_eq!(answer.status.code(), Some(3), "{said}");
        assert!(said.contains(wanted), "{said}");
    }
}
