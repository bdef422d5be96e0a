//! A quantity with its kind erased, for tables and workings, and the two unit systems it can be shown in.

/// One unit of a quantity.
#[derive(Debug, PartialEq)]
pub struct Unit {
    /// As read and printed: `m/min`.
    pub symbol: &'static str,
    /// As the end of a key in JSON and CSV: `m_per_min`. Empty for units that are only read.
    pub key: &'static str,
    /// Base units in one of this unit.
    pub factor: f64,
    /// Decimals that suit a workshop.
    pub decimals: usize,
}

/// What a quantity measures and the units it knows.
#[derive(Debug, PartialEq)]
pub struct Kind {
    /// In words: `cutting speed`.
    pub name: &'static str,
    /// All units that may be read; the first is the base unit.
    pub units: &'static [Unit],
    /// Symbol of the unit shown in metric reports.
    pub metric: &'static str,
    /// Symbol of the unit shown in inch reports.
    pub inch: &'static str,
    /// Least amount other than nothing that can be meant, in base units.
    pub least: f64,
    /// Largest amount that can be meant, in base units.
    pub most: f64,
}

impl Kind {
    /// The unit shown in a system.
    #[must_use]
    pub fn unit(&self, system: System) -> &'static Unit {
        let symbol = match system {
            System::Metric => self.metric,
            System::Inch => self.inch,
        };
        self.units.iter().find(|unit| unit.symbol == symbol).unwrap_or(&self.units[0])
    }
}

/// A number that knows what it measures.
pub trait Quantity: Copy {
    /// What it measures.
    const KIND: &'static Kind;
    /// From a number of base units.
    fn from_base(base: f64) -> Self;
    /// As a number of base units.
    fn base(self) -> f64;
    /// The same with its type erased.
    fn measure(self) -> Measure {
        Measure { kind: Self::KIND, base: self.base() }
    }
}

/// Unit system of a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Millimetres, metres a minute, kilowatts.
    #[default]
    Metric,
    /// Inches, feet a minute, horsepower.
    Inch,
}

/// How quantities of a scenario are shown.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Units {
    /// Metric or inch.
    pub system: System,
    /// Label of the currency, such as `EUR`; no exchange is ever made.
    pub currency: String,
}

/// A quantity with its type erased.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// What it measures.
    pub kind: &'static Kind,
    /// In base units.
    pub base: f64,
}

impl Measure {
    /// Number and unit in a system.
    #[must_use]
    pub fn shown(&self, system: System) -> (f64, &'static Unit) {
        let unit = self.kind.unit(system);
        (self.base / unit.factor, unit)
    }

    /// Number and unit as text with six significant digits, for workings and messages.
    #[must_use]
    pub fn text(&self, units: &Units) -> String {
        let (value, unit) = self.shown(units.system);
        let number = significant(value, 6);
        match self.kind.name {
            "money" => format!("{number} {}", units.currency),
            "money for an hour" => format!("{number} {}/h", units.currency),
            _ => format!("{number} {}", unit.symbol),
        }
    }
}

/// A number with so many significant digits and no idle zeros.
#[must_use]
pub fn significant(value: f64, digits: i32) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}").replace("-0", "0");
    }
    #[expect(clippy::cast_possible_truncation, reason = "the decimal exponent of a float is below 400")]
    let exponent = value.abs().log10().floor() as i32;
    let decimals = usize::try_from((digits - 1 - exponent).max(0)).unwrap_or(0);
    let text = format!("{value:.decimals$}");
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::super::{CuttingSpeed, Length};
    use super::{Quantity, System, Units, significant};

    #[test]
    fn significant_digits_without_idle_zeros() {
        assert_eq!(significant(0.0, 6), "0");
        assert_eq!(significant(1358.29, 6), "1358.29");
        assert_eq!(significant(0.000_123_456_7, 3), "0.000123");
        assert_eq!(significant(-2.5, 4), "-2.5");
        assert_eq!(significant(1_234_567.0, 6), "1234567");
    }

    #[test]
    fn a_measure_is_shown_in_both_systems() {
        let inch = Units { system: System::Inch, currency: "USD".into() };
        assert_eq!(Length::mm(12.7).measure().text(&inch), "0.5 in");
        assert_eq!(CuttingSpeed::m_per_min(30.48).measure().text(&Units::default()), "30.48 m/min");
    }
}
