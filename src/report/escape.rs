//! Text made safe to show: no character that moves the cursor, turns the writing direction or hides.

/// Columns a wide sign takes up in a terminal; combining marks count as one, so that piles of them are cut too.
fn columns(sign: char) -> usize {
    match u32::from(sign) {
        0x1100..=0x115F
        | 0x2E80..=0xA4CF
        | 0xAC00..=0xD7A3
        | 0xF900..=0xFAFF
        | 0xFE30..=0xFE6F
        | 0xFF00..=0xFF60
        | 0xFFE0..=0xFFE6
        | 0x1F300..=0x1FAFF
        | 0x20000..=0x3FFFD => 2,
        _ => 1,
    }
}

/// Columns a text takes up in a terminal.
pub(super) fn text_width(text: &str) -> usize {
    text.chars().map(columns).sum()
}

/// Whether a character has no place in shown text: control (C0, DEL, C1), line separators, marks and overrides of
/// direction, and what takes up no room.
pub(super) fn hides(sign: char) -> bool {
    sign.is_control()
        || matches!(sign,
            '\u{ad}' | '\u{34f}' | '\u{61c}' | '\u{180b}'..='\u{180f}' | '\u{200b}'..='\u{200f}'
            | '\u{2028}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{fe00}'..='\u{fe0f}' | '\u{feff}'
            | '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e0fff}')
}

/// A text with hidden characters spelt out, such as `\u{202e}`.
pub(super) fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for sign in text.chars() {
        push(&mut plain, sign);
    }
    plain
}

/// A plain text of at most so many columns; what is cut off shows as an ellipsis.
pub(super) fn cut(text: &str, limit: usize) -> String {
    let mut plain = String::new();
    let (mut width, mut end) = (0, 0);
    for sign in text.chars() {
        let start = plain.len();
        push(&mut plain, sign);
        width += text_width(&plain[start..]);
        if width > limit {
            plain.truncate(end);
            plain.push('…');
            return plain;
        }
        if width < limit {
            end = plain.len();
        }
    }
    plain
}

fn push(plain: &mut String, sign: char) {
    if hides(sign) {
        plain.extend(sign.escape_unicode());
    } else {
        plain.push(sign);
    }
}

#[cfg(test)]
mod tests {
    use super::{cut, plain, text_width};

    #[test]
    fn hidden_characters_are_spelt_out() {
        assert_eq!(
            plain("a\u{202e}b\u{200b}c\u{1b}[2Jd\u{9b}e\nf"),
            r"a\u{202e}b\u{200b}c\u{1b}[2Jd\u{9b}e\u{a}f"
        );
        assert_eq!(plain("Welle 5 µm – Ø 20"), "Welle 5 µm – Ø 20");
    }

    #[test]
    fn long_texts_end_with_an_ellipsis() {
        assert_eq!(cut("abcde", 5), "abcde");
        assert_eq!(cut("abcdef", 5), "abcd…");
        assert_eq!(text_width(&cut(&"軸".repeat(40), 60)), 59);
        assert_eq!(cut("ab\u{202e}cdefgh", 6), "ab…");
    }
}
