//! From text to quantity: `"220 m/min"`, `"0.010 in/rev"`, `"120 .. 400 m/min"`, `"DP 10"`.

use super::{Kind, Length, Money, Quantity, Range};
use thiserror::Error;

/// Why a text is not the quantity asked for. Messages name what would do.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum QuantityError {
    /// No number at the start.
    #[error("expected a {what} such as `{example}`, found `{found}`")]
    NoNumber {
        /// What is asked for.
        what: &'static str,
        /// A text that would do.
        example: String,
        /// The text given.
        found: String,
    },
    /// A comma inside the number.
    #[error("`{found}` has a comma: write the decimal sign as a point and no thousands sign")]
    Comma {
        /// The text given.
        found: String,
    },
    /// A number without its unit.
    #[error("`{found}` has no unit: expected a {what} in one of {units}")]
    NoUnit {
        /// What is asked for.
        what: &'static str,
        /// Units that would do.
        units: String,
        /// The text given.
        found: String,
    },
    /// A unit of something else.
    #[error("`{unit}` is not a unit of {what}: expected one of {units}")]
    UnknownUnit {
        /// What is asked for.
        what: &'static str,
        /// The unit given.
        unit: String,
        /// Units that would do.
        units: String,
    },
    /// Not a finite number.
    #[error("`{found}` is not a finite number")]
    NotFinite {
        /// The text given.
        found: String,
    },
    /// Money with another label than the scenario's currency.
    #[error("`{found}` is not in {currency}, the currency of this scenario: no exchange is made")]
    OtherCurrency {
        /// The text given.
        found: String,
        /// The scenario's label.
        currency: String,
    },
    /// The low end of a range above its high end.
    #[error("the range `{found}` is empty: its low end is above its high end")]
    EmptyRange {
        /// The text given.
        found: String,
    },
}

/// Reads a quantity.
///
/// # Errors
/// [`QuantityError`] names the text found and the units that would do.
///
/// # Example
/// ```
/// use wearland::quantity::{CuttingSpeed, parse};
/// let speed: CuttingSpeed = parse("700 sfm")?;
/// assert!((speed.to_m_per_min() - 213.36).abs() < 1e-9);
/// # Ok::<(), wearland::quantity::QuantityError>(())
/// ```
pub fn parse<Q: Quantity>(text: &str) -> Result<Q, QuantityError> {
    let (value, unit) = number_and_unit(Q::KIND, text)?;
    finite(value * unit_factor(Q::KIND, unit, text)?, text).map(Q::from_base)
}

/// Reads a range, `low .. high unit`, each end with its own unit or one unit at the end for both.
///
/// # Errors
/// As [`parse`], and for an empty range.
pub fn parse_range<Q: Quantity + PartialOrd>(text: &str) -> Result<Range<Q>, QuantityError> {
    let Some((left, right)) = text.split_once("..") else {
        let one = parse(text)?;
        return Ok(Range { low: one, high: one });
    };
    let high: Q = parse(right)?;
    let low = match parse(left) {
        Ok(low) => low,
        Err(QuantityError::NoUnit { .. }) => {
            let (value, _) = number_and_unit(Q::KIND, left)?;
            let (_, unit) = number_and_unit(Q::KIND, right)?;
            Q::from_base(finite(value * unit_factor(Q::KIND, unit, text)?, text)?)
        }
        Err(error) => return Err(error),
    };
    if low > high {
        return Err(QuantityError::EmptyRange { found: text.to_owned() });
    }
    Ok(Range { low, high })
}

/// Reads money, `11.20 EUR`, in the scenario's currency.
///
/// # Errors
/// As [`parse`], and for another currency.
pub fn parse_money(text: &str, currency: &str) -> Result<Money, QuantityError> {
    let (value, label) = number_and_unit(Money::KIND, text)?;
    if label != currency {
        return Err(if label.is_empty() {
            QuantityError::NoUnit { what: "money", units: currency.to_owned(), found: text.to_owned() }
        } else {
            QuantityError::OtherCurrency { found: text.to_owned(), currency: currency.to_owned() }
        });
    }
    finite(value, text).map(Money::of)
}

/// Reads a gear module: `module 2.5 mm`, `2.5 mm`, or a diametral pitch `DP 10` (module = 25.4 mm / DP).
///
/// # Errors
/// As [`parse`].
pub fn parse_module(text: &str) -> Result<Length, QuantityError> {
    let trimmed = text.trim();
    if let Some(pitch) = trimmed.strip_prefix("DP") {
        let (value, rest) = number_and_unit(Length::KIND, pitch)?;
        if rest.is_empty() && value > 0.0 {
            return finite(25.4 / value, text).map(Length::mm);
        }
    }
    parse(trimmed.strip_prefix("module").unwrap_or(trimmed))
}

fn finite(value: f64, text: &str) -> Result<f64, QuantityError> {
    // Adding zero turns -0.0 into 0.0.
    if value.is_finite() { Ok(value + 0.0) } else { Err(QuantityError::NotFinite { found: text.to_owned() }) }
}

fn unit_factor(kind: &Kind, unit: &str, text: &str) -> Result<f64, QuantityError> {
    if unit.is_empty() {
        return Err(QuantityError::NoUnit {
            what: kind.name,
            units: unit_list(kind),
            found: text.trim().to_owned(),
        });
    }
    kind.units.iter().find(|known| known.symbol == unit).map(|known| known.factor).ok_or_else(|| {
        QuantityError::UnknownUnit { what: kind.name, unit: unit.to_owned(), units: unit_list(kind) }
    })
}

/// Splits `220 m/min` into number and unit. An `e` belongs to the number only if a digit follows.
fn number_and_unit<'t>(kind: &Kind, text: &'t str) -> Result<(f64, &'t str), QuantityError> {
    let text = text.trim();
    let bytes = text.as_bytes();
    let mut end = usize::from(matches!(bytes.first(), Some(b'+' | b'-')));
    let mut exponent = false;
    while let Some(&byte) = bytes.get(end) {
        // `2 .. 5` is a range, never a number with two points.
        if byte == b'.' && bytes.get(end + 1) == Some(&b'.') {
            break;
        }
        if byte.is_ascii_digit() || (byte == b'.' && !exponent) {
            end += 1;
        } else if matches!(byte, b'e' | b'E') && !exponent {
            let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
            if !bytes.get(end + 1 + sign).is_some_and(u8::is_ascii_digit) {
                break;
            }
            exponent = true;
            end += 1 + sign;
        } else {
            break;
        }
    }
    if bytes.get(end) == Some(&b',') {
        return Err(QuantityError::Comma { found: text.to_owned() });
    }
    let number = text[..end].parse::<f64>().map_err(|_| QuantityError::NoNumber {
        what: kind.name,
        example: format!("12 {}", kind.metric).trim_end().to_owned(),
        found: text.to_owned(),
    })?;
    Ok((number, text[end..].trim()))
}

fn unit_list(kind: &Kind) -> String {
    kind.units.iter().map(|unit| format!("`{}`", unit.symbol)).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::super::{CuttingSpeed, FeedPerRev, Length, Power};
    use super::{QuantityError, parse, parse_module, parse_money, parse_range};

    #[test]
    fn units_convert_by_exact_definitions() {
        assert!((parse::<Length>("0.5 in").unwrap().to_mm() - 12.7).abs() < 1e-12);
        assert!((parse::<CuttingSpeed>("1 m/s").unwrap().to_m_per_min() - 60.0).abs() < 1e-12);
        assert!((parse::<Power>("1 hp").unwrap().to_w() - 745.699_871_582_270_2).abs() < 1e-9);
        assert!((parse::<FeedPerRev>("1e-1 mm/rev").unwrap().to_mm_per_rev() - 0.1).abs() < 1e-15);
        assert!((parse_module("DP 10").unwrap().to_mm() - 2.54).abs() < 1e-12);
        assert!((parse_module("module 2.5 mm").unwrap().to_mm() - 2.5).abs() < 1e-12);
    }

    #[test]
    fn a_wrong_text_says_what_would_do() {
        assert!(matches!(parse::<Length>("12"), Err(QuantityError::NoUnit { .. })));
        assert!(matches!(parse::<Length>("0,25 mm"), Err(QuantityError::Comma { .. })));
        assert!(matches!(parse::<Length>("mm"), Err(QuantityError::NoNumber { .. })));
        assert!(matches!(parse::<Length>("1e999 mm"), Err(QuantityError::NotFinite { .. })));
        let error = parse::<FeedPerRev>("0.25 mm/mn").unwrap_err().to_string();
        assert!(error.contains("`mm/rev`") && error.contains("`mm/mn`"), "{error}");
        assert!(matches!(parse_money("5 USD", "EUR"), Err(QuantityError::OtherCurrency { .. })));
    }

    #[test]
    fn ranges_share_a_unit() {
        let range = parse_range::<CuttingSpeed>("120 .. 400 m/min").unwrap();
        assert!(
            (range.low.to_m_per_min() - 120.0).abs() < 1e-12
                && range.contains(CuttingSpeed::m_per_min(400.0))
        );
        assert!(matches!(parse_range::<Length>("5 .. 2 mm"), Err(QuantityError::EmptyRange { .. })));
    }
}
