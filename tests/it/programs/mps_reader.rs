//! A small reader of free MPS, by the public description of the format alone.

use std::collections::BTreeMap;
use wearland::schedule::{Column, Model, Row};

#[derive(Default)]
struct Reader {
    costs: Option<String>,
    rows: BTreeMap<String, usize>,
    /// Letters of the rows.
    letters: Vec<char>,
    columns: BTreeMap<String, usize>,
    whole: bool,
    model: Model,
}

/// Reads a model; its costs are to be minimised.
pub(super) fn read_mps(text: &str) -> Result<Model, String> {
    let mut reader = Reader::default();
    let mut section = "";
    for line in text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('*')) {
        let words: Vec<&str> = line.split_whitespace().collect();
        if !line.starts_with(' ') {
            section = words[0];
            continue;
        }
        let read = match section {
            "ROWS" => reader.row(&words),
            "COLUMNS" => reader.column(&words),
            "RHS" => reader.pairs(&words, Reader::right_side),
            "RANGES" => reader.pairs(&words, Reader::range),
            "BOUNDS" => reader.bound(&words),
            other => Err(format!("section {other}")),
        };
        read.map_err(|fault| format!("{line}: {fault}"))?;
    }
    if section == "ENDATA" { Ok(reader.model) } else { Err("no end".to_owned()) }
}

fn number(word: &str) -> Result<f64, String> {
    word.parse().map_err(|_| format!("`{word}` is no number"))
}

impl Reader {
    fn row(&mut self, words: &[&str]) -> Result<(), String> {
        let [letter, name] = words else { return Err("a row has two words".to_owned()) };
        if *letter == "N" && self.costs.is_none() {
            self.costs = Some((*name).to_owned());
            return Ok(());
        }
        let (lower, upper) = match *letter {
            "L" => (f64::NEG_INFINITY, 0.0),
            "G" => (0.0, f64::INFINITY),
            "E" => (0.0, 0.0),
            "N" => (f64::NEG_INFINITY, f64::INFINITY),
            other => return Err(format!("letter {other}")),
        };
        let before = self.rows.insert((*name).to_owned(), self.model.rows.len());
        self.letters.extend(letter.chars());
        self.model.rows.push(Row { name: (*name).to_owned(), lower, upper, terms: Vec::new() });
        before.map_or(Ok(()), |_| Err("a name given twice".to_owned()))
    }

    fn column(&mut self, words: &[&str]) -> Result<(), String> {
        if words.get(1) == Some(&"'MARKER'") {
            self.whole = words[2] == "'INTORG'";
            return Ok(());
        }
        let name = words[0].to_owned();
        let next = self.model.columns.len();
        let at = *self.columns.entry(name.clone()).or_insert(next);
        if at == next {
            let whole = self.whole;
            self.model.columns.push(Column { name, lower: 0.0, upper: f64::INFINITY, cost: 0.0, whole });
        } else if at + 1 != next {
            return Err("a column taken up again".to_owned());
        }
        for pair in words[1..].chunks(2) {
            let [row, value] = pair else { return Err("half a pair".to_owned()) };
            if self.costs.as_deref() == Some(row) {
                self.model.columns[at].cost = number(value)?;
            } else {
                let row = *self.rows.get(*row).ok_or("no such row")?;
                self.model.rows[row].terms.push((at, number(value)?));
            }
        }
        Ok(())
    }

    fn pairs(&mut self, words: &[&str], set: fn(&mut Self, usize, f64)) -> Result<(), String> {
        for pair in words[1..].chunks(2) {
            let [row, value] = pair else { return Err("half a pair".to_owned()) };
            let row = *self.rows.get(*row).ok_or("no such row")?;
            set(self, row, number(value)?);
        }
        Ok(())
    }

    fn right_side(&mut self, row: usize, value: f64) {
        let Row { lower, upper, .. } = &mut self.model.rows[row];
        for bound in [lower, upper].into_iter().filter(|bound| bound.is_finite()) {
            *bound = value;
        }
    }

    fn range(&mut self, row: usize, value: f64) {
        let Row { lower, upper, .. } = &mut self.model.rows[row];
        match self.letters[row] {
            'L' => *lower = *upper - value.abs(),
            'G' => *upper = *lower + value.abs(),
            _ if value < 0.0 => *lower += value,
            _ => *upper += value,
        }
    }

    fn bound(&mut self, words: &[&str]) -> Result<(), String> {
        let at = *self.columns.get(words[2]).ok_or("no such column")?;
        let column = &mut self.model.columns[at];
        let value = || number(words.get(3).ok_or("no value")?);
        match words[0] {
            "LO" => column.lower = value()?,
            "UP" => column.upper = value()?,
            "FX" => (column.lower, column.upper) = (value()?, value()?),
            "MI" => column.lower = f64::NEG_INFINITY,
            "PL" => column.upper = f64::INFINITY,
            "FR" => (column.lower, column.upper) = (f64::NEG_INFINITY, f64::INFINITY),
            other => return Err(format!("bound {other}")),
        }
        Ok(())
    }
}
