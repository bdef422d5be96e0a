//! What a column holds, and from that its key with unit, its unit in text and how its cells are shown.

use super::Cell;
use crate::quantity::{Kind, Money, MoneyRate, Quantity, Unit, Units};

/// What the cells of a column are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Holds {
    /// Words; cut short in text if very long.
    Text,
    /// Sentences or a list, shown whole over as many lines as it takes.
    Prose,
    /// A number of these things: `pieces`. Empty if the key says it all.
    Count(&'static str),
    /// A quantity of this kind, shown in the unit of the report.
    Quantity(&'static Kind),
    /// A number in a unit that is no quantity of its own, such as pieces in an hour.
    Number {
        /// In text: `1/h`.
        unit: &'static str,
        /// At the end of the key: `per_h`.
        key: &'static str,
    },
    /// A part of a whole, shown as a percentage.
    Share,
    /// A ratio or exponent without unit.
    Ratio,
    /// A time of the calendar.
    Stamp,
    /// A share drawn as a bar in text.
    Bar,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq)]
pub struct Column {
    key: &'static str,
    heading: String,
    holds: Holds,
    unit: Option<&'static Unit>,
    decimals: Option<usize>,
}

/// A cell as its column shows it, unit and percentage applied.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Shown<'c> {
    /// Nothing to show.
    Missing,
    /// Words or a time of the calendar.
    Text(&'c str),
    /// A count.
    Whole(i64),
    /// A number and the decimals it has in text.
    Real(f64, usize),
}

impl Column {
    /// A column from its name in CSV and JSON (without unit), its heading in text and what it holds.
    #[must_use]
    pub fn new(key: &'static str, heading: impl Into<String>, holds: Holds) -> Self {
        Self { key, heading: heading.into(), holds, unit: None, decimals: None }
    }

    /// Words.
    #[must_use]
    pub fn text(key: &'static str, heading: impl Into<String>) -> Self {
        Self::new(key, heading, Holds::Text)
    }

    /// A column of sentences or lists, shown whole.
    #[must_use]
    pub fn prose(key: &'static str, heading: impl Into<String>) -> Self {
        Self::new(key, heading, Holds::Prose)
    }

    /// A number of these things.
    #[must_use]
    pub fn count(key: &'static str, heading: impl Into<String>, of: &'static str) -> Self {
        Self::new(key, heading, Holds::Count(of))
    }

    /// A quantity.
    #[must_use]
    pub fn quantity<Q: Quantity>(key: &'static str, heading: impl Into<String>) -> Self {
        Self::new(key, heading, Holds::Quantity(Q::KIND))
    }

    /// In this unit in metric and inch reports alike: life in `min` rather than in `s`.
    ///
    /// A unit the kind does not know is a mistake of the caller: it stops a debug build, a release build keeps the
    /// unit of the report.
    #[must_use]
    pub fn in_unit(mut self, symbol: &'static str) -> Self {
        if let Holds::Quantity(kind) = self.holds {
            self.unit = kind.units.iter().find(|unit| unit.symbol == symbol && !unit.key.is_empty());
        }
        debug_assert!(self.unit.is_some(), "column `{}` cannot be shown in `{symbol}`", self.key);
        self
    }

    /// With so many decimals in text.
    #[must_use]
    pub fn decimals(mut self, decimals: usize) -> Self {
        self.decimals = Some(decimals);
        self
    }

    /// Its name in CSV and JSON, without unit.
    #[must_use]
    pub fn key(&self) -> &'static str {
        self.key
    }

    /// Its heading in text, without unit.
    #[must_use]
    pub fn heading(&self) -> &str {
        &self.heading
    }

    /// What its cells are.
    #[must_use]
    pub fn holds(&self) -> Holds {
        self.holds
    }

    /// Its name in CSV and JSON with the unit: `cut_time_s`, `cost_eur`, `made_pieces`.
    #[must_use]
    pub fn data_key(&self, units: &Units) -> String {
        let key = self.key;
        let unit = match self.holds {
            Holds::Text | Holds::Prose | Holds::Stamp => return key.to_owned(),
            Holds::Quantity(kind) if is(kind, Money::KIND) => currency_key(units),
            Holds::Quantity(kind) if is(kind, MoneyRate::KIND) => format!("{}_per_h", currency_key(units)),
            Holds::Quantity(kind) => return format!("{key}_{}", self.unit_of(kind, units).key),
            Holds::Count(of) => of.replace(' ', "_"),
            Holds::Number { key, .. } => key.to_owned(),
            Holds::Share | Holds::Bar => "percent".to_owned(),
            Holds::Ratio => "ratio".to_owned(),
        };
        let said = unit.is_empty() || key == unit || key.ends_with(&format!("_{unit}"));
        if said { key.to_owned() } else { format!("{key}_{unit}") }
    }

    /// Its unit as text shows it, empty if it has none.
    pub(super) fn unit_text(&self, units: &Units) -> String {
        match self.holds {
            Holds::Text | Holds::Prose | Holds::Stamp | Holds::Ratio => String::new(),
            Holds::Quantity(kind) if is(kind, Money::KIND) => units.currency.clone(),
            Holds::Quantity(kind) if is(kind, MoneyRate::KIND) => format!("{}/h", units.currency),
            Holds::Quantity(kind) => self.unit_of(kind, units).symbol.to_owned(),
            Holds::Count(unit) | Holds::Number { unit, .. } => unit.to_owned(),
            Holds::Share | Holds::Bar => "%".to_owned(),
        }
    }

    /// Whether its cells are words, set from the left; numbers are set to the right.
    pub(super) const fn reads(&self) -> bool {
        matches!(self.holds, Holds::Text | Holds::Prose | Holds::Stamp)
    }

    /// Whether a cell is of its sort.
    pub(super) fn takes(&self, cell: &Cell) -> bool {
        match (self.holds, cell) {
            (_, Cell::Missing)
            | (Holds::Text | Holds::Prose, Cell::Text(_))
            | (Holds::Count(_), Cell::Count(_))
            | (Holds::Share | Holds::Bar, Cell::Share(_))
            | (Holds::Ratio | Holds::Number { .. }, Cell::Number(_))
            | (Holds::Stamp, Cell::Stamp(_)) => true,
            (Holds::Quantity(kind), Cell::Quantity(measure)) => is(kind, measure.kind),
            _ => false,
        }
    }

    /// A cell with unit and percentage applied. What is not a finite number is missing.
    pub(super) fn shown<'c>(&self, cell: &'c Cell, units: &Units) -> Shown<'c> {
        let (value, decimals) = match cell {
            Cell::Missing => return Shown::Missing,
            Cell::Text(text) | Cell::Stamp(text) => return Shown::Text(text),
            Cell::Count(count) => return Shown::Whole(*count),
            Cell::Quantity(measure) => {
                let unit = self.unit_of(measure.kind, units);
                (measure.base / unit.factor, unit.decimals)
            }
            Cell::Share(share) => (share * 100.0, 1),
            Cell::Number(number) if self.holds == Holds::Ratio => (*number, 3),
            Cell::Number(number) => (*number, 2),
        };
        if value.is_finite() { Shown::Real(value, self.decimals.unwrap_or(decimals)) } else { Shown::Missing }
    }

    fn unit_of(&self, kind: &'static Kind, units: &Units) -> &'static Unit {
        self.unit.unwrap_or_else(|| kind.unit(units.system))
    }
}

fn is(kind: &Kind, other: &Kind) -> bool {
    kind.name == other.name
}

/// The currency as a part of a key: `eur`.
fn currency_key(units: &Units) -> String {
    let key: String =
        units.currency.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect();
    if key.is_empty() { "money".to_owned() } else { key }
}

#[cfg(test)]
mod tests {
    use super::{Column, Holds};
    use crate::quantity::{CuttingSpeed, Duration, Length, Money, MoneyRate, System, Units};

    #[test]
    fn keys_carry_their_unit_in_both_systems() {
        let metric = Units { system: System::Metric, currency: "EUR".into() };
        let inch = Units { system: System::Inch, currency: "USD".into() };
        let rate = Holds::Number { unit: "1/h", key: "per_h" };
        for (column, in_metric, in_inch) in [
            (Column::text("cut", ""), "cut", "cut"),
            (Column::quantity::<Length>("diameter", ""), "diameter_mm", "diameter_in"),
            (Column::quantity::<CuttingSpeed>("speed", ""), "speed_m_per_min", "speed_ft_per_min"),
            (Column::quantity::<Duration>("cut_time", ""), "cut_time_s", "cut_time_s"),
            (Column::quantity::<Duration>("life", "").in_unit("min"), "life_min", "life_min"),
            (Column::quantity::<Money>("cost", ""), "cost_eur", "cost_usd"),
            (Column::quantity::<MoneyRate>("rate", ""), "rate_eur_per_h", "rate_usd_per_h"),
            (Column::count("made", "", "pieces"), "made_pieces", "made_pieces"),
            (Column::count("pieces", "", "pieces"), "pieces", "pieces"),
            (Column::new("output", "", rate), "output_per_h", "output_per_h"),
            (Column::new("utilisation", "", Holds::Bar), "utilisation_percent", "utilisation_percent"),
            (Column::new("exponent", "", Holds::Ratio), "exponent_ratio", "exponent_ratio"),
        ] {
            assert_eq!(column.data_key(&metric), in_metric);
            assert_eq!(column.data_key(&inch), in_inch);
        }
    }
}
