//! Files of worked examples: what to make most or least of, rows as they are printed in books, and what comes out.

use serde::Deserialize;
use std::collections::BTreeMap;
use wearland::schedule::{Model, Row};

/// An example.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Example {
    pub(super) source: String,
    pub(super) at: String,
    /// How the data were come by.
    pub(super) data: Standing,
    /// How the optimum was come by.
    pub(super) optimum: Standing,
    pub(super) note: Option<String>,
    /// What to make most of, or least of: `3 toy + 2 train`.
    pub(super) most: Option<String>,
    pub(super) least: Option<String>,
    /// The optimum.
    pub(super) value: f64,
    /// The optimum where no column need be whole.
    pub(super) relaxed: Option<f64>,
    /// The value in print, and whether it comes out; a print rounds to its last digit.
    pub(super) printed: Option<f64>,
    pub(super) reproduces: Option<bool>,
    /// Columns that take whole numbers, by what their names begin with.
    #[serde(default)]
    pub(super) whole: Vec<String>,
    /// Largest values, by what the names of the columns begin with.
    #[serde(default)]
    pub(super) upper: BTreeMap<String, f64>,
    /// `name: terms <= number`, with `>=` and `=` as well.
    pub(super) rows: Vec<String>,
    /// The value for a unit less and a unit more of the right side of a row, of the model without whole numbers.
    #[serde(default)]
    pub(super) prices: BTreeMap<String, [f64; 2]>,
    #[serde(default)]
    pub(super) variant: Vec<Variant>,
}

/// The same with other right sides.
#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Variant {
    /// Right sides, by what the names of the rows begin with.
    pub(super) right: BTreeMap<String, f64>,
    /// The optimum; none where no values keep the rows.
    pub(super) value: Option<f64>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Standing {
    Read,
    Memory,
    Secondary,
    Derived,
}

impl Example {
    /// The value of a cost of the model: costs are minimised, so what is made most of counts below zero.
    pub(super) fn value_of(&self, cost: f64) -> f64 {
        if self.most.is_some() { -cost } else { cost }
    }

    pub(super) fn model(&self) -> Result<Model, String> {
        let mut model = Model::default();
        let mut places = BTreeMap::new();
        let (goal, sign) = match (&self.most, &self.least) {
            (Some(goal), None) => (goal, -1.0),
            (None, Some(goal)) => (goal, 1.0),
            _ => return Err("either `most` or `least`".to_owned()),
        };
        for (at, factor) in terms(goal, &mut model, &mut places)? {
            model.columns[at].cost += sign * factor;
        }
        for line in &self.rows {
            let row = row(line, &mut model, &mut places).map_err(|fault| format!("{line}: {fault}"))?;
            model.rows.push(row);
        }
        for (start, upper) in &self.upper {
            let of = model.columns.iter_mut().filter(|column| column.name.starts_with(start));
            if of.map(|column| column.upper = *upper).count() == 0 {
                return Err(format!("`upper` of no column {start}"));
            }
        }
        for start in &self.whole {
            let of = model.columns.iter_mut().filter(|column| column.name.starts_with(start));
            if of.map(|column| column.whole = true).count() == 0 {
                return Err(format!("`whole` of no column {start}"));
            }
        }
        Ok(model)
    }
}

impl Variant {
    /// The model with the right sides of the variant.
    pub(super) fn of(&self, model: &Model) -> Result<Model, String> {
        let mut varied = model.clone();
        for (start, right) in &self.right {
            let mut rows = 0;
            for Row { lower, upper, .. } in varied.rows.iter_mut().filter(|row| row.name.starts_with(start)) {
                rows += 1;
                [lower, upper]
                    .into_iter()
                    .filter(|bound| bound.is_finite())
                    .for_each(|bound| *bound = *right);
            }
            if rows == 0 {
                return Err(format!("no row {start}"));
            }
        }
        Ok(varied)
    }
}

fn row(line: &str, model: &mut Model, places: &mut BTreeMap<String, usize>) -> Result<Row, String> {
    let (name, rest) = line.split_once(": ").ok_or("no name")?;
    for (sign, below, above) in [(" <= ", false, true), (" >= ", true, false), (" = ", true, true)] {
        if let Some((left, right)) = rest.split_once(sign) {
            let right: f64 = right.trim().parse().map_err(|_| "no right side")?;
            let lower = if below { right } else { f64::NEG_INFINITY };
            let upper = if above { right } else { f64::INFINITY };
            let terms = terms(left, model, places)?;
            return Ok(Row { name: name.to_owned(), lower, upper, terms });
        }
    }
    Err("neither `<=` nor `>=` nor `=`".to_owned())
}

/// Numbers and names with plus and minus between them; a new name is a new column from zero up.
fn terms(
    text: &str,
    model: &mut Model,
    places: &mut BTreeMap<String, usize>,
) -> Result<Vec<(usize, f64)>, String> {
    let mut terms = Vec::new();
    let (mut sign, mut factor) = (1.0, 1.0);
    for word in text.split_whitespace() {
        match (word, word.parse::<f64>()) {
            ("+", _) => {}
            ("-", _) => sign = -1.0,
            (_, Ok(number)) => factor = number,
            (name, Err(_)) => {
                let place = places.entry(name.to_owned());
                let at = *place.or_insert_with(|| model.column(name.to_owned(), f64::INFINITY, 0.0));
                terms.push((at, sign * factor));
                (sign, factor) = (1.0, 1.0);
            }
        }
    }
    if terms.is_empty() { Err("no terms".to_owned()) } else { Ok(terms) }
}
