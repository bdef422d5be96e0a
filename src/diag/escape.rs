//! Text of the user made safe for a terminal.

/// Whether a character steers a terminal or turns the direction of a line instead of being printed.
#[must_use]
pub fn is_unprintable(character: char) -> bool {
    character.is_control()
        || matches!(character,
            '\u{061c}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}')
}

/// The text with each unprintable character written as `\u{1b}`.
#[must_use]
pub fn escaped(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for character in text.chars() {
        if is_unprintable(character) {
            safe.extend(character.escape_unicode());
        } else {
            safe.push(character);
        }
    }
    safe
}

/// The text with each unprintable character replaced by a printable one of as many bytes, so that places in it stay
/// true. Tabs and line breaks are kept.
pub(super) fn masked(text: &str) -> String {
    text.chars()
        .map(|character| match (character, character.len_utf8()) {
            ('\t' | '\n' | '\r', _) => character,
            _ if !is_unprintable(character) => character,
            (_, 1) => '?',
            (_, 2) => '\u{b7}',
            _ => char::REPLACEMENT_CHARACTER,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{escaped, masked};

    #[test]
    fn nothing_steers_the_terminal() {
        let bad = "a\u{1b}[31m\u{9b}2J\u{202e}b\u{feff}\u{7f}é";
        assert_eq!(escaped(bad), "a\\u{1b}[31m\\u{9b}2J\\u{202e}b\\u{feff}\\u{7f}é");
        assert_eq!(masked(bad).len(), bad.len());
        assert_eq!(masked(bad), "a?[31m\u{b7}2J\u{fffd}b\u{fffd}?é");
    }
}
