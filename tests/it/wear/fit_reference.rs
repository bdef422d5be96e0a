//! What a log held fixed, what its feeds are for, and how hard the work was.

use super::fit_overlay::scenario;
use super::program_files::{Folder, number, report, row, rows};
use crate::families::workshop::assert_near;
use crate::program::run;

/// Lives at two speeds about the reference of `turn-80-08`, all else fixed.
fn log(feed: &str) -> String {
    let rows: String = [(200, 21.0), (200, 25.0), (200, 18.5), (240, 11.2), (240, 9.7), (240, 12.9)]
        .iter()
        .map(|(speed, life)| format!("{speed},{},2.5,{life},worn\n", feed.split_once(' ').unwrap().0))
        .collect();
    format!("speed_m_per_min,feed_{},depth_mm,time_min,outcome\n{rows}", feed.split_once(' ').unwrap().1)
}

#[test]
fn a_prior_is_moved_to_the_feed_of_the_log() {
    let folder = Folder::new("fit-prior-feed");
    let file = folder.write("log.csv", &log("0.15 mm_per_rev"));
    let fitted = report(&["fit", &file, "--tool", "turn-80-08", "--material", "C45", "--prior"]);
    let life = row(&rows(&fitted, "constants"), &[("constant", "T_0")]);
    // 15 min at 0.3 mm/rev, exponents 0.3 of the feed and 0.25 of the life: T_0 (f_0 / f)^(a/n); that of Weibull is a mean.
    let mean = number(&life, "prior");
    assert_near(mean, 15.0 * 2.0_f64.powf(0.3 / 0.25), 1e-9);
}

#[test]
fn a_feed_for_a_turn_and_for_a_tooth_is_one_feed() {
    let folder = Folder::new("fit-teeth");
    let cut = |feed: &str| {
        let file = folder.write("mill.csv", &log(feed));
        let to = folder.path("mill.toml");
        let arguments = ["fit", &file, "--tool", "mill-10-carbide", "--material", "C45", "--to", &to];
        assert_eq!(run(&arguments).status.code(), Some(0));
        let text = std::fs::read_to_string(&to).unwrap();
        text.lines().find(|line| line.starts_with("feed =")).unwrap().to_owned()
    };
    assert_eq!(cut("0.12 mm_per_rev"), "feed = \"0.03 mm/tooth\"");
    assert_eq!(cut("0.03 mm_per_tooth"), "feed = \"0.03 mm/tooth\"");
    let file = folder.write("turn.csv", &log("0.12 mm_per_tooth"));
    let wrong = run(&["fit", &file, "--tool", "turn-80-08", "--material", "C45", "--prior"]);
    assert_eq!(wrong.status.code(), Some(2));
}

#[test]
fn what_was_cut_harder_lasts_as_long_when_it_is_planned_as_hard() {
    let folder = Folder::new("fit-hardness");
    let (file, to) = (folder.write("log.csv", &log("0.3 mm_per_rev")), folder.path("own.toml"));
    let arguments =
        ["fit", &file, "--tool", "turn-80-08", "--material", "C45", "--hardness", "215 HB", "--to", &to];
    let constants = rows(&report(&arguments), "constants");
    let value = |name: &str| number(&row(&constants, &[("constant", name)]), "value");
    let fitted = value("T_0") * (value("V_0") / 220.0).powf(1.0 / value("n"));
    let hard = scenario(220.0).replace("[part.shaft.blank]", "hardness = \"215 HB\"\n[part.shaft.blank]");
    let shop = folder.write("shaft.toml", &hard);
    let cycle = report(&["cycle", &shop, "--overlay", &to]);
    assert_near(number(&rows(&cycle, "wear")[0], "life_min"), fitted, 1e-4);
}

#[test]
fn a_law_of_colding_takes_no_constants_of_taylor() {
    let folder = Folder::new("fit-colding");
    let shop =
        folder.write("shop.toml", "[tool.turn-80-08.life.P]\ncolding = [6.3, -2.0, 1.0, 0.30, 0.02]\n");
    let (file, to) = (folder.write("log.csv", &log("0.3 mm_per_rev")), folder.path("own.toml"));
    let output =
        run(&["fit", &file, "--tool", "turn-80-08", "--material", "C45", "--scenario", &shop, "--to", &to]);
    assert_eq!(output.status.code(), Some(3));
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("E305") && said.contains("Colding"), "{said}");
    assert!(!std::path::Path::new(&to).exists());
}
