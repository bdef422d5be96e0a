//! Diagnostics as text for a terminal or a log: place, line of the file, caret, help.

use super::escape::masked;
use super::{Diagnostic, Diagnostics, FileId, SHOWN_AT_MOST, Severity, SourceFile, SourceMap, Span, escaped};
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};

/// Width for which long lines are cut.
const WIDTH: usize = 110;

/// Whether colours may be written. Everything can be understood without.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Color {
    /// Text alone.
    Plain,
    /// With terminal colours.
    Styled,
}

/// All diagnostics in the order of the files, at most [`SHOWN_AT_MOST`], then their count. Empty if there are none.
#[must_use]
pub fn render(diagnostics: &Diagnostics, sources: &SourceMap, color: Color) -> String {
    let sorted = diagnostics.sorted();
    let renderer = match color {
        Color::Plain => Renderer::plain(),
        Color::Styled => Renderer::styled(),
    }
    .term_width(WIDTH);
    let mut text = String::new();
    for diagnostic in sorted.iter().take(SHOWN_AT_MOST) {
        text.push_str(&renderer.render(&[group(diagnostic, sources)]));
        text.push_str("\n\n");
    }
    if !sorted.is_empty() {
        text.push_str(&summary(&sorted));
    }
    text
}

fn summary(sorted: &[&Diagnostic]) -> String {
    let count = |severity| sorted.iter().filter(|found| found.severity == severity).count();
    let counted = |number: usize, word: &str| match number {
        0 => None,
        1 => Some(format!("1 {word}")),
        _ => Some(format!("{number} {word}s")),
    };
    let parts: Vec<String> =
        [counted(count(Severity::Error), "error"), counted(count(Severity::Warning), "warning")]
            .into_iter()
            .flatten()
            .collect();
    let hidden = sorted.len().saturating_sub(SHOWN_AT_MOST);
    let rest = if hidden == 0 { String::new() } else { format!(", {hidden} of them not shown") };
    format!("{}{rest}\n", parts.join(", "))
}

fn group<'a>(diagnostic: &Diagnostic, sources: &'a SourceMap) -> Group<'a> {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
    };
    let title = level.primary_title(escaped(&diagnostic.message)).id(diagnostic.code.as_str());
    let mut group = Group::with_title(title);
    for file in files(diagnostic) {
        if let Some(source) = sources.file(file) {
            group = group.element(snippet(diagnostic, file, source));
        }
    }
    match &diagnostic.help {
        Some(help) => group.element(Level::HELP.message(escaped(help))),
        None => group,
    }
}

/// The files pointed into, the primary one first.
fn files(diagnostic: &Diagnostic) -> Vec<FileId> {
    let mut files: Vec<FileId> = Vec::new();
    for span in diagnostic.primary.iter().chain(diagnostic.secondary.iter().map(|(span, _)| span)) {
        if !files.contains(&span.file) {
            files.push(span.file);
        }
    }
    files
}

/// The lines of one file from the first place to the last, with a mark at each.
fn snippet<'a>(diagnostic: &Diagnostic, file: FileId, source: &'a SourceFile) -> Snippet<'a, Annotation<'a>> {
    let primary = diagnostic.primary.iter().map(|span| (*span, &diagnostic.label, AnnotationKind::Primary));
    let secondary = diagnostic.secondary.iter().map(|(span, label)| (*span, label, AnnotationKind::Context));
    let marks: Vec<(Span, &String, AnnotationKind)> =
        primary.chain(secondary).filter(|(span, ..)| span.file == file).collect();
    let first = marks.iter().map(|(span, ..)| source.line_start(span.start)).min().unwrap_or(0);
    let last = marks.iter().map(|(span, ..)| source.line_end(span.end)).max().unwrap_or(0);
    Snippet::source(masked(source.text.get(first..last).unwrap_or("")))
        .path(escaped(&source.name))
        .line_start(source.place(first).line)
        .annotations(marks.into_iter().map(|(span, label, kind)| {
            let start = source.boundary(span.start);
            let end = source.boundary(span.end.min(last)).max(start);
            let label = (!label.is_empty()).then(|| escaped(label));
            kind.span(start - first..end - first).label(label)
        }))
}

#[cfg(test)]
mod tests {
    use super::{Color, render};
    use crate::diag::{Code, Diagnostic, Diagnostics, SourceMap, Span};

    const TEXT: &str = "[scenario]\ntitle = \"é\"\n[cut]\nfed = \"0.2 mm/rev\"\n";

    fn sample() -> (SourceMap, Diagnostics) {
        let mut map = SourceMap::default();
        let file = map.add("plant.toml", TEXT);
        let other = map.add("tools.toml", "[tool.a]\n");
        let start = TEXT.find("fed").unwrap();
        let mut all = Diagnostics::default();
        all.push(
            Diagnostic::new(Code::UnknownKey, "unknown key `fed`")
                .at(Span::new(file, start, start + 3), "not a key of a cut")
                .also(Span::new(other, 0, 8), "for this tool")
                .help("did you mean `feed`?"),
        );
        (map, all)
    }

    #[test]
    fn place_line_caret_other_file_and_help() {
        let (map, all) = sample();
        let text = render(&all, &map, Color::Plain);
        for part in [
            "error[E102]: unknown key `fed`",
            "plant.toml:4:1",
            "4 | fed = \"0.2 mm/rev\"",
            "^^^ not a key of a cut",
            "tools.toml:1:1",
            "-------- for this tool",
            "help: did you mean `feed`?",
            "\n1 error\n",
        ] {
            assert!(text.contains(part), "{part} missing in\n{text}");
        }
        assert!(!text.contains('\u{1b}') && render(&all, &map, Color::Styled).contains('\u{1b}'));
    }

    #[test]
    fn no_text_of_the_user_steers_the_terminal() {
        let mut map = SourceMap::default();
        let evil = "\u{1b}[2J\u{9b}31m\u{202e}";
        let file = map.add(evil, format!("# {evil}\nx = 1"));
        let mut all = Diagnostics::default();
        let span = Span::new(file, 2, 2 + evil.len());
        all.push(Diagnostic::new(Code::NotToml, evil).at(span, evil).also(span, evil).help(evil));
        let text = render(&all, &map, Color::Plain);
        assert!(!text.contains(['\u{1b}', '\u{9b}', '\u{202e}']), "{text:?}");
    }

    #[test]
    fn places_at_and_past_the_end_are_shown() {
        let mut map = SourceMap::default();
        let file = map.add("a.toml", "");
        let long = map.add("b.toml", "x = \"a\nb\"\r\nü");
        let mut all = Diagnostics::default();
        for (file, start, end) in [(file, 0, 0), (file, 7, 9), (long, 4, 9), (long, 12, 12), (long, 13, 99)] {
            all.push(Diagnostic::new(Code::NotToml, "x").at(Span::new(file, start, end), "here"));
        }
        assert!(render(&all, &map, Color::Plain).ends_with("5 errors\n"));
    }

    #[test]
    fn twenty_are_shown_and_the_rest_counted() {
        let mut all = Diagnostics::default();
        for number in 0..23 {
            all.push(Diagnostic::new(Code::NotToml, format!("mistake {number:02}")));
        }
        let text = render(&all, &SourceMap::default(), Color::Plain);
        assert!(text.contains("mistake 19") && !text.contains("mistake 20"));
        assert!(text.ends_with("23 errors, 3 of them not shown\n"), "{text}");
    }
}
