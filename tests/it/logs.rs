//! Logs as shops keep them: read whole, with the figures that stand in them.

use crate::program::project;
use approx::assert_relative_eq;
use wearland::diag::{Code, Color, render};
use wearland::input::Origin;
use wearland::input::log::{
    CountRow, Log, Outcome, ReadLog, ToolChange, WearTest, read_counts, read_log, read_tool_log,
    read_wear_readings,
};

fn whole<T>(log: ReadLog<T>) -> T {
    let said = render(&log.diagnostics, &log.sources, Color::Plain);
    assert!(log.rows.is_some(), "{said}");
    log.rows.unwrap()
}

fn text(text: &str) -> Origin {
    Origin::Text { name: "log.csv".to_owned(), bytes: text.into() }
}

fn changes(name: &str) -> Vec<ToolChange> {
    whole(read_tool_log(&Origin::Path(project(&format!("tests/logs/{name}.csv")))).unwrap())
}

fn edges(changes: &[ToolChange], outcome: Outcome) -> u32 {
    changes.iter().filter(|change| change.outcome == outcome).map(|change| change.count).sum()
}

#[test]
fn each_log_has_the_edges_of_its_source() {
    for (name, worn, broken, early) in [
        ("lathe1", 20, 0, 0),
        ("vardeman-jobe", 36, 0, 0),
        ("vardeman-jobe-one-feed", 20, 0, 0),
        ("four-speeds", 4, 0, 0),
        ("four-speeds-misprinted", 4, 0, 0),
        ("generated-a", 35, 0, 5),
        ("generated-b", 15, 0, 15),
        ("generated-vf", 30, 0, 24),
        ("one-speed", 5, 1, 2),
        ("no-failure", 0, 0, 25),
        ("pasted-twice", 47, 0, 5),
    ] {
        let log = changes(name);
        let found = [Outcome::Worn, Outcome::Broken, Outcome::Early].map(|outcome| edges(&log, outcome));
        assert_eq!(found, [worn, broken, early], "{name}");
    }
}

/// Anchors of each source, worked again from what was read: mean of ln T, and of ln V in the log's own unit.
#[test]
fn sums_of_logarithms_reproduce() {
    let mean = |log: &[ToolChange], of: fn(&ToolChange) -> f64| {
        let count = f64::from(u32::try_from(log.len()).unwrap());
        log.iter().map(|change| of(change).ln()).sum::<f64>() / count
    };
    let life: fn(&ToolChange) -> f64 = |change| change.life.to_min();
    let speed: fn(&ToolChange) -> f64 = |change| change.speed.to_ft_per_min();
    for (name, intercept, slope) in
        [("vardeman-jobe-one-feed", 34.344_106, -5.185_673_6), ("four-speeds", 38.325_86, -5.847_407_1)]
    {
        let log = changes(name);
        // A least squares line runs through the means.
        let on_line = intercept + slope * mean(&log, speed);
        assert_relative_eq!(mean(&log, life), on_line, epsilon = 1e-5);
    }
}

#[test]
fn wear_readings_are_gathered_by_edge() {
    let path = Origin::Path(project("tests/logs/milling-wear.csv"));
    let Log::Readings(tests) = whole(read_log(&path).unwrap()) else { panic!("taken for tool changes") };
    assert_eq!(tests.len(), 16);
    assert_eq!(tests.iter().map(|test| test.readings.len()).sum::<usize>(), 146);
    for test in &tests {
        assert!(test.readings.windows(2).all(|pair| pair[0].time < pair[1].time), "{}", test.edge);
        let setting = &test.setting;
        assert!(setting.feed.is_some() && setting.depth.is_some() && setting.material.is_some());
        assert!(setting.speed.is_none());
    }
    let text = text("edge;wear_um;time;speed\nb;120,5;4 min;100 m/min\na;0;0 s;\nb;60;90 s;\n");
    let log = read_wear_readings(&text).unwrap();
    assert_eq!((log.notation.separator, log.notation.decimal), (';', ','));
    let tests: Vec<WearTest> = whole(log);
    assert_eq!((tests[0].edge.as_str(), tests[1].edge.as_str()), ("b", "a"));
    assert_relative_eq!(tests[0].readings[0].time.to_min(), 1.5);
    assert_relative_eq!(tests[0].readings[1].wear.to_mm(), 0.1205);
    assert!(tests[0].setting.speed.is_some() && tests[1].setting.speed.is_none());
}

#[test]
fn the_same_edge_in_any_spelling() {
    let plain = "speed_m_per_min,time_min,feed_mm_per_rev,outcome,tool\n60.96,14.5,0.254,worn,CNMG 12\n";
    let expected = whole(read_tool_log(&text(plain)).unwrap()).remove(0);
    for other in [
        "\u{feff}# shop 2\r\noutcome,tool,speed_ft_per_min,time_s,feed_in_per_rev\r\nworn,CNMG 12,200,870,0.01\r\n",
        "tool;outcome;speed;time;feed;x_who\n\"CNMG 12\";worn;60,96 m/min;14,5 min;0,254 mm/rev;1.2.3\n;;;;;\n",
        "tool,outcome,speed_sfm,pieces,cut_time_min,feed_ipr\n CNMG 12 , worn ,200,10,1.45,0.01,,\n",
        "tool,outcome,speed,time_h,feed_mm_per_tooth,notes\nCNMG 12,worn,200 fpm,0.24166666666666667,0.254,\"a\nb\"",
    ] {
        let log = whole(read_tool_log(&text(other)).unwrap());
        assert_eq!((log.len(), log[0].outcome, log[0].count), (1, Outcome::Worn, 1), "{other}");
        assert_eq!(log[0].tool, expected.tool, "{other}");
        assert_relative_eq!(log[0].speed.to_m_per_min(), 60.96, max_relative = 1e-12);
        assert_relative_eq!(log[0].life.to_min(), 14.5, max_relative = 1e-12);
        assert_relative_eq!(log[0].feed.unwrap().advance().to_mm(), 0.254, max_relative = 1e-12);
    }
}

#[test]
fn counts_keep_the_places_of_their_names() {
    let written = "date,shift,machine,item,operation,pieces,good,stopped_h,note\n\
        2027-03-01,early,lathe-1,drive-shaft,10,140,138,0.5,bar change\n\
        2027-03-01,early,lathe-1,drive-shaft,20,0,,,\n\
        2027-03-01,early,lathe-1,pinion,10,3,3,0.5,\n";
    let log = read_counts(&text(written)).unwrap();
    let place = |row: &CountRow| log.sources.text(row.machine.span).map(str::to_owned);
    let rows = log.rows.as_ref().unwrap();
    assert_eq!(place(&rows[1]), Some("lathe-1".to_owned()));
    assert_eq!((rows[1].pieces, rows[1].good, rows[1].stopped, rows[1].line), (0, None, None, 3));
    assert_eq!(rows[0].date.value.to_string(), "2027-03-01");
    assert_relative_eq!(rows[0].stopped.unwrap().to_min(), 30.0);
}

#[test]
fn what_is_no_log_is_refused_and_a_bad_log_ends() {
    let codes = |bytes: &[u8]| -> Vec<Code> {
        let origin = Origin::Text { name: "log.csv".to_owned(), bytes: bytes.to_vec() };
        let log = read_log(&origin).unwrap();
        assert!(log.rows.is_none());
        log.diagnostics.sorted().iter().map(|found| found.code).collect()
    };
    assert_eq!(codes(b" \r\n"), [Code::NotText]);
    assert_eq!(codes(b"a,b\n1,\xFF\n"), [Code::NotText]);
    assert_eq!(codes(b"# nothing but a remark"), [Code::LogShape]);
    assert_eq!(codes(b"speed_sfm,time_min,outcome\n"), [Code::LogShape]);
    let bad = format!("speed_sfm,time_min,outcome\n{}", "0,1,worn\n".repeat(5000));
    assert_eq!(codes(bad.as_bytes()).len(), 101);
    let short = format!("speed_sfm,time_min,outcome\n{}", "0,1\n".repeat(5000));
    assert_eq!(codes(short.as_bytes()).len(), 101);
    let long = format!("speed_sfm,time_s,outcome\n{}", "1,1,worn\n".repeat(1_000_001));
    assert_eq!(codes(long.as_bytes()), [Code::TooLarge]);
    assert!(read_log(&Origin::Path(project("tests/logs"))).is_err());
}
