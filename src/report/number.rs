//! Numbers as text, and numbers whose bytes are the same on every machine.

/// A finite number with fixed decimals. What is not zero never prints as zero, and zero has no sign.
pub(super) fn fixed(value: f64, decimals: usize) -> String {
    if value.abs() >= 1e15 {
        return format!("{value:.3e}");
    }
    let text = format!("{value:.decimals$}");
    if text.bytes().any(|byte| matches!(byte, b'1'..=b'9')) {
        return text;
    }
    if value == 0.0 { format!("{:.decimals$}", 0.0) } else { two_digits(value) }
}

/// A small number with two significant digits.
fn two_digits(value: f64) -> String {
    let scientific = format!("{value:.1e}");
    let exponent = scientific.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok());
    match exponent.map(|exponent| usize::try_from(1 - exponent)) {
        Some(Ok(decimals)) if decimals <= 7 => format!("{value:.decimals$}"),
        _ => scientific,
    }
}

/// A finite number rounded to ten significant digits, for CSV and JSON: the last bits of a sum do not show.
pub(super) fn stable(value: f64) -> f64 {
    // The largest floats would round up to infinity. Adding zero turns -0.0 into 0.0.
    let rounded = format!("{value:.9e}").parse::<f64>().ok().filter(|rounded| rounded.is_finite());
    rounded.unwrap_or(value) + 0.0
}

#[cfg(test)]
mod tests {
    use super::{fixed, stable};

    #[test]
    fn what_is_not_zero_never_prints_as_zero() {
        assert_eq!(fixed(0.004, 2), "0.0040");
        assert_eq!(fixed(-0.000_12, 1), "-0.00012");
        assert_eq!(fixed(3.2e-9, 3), "3.2e-9");
        assert_eq!(fixed(0.4, 0), "0.40");
        assert_eq!(fixed(0.006, 2), "0.01");
    }

    #[test]
    fn zero_has_no_sign() {
        assert_eq!(fixed(-0.0, 2), "0.00");
        assert_eq!(fixed(0.0, 0), "0");
        assert!(stable(-0.0).is_sign_positive());
    }

    #[test]
    fn decimals_are_those_of_the_unit() {
        assert_eq!(fixed(1_234_567.891, 2), "1234567.89");
        assert_eq!(fixed(1e18, 2), "1.000e18");
    }

    #[test]
    fn the_last_bits_do_not_show() {
        assert_eq!(stable(0.1 + 0.2).to_string(), "0.3");
        assert_eq!(stable(123_456.789_012_345).to_string(), "123456.789");
        assert!(stable(f64::MAX).is_finite());
    }
}
