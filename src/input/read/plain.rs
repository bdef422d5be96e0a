//! Texts, names, counts and choices.

use super::found::{Reading, mistake, short, wrong_kind};
use crate::diag::{Code, is_unprintable, nearest};
use crate::input::{Node, Value};

/// A text that is not empty; line breaks in it are read as blanks.
///
/// # Errors
/// For any other value, and for control characters.
pub fn text(node: &Node) -> Reading<String> {
    let Value::Text(text) = &node.value else {
        let wrong = wrong_kind(node, "a text in quotes");
        return Err(vec![match node.value {
            Value::Integer(number) => wrong.help(format!("write \"{number}\"")),
            _ => wrong,
        }]);
    };
    let line = text.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>().join(" ");
    if line.is_empty() {
        return Err(vec![mistake(Code::WrongKind, node, "expected a text, found an empty one")]);
    }
    if line.chars().any(is_unprintable) {
        let message = format!("`{}` has a character that cannot be printed", short(&line));
        return Err(vec![mistake(Code::WrongKind, node, message)]);
    }
    Ok(line)
}

/// A name by which an entry is called: letters, digits, `-`, `_` and `.`.
///
/// # Errors
/// For any other value.
pub fn name(node: &Node) -> Reading<String> {
    let name = text(node)?;
    if name.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '.')) {
        return Ok(name);
    }
    let message = format!("expected a name of letters, digits, `-`, `_` and `.`, found `{}`", short(&name));
    Err(vec![mistake(Code::WrongKind, node, message)])
}

/// A date, a time of day or both, in quotes or not, as text.
///
/// # Errors
/// For any other value.
pub fn stamp(node: &Node) -> Reading<String> {
    match &node.value {
        Value::Stamp(stamp) => Ok(stamp.clone()),
        Value::Text(_) => text(node),
        Value::Integer(_) | Value::Number(_) | Value::Flag(_) | Value::List(_) | Value::Table(_) => {
            Err(vec![wrong_kind(node, "a date or time such as \"2027-03-05 14:00\"")])
        }
    }
}

/// `true` or `false`.
///
/// # Errors
/// For any other value.
pub fn flag(node: &Node) -> Reading<bool> {
    match node.value {
        Value::Flag(flag) => Ok(flag),
        _ => Err(vec![wrong_kind(node, "true or false")]),
    }
}

/// A whole number of either sign.
///
/// # Errors
/// For any other value.
pub fn integer(node: &Node) -> Reading<i64> {
    let wrong = || wrong_kind(node, "a whole number");
    match &node.value {
        Value::Integer(number) => Ok(*number),
        Value::Text(text) if text.trim().parse::<i64>().is_ok() => {
            Err(vec![wrong().help(format!("write {} without quotes", text.trim()))])
        }
        Value::Number(number) if number.fract().abs() < f64::EPSILON => {
            Err(vec![wrong().help(format!("write {number}"))])
        }
        _ => Err(vec![wrong()]),
    }
}

/// A count of at least one.
///
/// # Errors
/// For any other value.
pub fn count(node: &Node) -> Reading<u32> {
    match count_or_zero(node)? {
        0 => Err(vec![mistake(Code::OutOfRange, node, "expected a count of at least 1, found 0")]),
        count => Ok(count),
    }
}

/// A count that may be none.
///
/// # Errors
/// For any other value.
pub fn count_or_zero(node: &Node) -> Reading<u32> {
    let number = integer(node)?;
    u32::try_from(number).ok().filter(|count| *count <= LARGEST_COUNT).ok_or_else(|| {
        let message = format!("expected a count from 0 to {LARGEST_COUNT}, found {number}");
        vec![mistake(Code::OutOfRange, node, message)]
    })
}

/// A tolerance grade of ISO 286: `IT7`.
///
/// # Errors
/// For any other value.
pub fn grade(node: &Node) -> Reading<u32> {
    let found = text(node)?;
    let number = found.strip_prefix("IT").and_then(|number| number.parse::<u32>().ok());
    number.filter(|number| (1..=18).contains(number)).ok_or_else(|| {
        vec![mistake(
            Code::WrongKind,
            node,
            format!("expected a grade such as `IT7`, IT1 to IT18, found `{}`", short(&found)),
        )]
    })
}

/// Largest count that is planned with.
const LARGEST_COUNT: u32 = 10_000_000;

/// One of a few words, each of which stands for a value.
pub fn choice<T: Clone>(choices: &[(&str, T)]) -> impl Fn(&Node) -> Reading<T> {
    move |node| {
        let words = || choices.iter().map(|(word, _)| *word);
        let expected = || words().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
        let Value::Text(given) = &node.value else {
            return Err(vec![wrong_kind(node, &format!("one of {}", expected()))]);
        };
        if let Some((_, value)) = choices.iter().find(|(word, _)| word == given) {
            return Ok(value.clone());
        }
        let message = format!("expected one of {}, found `{}`", expected(), short(given));
        Err(vec![mistake(Code::WrongKind, node, message).did_you_mean(nearest(given, words()))])
    }
}

#[cfg(test)]
mod tests {
    use super::{choice, count, count_or_zero, flag, integer, name, stamp, text};
    use crate::diag::Code;
    use crate::input::fields::sample::{code, help, node};

    #[test]
    fn texts_and_names() {
        assert_eq!(text(&node("'''a\n  b'''")), Ok("a b".to_owned()));
        assert_eq!(code(text(&node("\"\""))), Code::WrongKind);
        assert_eq!(code(text(&node("\"\\u001b[2J\""))), Code::WrongKind);
        assert_eq!(help(text(&node("12"))), "write \"12\"");
        assert_eq!(name(&node("\"EN-GJL-250\"")), Ok("EN-GJL-250".to_owned()));
        assert_eq!(code(name(&node("\"a b\""))), Code::WrongKind);
        assert_eq!(stamp(&node("2027-03-01")), stamp(&node("\"2027-03-01\"")));
        assert_eq!(code(stamp(&node("2027"))), Code::WrongKind);
    }

    #[test]
    fn whole_numbers_are_whole_and_not_quoted() {
        assert_eq!(count(&node("4")), Ok(4));
        assert_eq!(help(count(&node("4.0"))), "write 4");
        assert_eq!(help(count(&node("\"4\""))), "write 4 without quotes");
        assert_eq!(code(count(&node("4.5"))), Code::WrongKind);
        assert_eq!(code(count(&node("0"))), Code::OutOfRange);
        assert_eq!(count_or_zero(&node("0")), Ok(0));
        assert_eq!(code(count(&node("-1"))), Code::OutOfRange);
        assert_eq!(code(count(&node("4294967296"))), Code::OutOfRange);
        assert_eq!(integer(&node("-3")), Ok(-3));
        assert_eq!(code(integer(&node("nan"))), Code::WrongKind);
        assert_eq!((flag(&node("true")), code(flag(&node("1")))), (Ok(true), Code::WrongKind));
    }

    #[test]
    fn a_near_choice_is_offered() {
        let read = choice(&[("robot", 1), ("gantry", 2)]);
        assert_eq!(read(&node("\"gantry\"")), Ok(2));
        assert_eq!(help(read(&node("\"robbot\""))), "did you mean `robot`?");
        assert_eq!(code(read(&node("3"))), Code::WrongKind);
    }
}
