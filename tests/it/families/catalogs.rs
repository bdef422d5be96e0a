//! Every entry of the catalogs, read the way a scenario reads it.

use std::fmt::Write;
use wearland::diag::{Color, render};
use wearland::input::{CatalogEntry, Origin, catalog_entries, load};

const HEAD: &str = r#"
[scenario]
title = "catalogs"
units = "metric"
currency = "EUR"
[calendar]
start = "2027-03-01"
days = 1
[shift.early]
from = "06:00"
to = "14:00"
[machine.bench]
like = "hand-assembly"
availability = "90 %"
[part.piece]
material = "C45"
[part.piece.blank]
[[part.piece.operation]]
id = 10
machines = ["bench"]
fixed = { time = "1 min" }
"#;

#[test]
fn every_entry_can_be_used() {
    let mut text = HEAD.to_owned();
    for kind in ["material", "tool", "machine"] {
        for CatalogEntry { key, figures, .. } in catalog_entries(kind) {
            writeln!(text, "[{kind}.own-{key}]\nlike = \"{key}\"").unwrap();
            if kind == "machine" {
                writeln!(text, "availability = \"90 %\"").unwrap();
                let station = figures.iter().any(|figure| figure.name == "kind" && figure.value == "station");
                if !station {
                    writeln!(text, "coolant = \"soluble-flood\"").unwrap();
                }
            }
        }
    }
    let origin = Origin::Text { name: "catalogs.toml".to_owned(), bytes: text.into_bytes() };
    let loaded = load(&origin).unwrap();
    assert!(loaded.scenario.is_some(), "{}", render(&loaded.diagnostics, &loaded.sources, Color::Plain));
    let shop = loaded.scenario.unwrap().shop;
    for tool in &shop.tools {
        assert!(!tool.lives.is_empty(), "{} has no life", tool.key);
        for (group, law) in &tool.lives {
            let coolant = shop.coolants.iter().find(|coolant| coolant.key == law.coolant);
            let factor = coolant.and_then(|coolant| coolant.factor(tool.substrate, *group));
            assert!(factor.is_some(), "{}: no factor of `{}`", tool.key, law.coolant);
            let inside = law.speeds.low <= law.speed.value && law.speed.value <= law.speeds.high;
            assert!(inside, "{}: reference speed outside its own range", tool.key);
        }
    }
    assert!(shop.materials.iter().all(|material| material.modulus.is_some()));
}
