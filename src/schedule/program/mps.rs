//! A model written as a file in free MPS, the form that solvers read.

use super::model::{Column, Model, Row};
use std::collections::BTreeSet;
use std::fmt;

/// Name of the row that holds the costs.
const COSTS: &str = "COSTS";

/// Words that begin a section; a reader may take a name of that form for one.
const SECTIONS: [&str; 14] = [
    "NAME",
    "ROWS",
    "COLUMNS",
    "RHS",
    "RANGES",
    "BOUNDS",
    "ENDATA",
    "OBJSENSE",
    "OBJSENSE:",
    "OBJSECT",
    "MAX",
    "MIN",
    "SOS",
    "QUADOBJ",
];

/// Writes a model as free MPS: its costs are minimised, numbers read back as the same numbers.
///
/// Names keep their letters, digits and marks of plain text; other characters become `_`, and names that then agree are
/// numbered. The second bound of a row with two stands in `RANGES` as their difference, which reads back rounded.
///
/// # Errors
/// Those of the writer.
pub fn write_mps(model: &Model, name: &str, out: &mut impl fmt::Write) -> fmt::Result {
    let columns = names(model.columns.iter().map(|column| column.name.as_str()), "c");
    let taken = std::iter::once(COSTS).chain(model.rows.iter().map(|row| row.name.as_str()));
    let rows: Vec<String> = names(taken, "r").split_off(1);
    writeln!(out, "NAME {}", plain(name, "model"))?;
    writeln!(out, "ROWS\n N {COSTS}")?;
    for (row, name) in model.rows.iter().zip(&rows) {
        writeln!(out, " {} {name}", sense(row))?;
    }
    write_columns(model, &columns, &rows, out)?;
    writeln!(out, "RHS")?;
    for (row, name) in model.rows.iter().zip(&rows) {
        let right = if sense(row) == 'G' { row.lower } else { row.upper };
        if right.is_finite() && right != 0.0 {
            writeln!(out, " RHS {name} {right}")?;
        }
    }
    if model.rows.iter().any(Row::is_two_sided) {
        writeln!(out, "RANGES")?;
    }
    for (row, name) in model.rows.iter().zip(&rows).filter(|(row, _)| row.is_two_sided()) {
        writeln!(out, " RANGE {name} {}", row.upper - row.lower)?;
    }
    writeln!(out, "BOUNDS")?;
    for (column, name) in model.columns.iter().zip(&columns) {
        write_bounds(column, name, out)?;
    }
    writeln!(out, "ENDATA")
}

/// Letter of a row: an equation, a bound above or below, or none.
fn sense(row: &Row) -> char {
    match (row.lower.is_finite(), row.upper.is_finite()) {
        _ if row.is_equation() => 'E',
        // The other bound is reckoned from this one, and the smaller one reckons better.
        (true, true) => {
            if row.lower.abs() <= row.upper.abs() {
                'G'
            } else {
                'L'
            }
        }
        (false, true) => 'L',
        (true, false) => 'G',
        (false, false) => 'N',
    }
}

fn write_columns(
    model: &Model,
    columns: &[String],
    rows: &[String],
    out: &mut impl fmt::Write,
) -> fmt::Result {
    let mut terms = vec![Vec::new(); columns.len()];
    for (row, name) in model.rows.iter().zip(rows) {
        for (at, factor) in row.single_terms().iter() {
            terms[*at].push((name, *factor));
        }
    }
    writeln!(out, "COLUMNS")?;
    let mut marks = 0;
    let mut whole = false;
    for ((column, name), terms) in model.columns.iter().zip(columns).zip(&terms) {
        if column.whole != whole {
            whole = column.whole;
            marks += 1;
            let kind = if whole { "INTORG" } else { "INTEND" };
            writeln!(out, " MARK{marks} 'MARKER' '{kind}'")?;
        }
        if column.cost != 0.0 || terms.is_empty() {
            writeln!(out, " {name} {COSTS} {}", column.cost)?;
        }
        for (row, factor) in terms {
            writeln!(out, " {name} {row} {factor}")?;
        }
    }
    if whole { writeln!(out, " MARK{} 'MARKER' 'INTEND'", marks + 1) } else { Ok(()) }
}

/// Bounds other than "from zero up"; whole columns always, because readers differ in what they take for granted.
#[expect(clippy::float_cmp, reason = "a fixed column has its bounds set from one number")]
fn write_bounds(column: &Column, name: &str, out: &mut impl fmt::Write) -> fmt::Result {
    let Column { lower, upper, whole, .. } = *column;
    if lower == upper {
        return writeln!(out, " FX BOUND {name} {lower}");
    }
    if lower == f64::NEG_INFINITY && upper == f64::INFINITY {
        return writeln!(out, " FR BOUND {name}");
    }
    if lower == f64::NEG_INFINITY {
        writeln!(out, " MI BOUND {name}")?;
    } else if lower != 0.0 || whole {
        writeln!(out, " LO BOUND {name} {lower}")?;
    }
    if upper.is_finite() {
        writeln!(out, " UP BOUND {name} {upper}")?;
    } else if whole {
        writeln!(out, " PL BOUND {name}")?;
    }
    Ok(())
}

/// Names of one kind, plain and all different.
fn names<'a>(own: impl Iterator<Item = &'a str>, empty: &str) -> Vec<String> {
    let mut taken = BTreeSet::new();
    own.map(|own| {
        let plain = plain(own, empty);
        let numbered = (2..).map(|number: u64| format!("{plain}~{number}"));
        let name = std::iter::once(plain.clone()).chain(numbered).find(|name| !taken.contains(name));
        let name = name.unwrap_or(plain);
        taken.insert(name.clone());
        name
    })
    .collect()
}

/// A name without spaces that is no word of the format.
fn plain(name: &str, empty: &str) -> String {
    let plain: String = name.chars().map(|sign| if sign.is_ascii_graphic() { sign } else { '_' }).collect();
    let is_word = SECTIONS.contains(&plain.to_ascii_uppercase().as_str());
    match plain.chars().next() {
        None => empty.to_owned(),
        // A leading star or dollar begins a comment, a quote a marker.
        Some('*' | '$' | '\'') => format!("_{plain}"),
        Some(_) if is_word => format!("{plain}_"),
        Some(_) => plain,
    }
}

#[cfg(test)]
mod tests {
    use super::names;

    #[test]
    fn names_are_plain_and_differ() {
        let own = ["a b", "a_b", "", "*", "Rhs", "a b", "größe", "a_b~2"];
        let expected = ["a_b", "a_b~2", "c", "_*", "Rhs_", "a_b~3", "gr__e", "a_b~2~2"];
        assert_eq!(names(own.into_iter(), "c"), expected);
    }
}
