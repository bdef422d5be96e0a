//! What was found where something else was expected.

use crate::diag::{Code, Diagnostic};
use crate::input::{Node, Value};

/// A value, or all that is wrong with it.
pub type Reading<T> = Result<T, Vec<Diagnostic>>;

/// Longest piece of the user's text that is repeated in a message, in characters.
const REPEATED_AT_MOST: usize = 40;

/// The value in a few words.
pub(super) fn found(node: &Node) -> String {
    match &node.value {
        Value::Text(text) => format!("the text `{}`", short(text)),
        Value::Integer(number) => number.to_string(),
        Value::Number(number) => number_text(*number),
        Value::Flag(flag) => flag.to_string(),
        Value::Stamp(stamp) => format!("the date or time {stamp}"),
        Value::List(_) => "a list".to_owned(),
        Value::Table(_) => "a table".to_owned(),
    }
}

/// The start of a text.
pub(in crate::input) fn short(text: &str) -> String {
    let mut start: String = text.chars().take(REPEATED_AT_MOST).collect();
    if start.len() < text.len() {
        start.push_str("...");
    }
    start
}

/// A number as it may be written: `4.0` stays `4.0`, `nan` is lowercase.
fn number_text(number: f64) -> String {
    format!("{number:?}").to_lowercase()
}

/// A number of either spelling; `None` for what is no number.
pub(super) fn as_number(node: &Node) -> Option<f64> {
    match node.value {
        #[expect(clippy::cast_precision_loss, reason = "counts and ratios are far below 2^53")]
        Value::Integer(number) => Some(number as f64),
        Value::Number(number) => Some(number),
        Value::Text(_) | Value::Flag(_) | Value::Stamp(_) | Value::List(_) | Value::Table(_) => None,
    }
}

/// Why this value will not do.
pub(super) fn mistake(code: Code, node: &Node, message: impl Into<String>) -> Diagnostic {
    Diagnostic::new(code, message).at(node.span, "")
}

/// A value of the wrong kind.
pub(super) fn wrong_kind(node: &Node, expected: &str) -> Diagnostic {
    mistake(Code::WrongKind, node, format!("expected {expected}, found {}", found(node)))
}
