//! Whole runs held against reports on file. `UPDATE_GOLDEN=1` writes them anew; the change is then read like code.
//!
//! Numbers of the data files are rounded to four significant digits, so that a solver's last digits do not matter.

use crate::program::{project, stdout};

#[test]
fn reports_are_as_on_file() {
    let mut changed = Vec::new();
    for (name, report) in [
        ("vent-drive", &["plan"][..]),
        ("inch-shaft", &["plan", "scenarios/inch-shaft.toml"]),
        ("too-much", &["plan", "scenarios/too-much.toml"]),
        ("slowed-down", &["plan", "scenarios/slowed-down.toml"]),
        ("wear-of-the-shaft", &["wear", "--item", "drive-shaft", "--op", "10"]),
        ("fit-of-a-lathe", &["fit", "tests/logs/lathe1.csv", "--units", "inch"]),
        ("fit-of-mill-readings", &["fit", "tests/logs/milling-wear.csv", "--limit", "0.45 mm"]),
        ("actual-week", &["actual", "tests/logs/counts-vent-drive.csv"]),
    ] {
        for (format, ending) in [("text", "txt"), ("json", "json"), ("csv", "csv")] {
            let mut arguments = report.to_vec();
            arguments.extend(["--format", format]);
            let report = stdout(&arguments);
            let report = if format == "text" { report } else { rounded(&report) };
            let file = project(&format!("tests/golden/{name}.{ending}"));
            if std::env::var_os("UPDATE_GOLDEN").is_some() {
                std::fs::write(&file, &report).unwrap();
            }
            let known = std::fs::read_to_string(&file).unwrap_or_default();
            if known != report {
                let line = known.lines().zip(report.lines()).position(|(one, other)| one != other);
                changed.push(format!("{name}.{ending} from line {}", line.map_or(0, |line| line + 1)));
            }
        }
    }
    assert!(
        changed.is_empty(),
        "reports differ from those on file (UPDATE_GOLDEN=1 rewrites them): {changed:?}"
    );
}

/// Numbers with a decimal point, to four significant digits.
fn rounded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut number = String::new();
    for character in text.chars().chain(['\n']) {
        let inside =
            !number.is_empty() && (character.is_ascii_digit() || matches!(character, '.' | 'e' | '-'));
        let begins = number.is_empty()
            && character.is_ascii_digit()
            && !out.ends_with(|before: char| before.is_alphanumeric() || matches!(before, '-' | '_' | '.'));
        if inside || begins {
            number.push(character);
            continue;
        }
        match number.parse::<f64>() {
            Ok(value) if number.contains('.') => out.push_str(&four_digits(value)),
            _ => out.push_str(&number),
        }
        number.clear();
        out.push(character);
    }
    out.pop();
    out
}

fn four_digits(value: f64) -> String {
    format!("{:e}", format!("{value:.3e}").parse::<f64>().unwrap())
}

#[test]
fn only_numbers_with_a_point_are_rounded() {
    assert_eq!(rounded("a 12.345678, 2027-03-01 7"), "a 1.235e1, 2027-03-01 7");
    assert_eq!(rounded("x1.25 3"), "x1.25 3");
}
