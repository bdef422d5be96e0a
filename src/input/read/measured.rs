//! Numbers, quantities, shares and money.

use super::found::{Reading, as_number, mistake, short, wrong_kind};
use crate::diag::{Code, Diagnostic, nearest};
use crate::input::{Node, Value};
use crate::quantity::{
    Duration, Fraction, Kind, Length, Mass, Measure, Money, MoneyRate, Quantity, QuantityError, Range, parse,
    parse_module, parse_money, parse_range,
};

/// On which side of zero a value may lie.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bounds {
    /// Above zero.
    Positive,
    /// Zero or above.
    NotNegative,
    /// Anywhere.
    Any,
}

/// A finite number, bare.
pub fn number(bounds: Bounds) -> impl Fn(&Node) -> Reading<f64> {
    move |node| match as_number(node) {
        Some(number) => within(bounds, number, node).map(|()| number),
        None => Err(vec![wrong_kind(node, "a number without quotes")]),
    }
}

/// A bare number between two ends.
pub fn number_between(low: f64, high: f64) -> impl Fn(&Node) -> Reading<f64> {
    move |node| {
        let value = number(Bounds::Any)(node)?;
        if low <= value && value <= high {
            return Ok(value);
        }
        Err(vec![mistake(Code::OutOfRange, node, format!("expected {low} to {high}, found {value}"))])
    }
}

/// A quantity: a text with number and unit.
pub fn quantity<Q: Quantity>(bounds: Bounds) -> impl Fn(&Node) -> Reading<Q> {
    move |node| {
        let text = text_with_unit(node, Q::KIND.name, Q::KIND.metric)?;
        let value: Q = parse(text).map_err(|error| unreadable(&error, text, Q::KIND, node))?;
        within(bounds, value.base(), node)?;
        meant(value.measure(), node).map(|()| value)
    }
}

/// A range of a quantity, `120 .. 400 m/min`; the bounds hold for its low end.
pub fn range<Q: Quantity + PartialOrd>(bounds: Bounds) -> impl Fn(&Node) -> Reading<Range<Q>> {
    move |node| {
        let text = text_with_unit(node, Q::KIND.name, Q::KIND.metric)?;
        let range: Range<Q> = parse_range(text).map_err(|error| unreadable(&error, text, Q::KIND, node))?;
        within(bounds, range.low.base(), node)?;
        meant(range.low.measure(), node)?;
        meant(range.high.measure(), node).map(|()| range)
    }
}

/// A range of plain numbers, `0.70 .. 0.80`; the bounds hold for its low end.
pub fn number_range(bounds: Bounds) -> impl Fn(&Node) -> Reading<Range<f64>> {
    move |node| {
        let ends = match &node.value {
            Value::Text(text) => text.split_once(".."),
            _ => None,
        };
        let end = |text: &str| text.trim().parse::<f64>().ok().filter(|number| number.is_finite());
        let Some((Some(low), Some(high))) = ends.map(|(low, high)| (end(low), end(high))) else {
            return Err(vec![wrong_kind(node, "a range such as \"0.70 .. 0.80\"")]);
        };
        if high < low {
            let message =
                format!("the range from {low} to {high} is empty: its low end is above its high end");
            return Err(vec![mistake(Code::OutOfRange, node, message)]);
        }
        within(bounds, low, node).map(|()| Range { low, high })
    }
}

/// A share of a whole: `0.985` or `"98.5 %"`.
///
/// # Errors
/// For any other value, and outside 0 to 1.
pub fn share(node: &Node) -> Reading<Fraction> {
    let expected = "a share such as \"98 %\" or 0.98";
    let number = match &node.value {
        Value::Text(text) => {
            let percent = text.trim().strip_suffix('%').and_then(|number| number.trim().parse::<f64>().ok());
            let message = || format!("expected {expected}, found `{}`", short(text));
            percent.ok_or_else(|| vec![mistake(Code::NotAQuantity, node, message())])? / 100.0
        }
        _ => as_number(node).ok_or_else(|| vec![wrong_kind(node, expected)])?,
    };
    Fraction::new(number).ok_or_else(|| {
        let bare = !matches!(node.value, Value::Text(_));
        let wrong = mistake(Code::OutOfRange, node, "expected a share between 0 and 1 or 0 % and 100 %");
        vec![if bare && 1.0 < number && number <= 100.0 {
            wrong.help(format!("write \"{number} %\" or {}", number / 100.0))
        } else {
            wrong
        }]
    })
}

/// A gear module, `module 1.5 mm`, or a diametral pitch, `DP 16`.
///
/// # Errors
/// For any other value, and unless above zero.
pub fn gear_module(node: &Node) -> Reading<Length> {
    let text = text_with_unit(node, "module", "mm")?;
    let module = parse_module(text).map_err(|error| unreadable(&error, text, Length::KIND, node))?;
    within(Bounds::Positive, module.to_mm(), node)?;
    meant(module.measure(), node).map(|()| module)
}

/// Money, zero or above, in the currency of the scenario: `9.80 EUR`.
pub fn money(currency: &str) -> impl Fn(&Node) -> Reading<Money> {
    move |node| {
        let text = text_with_unit(node, Money::KIND.name, currency)?;
        amount(text, currency, node)
    }
}

/// Money for a time, zero or above: `58 EUR/h`.
pub fn money_rate(currency: &str) -> impl Fn(&Node) -> Reading<MoneyRate> {
    move |node| money_per(node, currency, "h", Duration::to_h).map(MoneyRate::per_h)
}

/// Money for a mass, zero or above, `1.45 EUR/kg`: the money for one kilogram.
pub fn money_per_kilogram(currency: &str) -> impl Fn(&Node) -> Reading<Money> {
    move |node| money_per(node, currency, "kg", Mass::to_kg).map(Money::of)
}

fn money_per<Q: Quantity>(node: &Node, currency: &str, unit: &str, to: fn(Q) -> f64) -> Reading<f64> {
    let example = format!("{currency}/{unit}");
    let text = text_with_unit(node, "price", &example)?;
    let Some((price, per)) = text.split_once('/') else {
        let message = format!("expected a price such as \"12 {example}\", found `{}`", short(text));
        return Err(vec![mistake(Code::NotAQuantity, node, message)]);
    };
    let one = format!("1 {}", per.trim());
    let whole: Q = parse(&one).map_err(|error| unreadable(&error, text, Q::KIND, node))?;
    Ok(amount(price, currency, node)?.amount() / to(whole))
}

fn amount(text: &str, currency: &str, node: &Node) -> Reading<Money> {
    // A missing currency is reported where it is missing, not at every price.
    let currency =
        if currency.is_empty() { text.split_whitespace().nth(1).unwrap_or_default() } else { currency };
    let money = parse_money(text, currency).map_err(|error| unreadable(&error, text, Money::KIND, node))?;
    within(Bounds::NotNegative, money.amount(), node)?;
    meant(money.measure(), node).map(|()| money)
}

fn text_with_unit<'n>(node: &'n Node, what: &str, unit: &str) -> Reading<&'n str> {
    if let Value::Text(text) = &node.value {
        return Ok(text);
    }
    let number = as_number(node).filter(|number| number.is_finite());
    let example = format!("\"{} {unit}\"", number.unwrap_or(12.0));
    Err(vec![match as_number(node) {
        Some(bare) => {
            let message = format!("expected a text with unit such as {example}, found {bare}");
            mistake(Code::NotAQuantity, node, message)
        }
        None => wrong_kind(node, &format!("a {what} such as {example}")),
    }])
}

fn unreadable(error: &QuantityError, text: &str, kind: &Kind, node: &Node) -> Vec<Diagnostic> {
    let code = match error {
        QuantityError::NotFinite { .. } | QuantityError::EmptyRange { .. } => Code::OutOfRange,
        QuantityError::NoNumber { .. }
        | QuantityError::Comma { .. }
        | QuantityError::NoUnit { .. }
        | QuantityError::UnknownUnit { .. }
        | QuantityError::OtherCurrency { .. } => Code::NotAQuantity,
    };
    let meant = match error {
        QuantityError::UnknownUnit { unit, .. } => nearest(unit, kind.units.iter().map(|unit| unit.symbol))
            .and_then(|near| Some(format!("{}{near}", text.trim().strip_suffix(unit.as_str())?))),
        _ => None,
    };
    vec![mistake(code, node, error.to_string()).did_you_mean(meant)]
}

/// An amount so small or so large that a workshop cannot mean it is a slip of the pen.
fn meant(measure: Measure, node: &Node) -> Reading<()> {
    let (amount, kind) = (measure.base.abs(), measure.kind);
    if amount == 0.0 || (kind.least <= amount && amount <= kind.most) {
        return Ok(());
    }
    let unit = kind.units[0].symbol;
    let message = format!(
        "expected a {} from {:e} to {:e} {unit}, found {amount:e} {unit}",
        kind.name, kind.least, kind.most
    );
    Err(vec![mistake(Code::OutOfRange, node, message)])
}

fn within(bounds: Bounds, number: f64, node: &Node) -> Reading<()> {
    let (inside, expected) = match bounds {
        Bounds::Positive => (0.0 < number, "above zero"),
        Bounds::NotNegative => (0.0 <= number, "zero or above"),
        Bounds::Any => (true, "a finite number"),
    };
    if inside && number.is_finite() {
        return Ok(());
    }
    let expected = if number.is_finite() { expected } else { "a finite number" };
    let shown = match &node.value {
        Value::Text(text) => format!("`{}`", short(text)),
        _ => number.to_string().to_lowercase(),
    };
    Err(vec![mistake(Code::OutOfRange, node, format!("expected {expected}, found {shown}"))])
}

#[cfg(test)]
mod tests {
    use super::{
        Bounds, gear_module, money, money_per_kilogram, money_rate, number, number_range, quantity, range,
        share,
    };
    use crate::diag::Code;
    use crate::input::fields::sample::{code, help, message, node};
    use crate::quantity::{CuttingSpeed, FeedPerRev, Length, Money, MoneyRate};

    #[test]
    fn quantities_carry_units_and_keep_their_bounds() {
        let length = quantity::<Length>(Bounds::Positive);
        assert_eq!(length(&node("\"12 mm\"")), Ok(Length::mm(12.0)));
        assert_eq!(code(length(&node("12"))), Code::NotAQuantity);
        assert_eq!(message(length(&node("12"))), "expected a text with unit such as \"12 mm\", found 12");
        assert_eq!(code(length(&node("[12]"))), Code::WrongKind);
        assert_eq!(code(length(&node("\"0 mm\""))), Code::OutOfRange);
        assert_eq!(code(length(&node("nan"))), Code::NotAQuantity);
        assert_eq!(code(length(&node("\"1e999 mm\""))), Code::OutOfRange);
        let feed = quantity::<FeedPerRev>(Bounds::Any);
        assert_eq!(help(feed(&node("\"0.25 mm/rv\""))), "did you mean `0.25 mm/rev`?");
        assert!(range::<CuttingSpeed>(Bounds::Positive)(&node("\"120 .. 400 m/min\"")).is_ok());
        assert_eq!(
            code(range::<CuttingSpeed>(Bounds::Positive)(&node("\"4 .. 1 m/min\""))),
            Code::OutOfRange
        );
        assert_eq!(gear_module(&node("\"module 1.5 mm\"")), Ok(Length::mm(1.5)));
        assert_eq!(code(gear_module(&node("\"-1 mm\""))), Code::OutOfRange);
    }

    #[test]
    fn numbers_are_finite() {
        assert_eq!(number(Bounds::Positive)(&node("2")), Ok(2.0));
        for bad in ["nan", "inf", "-0.5", "0"] {
            assert_eq!(code(number(Bounds::Positive)(&node(bad))), Code::OutOfRange, "{bad}");
        }
        assert_eq!(code(number(Bounds::Any)(&node("\"2\""))), Code::WrongKind);
        assert_eq!(code(number(Bounds::Any)(&node("nan"))), Code::OutOfRange);
        let ratio = number_range(Bounds::Positive);
        assert!(ratio(&node("\"0.70 .. 0.80\"")).is_ok_and(|range| range.low < range.high));
        assert_eq!(code(ratio(&node("\"0.8 .. 0.7\""))), Code::OutOfRange);
        assert_eq!(code(ratio(&node("0.8"))), Code::WrongKind);
    }

    #[test]
    fn a_share_above_one_was_meant_as_percent() {
        let value = |text| share(&node(text)).map(crate::quantity::Fraction::value);
        assert_eq!((value("\"25 %\""), value("0.25"), value("1")), (Ok(0.25), Ok(0.25), Ok(1.0)));
        assert_eq!(help(share(&node("15"))), "write \"15 %\" or 0.15");
        for bad in ["-0.1", "\"120 %\"", "nan", "200"] {
            assert_eq!(code(share(&node(bad))), Code::OutOfRange, "{bad}");
        }
        assert_eq!(code(share(&node("\"0.9\""))), Code::NotAQuantity);
    }

    #[test]
    fn money_is_in_the_currency_of_the_scenario() {
        assert_eq!(money("EUR")(&node("\"9.80 EUR\"")), Ok(Money::of(9.8)));
        assert_eq!(money_rate("EUR")(&node("\"58 EUR/h\"")), Ok(MoneyRate::per_h(58.0)));
        assert_eq!(money_per_kilogram("EUR")(&node("\"1.45 EUR/kg\"")), Ok(Money::of(1.45)));
        for bad in ["\"9.80 USD\"", "\"9.80\"", "9.8"] {
            assert_eq!(code(money("EUR")(&node(bad))), Code::NotAQuantity, "{bad}");
        }
        for bad in ["\"58 EUR\"", "\"58 EUR/kg\"", "\"58 USD/h\"", "58"] {
            assert_eq!(code(money_rate("EUR")(&node(bad))), Code::NotAQuantity, "{bad}");
        }
        assert_eq!(code(money("EUR")(&node("\"-1 EUR\""))), Code::OutOfRange);
    }
}
