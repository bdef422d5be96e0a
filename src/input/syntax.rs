//! Breaches of the rules of TOML, said so that they can be mended.

use crate::diag::{Code, Diagnostic, Diagnostics, FileId, SHOWN_AT_MOST, Span};
use std::ops::Range;

/// Reports each breach; of several in one line the first, since the others mostly follow from it.
pub(super) fn report_breaches(
    file: FileId,
    text: &str,
    errors: &[toml::de::Error],
    diagnostics: &mut Diagnostics,
) {
    let mut reported_line = None;
    let mut twice_count = 0;
    for error in errors {
        let place = error.span().unwrap_or(text.len()..text.len());
        let line_start = line_start(text, place.start);
        if reported_line.replace(line_start) == Some(line_start) {
            continue;
        }
        let span = Span::new(file, place.start, place.end);
        if error.message() != "duplicate key" {
            diagnostics.push(breach(error.message(), span, text, line_start));
            continue;
        }
        let key = text.get(place.clone()).unwrap_or("");
        let twice = Diagnostic::new(Code::GivenTwice, format!("`{key}` is given twice"))
            .at(span, "this is the second time")
            .help("keep one of the two");
        // Looking for the first place takes time, so it is done only for what can be shown.
        twice_count += 1;
        let first = if twice_count <= SHOWN_AT_MOST { first_place(text, line_start, &place) } else { None };
        diagnostics.push(match first {
            Some(first) => twice.also(Span::new(file, first.start, first.end), "this is the first"),
            None => twice,
        });
    }
}

fn breach(message: &str, span: Span, text: &str, line_start: usize) -> Diagnostic {
    let line = text[line_start..].lines().next().unwrap_or("");
    let nothing = text.get(span.start..span.end).is_none_or(|found| found.trim().is_empty());
    let (message, label) = match message.split(',').next() {
        Some("string values must be quoted") if nothing => ("no value after `=`", "value missing"),
        Some("string values must be quoted") => ("a text must stand in quotes", "not in quotes"),
        _ => (message, "here"),
    };
    let mistake = Diagnostic::new(Code::NotToml, format!("not TOML: {message}")).at(span, label);
    match quoted_quantity(line) {
        Some(quoted) => mistake.help(format!("write {quoted}")),
        None => mistake,
    }
}

/// `speed = 220 m/min` as it ought to be: `speed = "220 m/min"`.
fn quoted_quantity(line: &str) -> Option<String> {
    let (key, value) = line.split_once('=')?;
    let value = value.split('#').next()?.trim();
    let plain = value.chars().all(|c| c.is_alphanumeric() || " ./%µ°+-".contains(c));
    let unit = value.chars().any(char::is_alphabetic) || value.ends_with(['%', '°']);
    (plain && unit && value.starts_with(|first: char| first.is_ascii_digit()))
        .then(|| format!("{} = \"{value}\"", key.trim()))
}

/// Where a key or header stood before: the same header further up, or the key since the last header.
fn first_place(text: &str, second: usize, place: &Range<usize>) -> Option<Range<usize>> {
    let content = |line: &str| line.split('#').next().unwrap_or("").trim().to_owned();
    let header = content(text[second..].lines().next()?);
    if header.starts_with('[') {
        let mut start = 0;
        for line in text[..second].split_inclusive('\n') {
            if content(line) == header {
                return Some(start..start + line.trim_end().len());
            }
            start += line.len();
        }
        return None;
    }
    // A key inside an inline table or with dots before it is not looked for.
    let key = text.get(place.clone()).filter(|_| text[second..place.start].trim().is_empty())?;
    let mut end = second;
    while end != 0 {
        let start = line_start(text, end - 1);
        let line = &text[start..end];
        if line.starts_with('[') {
            return None;
        }
        let after = line.trim_start().strip_prefix(key);
        if after.is_some_and(|after| after.trim_start().starts_with('=')) {
            let indent = line.len() - line.trim_start().len();
            return Some(start + indent..start + indent + key.len());
        }
        end = start;
    }
    None
}

fn line_start(text: &str, byte: usize) -> usize {
    let before = &text.as_bytes()[..byte.min(text.len())];
    before.iter().rposition(|byte| *byte == b'\n').map_or(0, |newline| newline + 1)
}

#[cfg(test)]
mod tests {
    use crate::diag::{Code, Diagnostic, Diagnostics, FileId};
    use crate::input::parse;

    fn mistakes(text: &str) -> Vec<Diagnostic> {
        let mut diagnostics = Diagnostics::default();
        assert!(parse(FileId(0), text, &mut diagnostics).is_none());
        diagnostics.sorted().into_iter().cloned().collect()
    }

    #[test]
    fn every_broken_line_is_reported_once() {
        let found = mistakes("a = 220 m/min\nb = \"ok\"\nc = \nd = 'x\n");
        let messages: Vec<&str> = found.iter().map(|mistake| mistake.message.as_str()).collect();
        assert_eq!(found.len(), 3, "{messages:?}");
        assert!(found.iter().all(|mistake| mistake.code == Code::NotToml));
        assert_eq!(messages[..2], ["not TOML: a text must stand in quotes", "not TOML: no value after `=`"]);
        assert_eq!(found[0].help.as_deref(), Some("write a = \"220 m/min\""));
    }

    #[test]
    fn what_is_given_twice_shows_both_places() {
        let places = |text: &str| {
            let found = mistakes(text);
            assert_eq!((found.len(), found[0].code), (1, Code::GivenTwice));
            let text_at = |span: crate::diag::Span| (span.start, text[span.start..span.end].to_owned());
            (text_at(found[0].primary.unwrap()), found[0].secondary.first().map(|(span, _)| text_at(*span)))
        };
        let key = places("[a]\nx = 1\n[b]\n  x = 2\ny = 3\nx = 4\n");
        assert_eq!(key, ((28, "x".to_owned()), Some((16, "x".to_owned()))));
        let header = places("[m.a] # one\n[m.b]\n[m.a]\n");
        assert_eq!(header, ((21, "a".to_owned()), Some((0, "[m.a] # one".to_owned()))));
        assert_eq!(places("x = 1\nt = { x = 1, x = 2 }").1, None);
    }
}
