//! Life laws in whole cuts: wear land, ranges, Colding, holes, clearance.

use super::workshop::{assert_near, only_cut, operation};
use wearland::cycle::{CutEstimate, Making, Shop, estimate_operation};
use wearland::input::{Origin, load};
use wearland::quantity::{Limit, parse};
use wearland::tooling::{LifeFamily, Tool};

const LATHE: &str = r#"
[[part.piece.operation.cut]]
id = "turn"
tool = "own"
feed = "0.3 mm/rev"
depth = "2 mm"
turn = { from = "60 mm", to = "56 mm", length = "98 mm" }
"#;

const MACHINE: &str = r#"
[machine.machine]
like = "chucking-lathe"
spindle_speed = "4000 rpm"
availability = "90 %"
coolant = "dry"
[tool.own]
title = "insert"
kind = "insert"
designation = "CNMG120408"
substrate = "coated carbide"
edges = 4
corner_radius = "0.8 mm"
edge_angle = "95 deg"
"#;

const TAYLOR: &str = r#"
[tool.own.life.P]
speed = "200 m/min"
feed = "0.3 mm/rev"
depth = "2 mm"
life = "15 min"
wear = "0.3 mm"
curve = [[0.1, 0.35], [0.9, 0.8], [1, 1]]
coolant = "dry"
n = 0.25
speeds = "100 .. 400 m/min"
"#;

/// One turned cut: keys of the cut, keys of the life table.
fn turned(cut: &str, life: &str) -> CutEstimate {
    only_cut(&format!("{LATHE}{cut}\n{MACHINE}{life}"))
}

/// The shop of such a scenario.
fn shop(life: &str) -> Shop {
    let head = "[scenario]\ntitle = \"tools\"\nunits = \"metric\"\ncurrency = \"EUR\"\n[calendar]\nstart = \"2027-03-01\"\ndays = 1\n\
        [shift.early]\nfrom = \"06:00\"\nto = \"14:00\"\n[part.piece]\nmaterial = \"C45\"\n[part.piece.blank]\n\
        [[part.piece.operation]]\nid = 10\nmachines = [\"machine\"]\n";
    let text = format!("{head}{LATHE}speed = \"200 m/min\"\n{MACHINE}{life}");
    let loaded = load(&Origin::Text { name: "tools.toml".to_owned(), bytes: text.into_bytes() }).unwrap();
    assert!(loaded.scenario.is_some(), "{:?}", loaded.diagnostics);
    loaded.scenario.unwrap().shop
}

/// The tool of such a scenario.
fn tool(life: &str) -> Tool {
    let shop = shop(life);
    let place = shop.items[0].operations[0].cuts[0].tool;
    shop.tools[place].clone()
}

#[test]
fn a_smaller_land_ends_the_life_sooner() {
    let whole = turned("speed = \"200 m/min\"", TAYLOR);
    let early = turned("speed = \"200 m/min\"\nwear = \"0.2 mm\"", TAYLOR);
    // Two thirds of the land on the piece from (0.1, 0.35) to (0.9, 0.8).
    let age = 0.1 + 0.8 * (2.0 / 3.0 - 0.35) / 0.45;
    assert_near(early.edge.life / whole.edge.life, age, 1e-9);
    assert_near(whole.edge.share / early.edge.share, age, 1e-9);
    assert!(early.edge.pieces < whole.edge.pieces);
    let late = turned("speed = \"200 m/min\"\nwear = \"0.4 mm\"", TAYLOR);
    assert_near(late.edge.life / whole.edge.life, 1.0 + 0.1 * (1.0 / 3.0) / 0.2, 1e-9);
    assert!(late.cautions.iter().any(|caution| caution.subject == "wear land"));
    assert!(early.cautions.is_empty(), "{:?}", early.cautions);
}

#[test]
fn the_workings_show_the_land() {
    let body = format!("{LATHE}speed = \"200 m/min\"\nwear = \"0.2 mm\"\n{MACHINE}{TAYLOR}");
    let steps = operation(&body).cuts.remove(0).1.0;
    let figures: Vec<&str> = steps.iter().map(|step| step.formula.figure).collect();
    assert!(figures.contains(&"tool life to the stated wear land"), "{figures:?}");
}

#[test]
fn outside_the_stated_feeds_and_depths_is_a_caution() {
    let law = format!("{TAYLOR}feeds = \"0.1 .. 0.25 mm/rev\"\ndepths = \"2.5 .. 4 mm\"\n");
    let stretched = turned("speed = \"200 m/min\"", &law);
    let subjects: Vec<&str> = stretched.cautions.iter().map(|caution| caution.subject).collect();
    assert_eq!(subjects, ["feed", "depth of cut"]);
    assert!(stretched.cautions.iter().all(|caution| matches!(caution.limit, Limit::Within(..))));
}

#[test]
fn colding_gives_the_life_and_the_reference_speed() {
    let law = r#"
[tool.own.life.P]
colding = [6.3, -2.0, 1.0, 0.30, 0.02]
feed = "0.3 mm/rev"
depth = "2 mm"
coolant = "dry"
speeds = "100 .. 400 m/min"
"#;
    let cut = turned("speed = \"250 m/min\"", law);
    // Chip of 0.229793 mm by the worked row; x = ln of it; ln T = (6.3 - (x + 2)^2 / 4 - ln(250 / k)) / (0.30 - 0.02 x).
    let x = 0.229793_f64.ln();
    let top = 6.3 - (x + 2.0).powi(2) / 4.0;
    let n = 0.30 - 0.02 * x;
    let k = cut.edge.factors.product();
    assert_near(cut.edge.life.to_min(), ((top - (250.0 / k).ln()) / n).exp(), 1e-5);
    let speed = tool(law).lives[0].1.speed.value.to_m_per_min();
    assert_near(speed, (top - n * 15.0_f64.ln()).exp(), 1e-5);
}

#[test]
fn a_drill_life_in_holes_is_a_path() {
    let drilled = |life: &str| {
        only_cut(&format!(
            r#"
[[part.piece.operation.cut]]
id = "drill"
tool = "bit"
speed = "30 m/min"
feed = "0.2 mm/rev"
drill = {{ depth = "20 mm" }}
[machine.machine]
like = "chucking-lathe"
spindle_speed = "4000 rpm"
availability = "90 %"
coolant = "dry"
[tool.bit]
title = "drill"
kind = "drill"
substrate = "HSS"
edges = 1
diameter = "10 mm"
[tool.bit.life.P]
speed = "30 m/min"
feed = "0.2 mm/rev"
life = "{life}"
coolant = "dry"
n = 0.2
speeds = "10 .. 60 m/min"
"#
        ))
    };
    let (holes, path) = (drilled("800 holes of 25 mm"), drilled("20 m"));
    assert_eq!(holes.edge, path.edge);
    // 20 m at 0.2 mm for each of 954.93 turns a minute, in the reference material.
    let k = holes.edge.factors.product();
    assert_near(
        holes.edge.life.to_min(),
        20_000.0 / (0.2 * 30_000.0 / (std::f64::consts::PI * 10.0)) * k.powi(5),
        1e-9,
    );
}

#[test]
fn scatter_finish_and_clearance_are_read() {
    let law = format!("worn_finish = 1.6\n{TAYLOR}variation = 0.3\nfamily = \"lognormal\"\n");
    let own = tool(&law);
    assert_eq!(own.worn_finish, Some(1.6));
    let life = &own.lives[0].1;
    assert_eq!(
        (life.variation.as_ref().map(|is| is.value), life.family),
        (Some(0.3), Some(LifeFamily::Lognormal))
    );
    // N as second letter has no clearance of its own and sits tilted; a stated clearance goes first.
    assert_near(own.clearance().unwrap().to_deg(), 6.0, 1e-12);
    assert_near(tool(&format!("clearance = \"5 deg\"\n{TAYLOR}")).clearance().unwrap().to_deg(), 5.0, 1e-12);
    let mut positive = own;
    positive.designation = Some("CCMT09T308".to_owned());
    assert_near(positive.clearance().unwrap().to_deg(), 7.0, 1e-12);
}

#[test]
fn hardness_beyond_the_fit_is_a_caution() {
    let cautions = |hardness: &str| {
        let mut shop = shop(TAYLOR);
        if let Making::Part { hardness: own, .. } = &mut shop.items[0].making {
            *own = Some(parse(hardness).unwrap());
        }
        estimate_operation(&shop, (0, 0, 0), wearland::quantity::Money::ZERO)
            .unwrap()
            .cuts
            .remove(0)
            .0
            .cautions
    };
    assert!(cautions("300 HB").is_empty());
    let beyond = cautions("320 HB");
    assert_eq!(beyond[0].subject, "hardness of the part");
}
