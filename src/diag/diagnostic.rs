//! One mistake, and all of them.

use super::{Code, Span};

/// How many diagnostics one run shows; the rest is counted.
pub const SHOWN_AT_MOST: usize = 20;

/// Whether work may go on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Nothing is computed while it stands.
    Error,
    /// The result is given and this is to be known with it.
    Warning,
}

/// One mistake and where it is.
///
/// # Example
/// ```
/// use wearland::diag::{Code, Diagnostic, FileId, Span};
/// let span = Span::new(FileId(0), 10, 14);
/// let mistake = Diagnostic::new(Code::UnknownKey, "unknown key `fed` in this cut")
///     .at(span, "not a key of a cut")
///     .help("did you mean `feed`?");
/// assert_eq!(mistake.code.as_str(), "E102");
/// ```
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Diagnostic {
    /// Error or warning, as its code has it.
    pub severity: Severity,
    /// Kind of mistake.
    pub code: Code,
    /// Lowercase, no final period, the user's text in backticks.
    pub message: String,
    /// The place to change; `None` if there is no such place.
    pub primary: Option<Span>,
    /// A few words beside the place.
    pub label: String,
    /// Other places that matter, with a few words each.
    pub secondary: Vec<(Span, String)>,
    /// What to write instead.
    pub help: Option<String>,
}

impl Diagnostic {
    /// A mistake without a place.
    #[must_use]
    pub fn new(code: Code, message: impl Into<String>) -> Self {
        Self {
            severity: code.severity(),
            code,
            message: message.into(),
            primary: None,
            label: String::new(),
            secondary: Vec::new(),
            help: None,
        }
    }

    /// The same with the place to change.
    #[must_use]
    pub fn at(mut self, span: Span, label: impl Into<String>) -> Self {
        self.primary = Some(span);
        self.label = label.into();
        self
    }

    /// The same with another place that matters.
    #[must_use]
    pub fn also(mut self, span: Span, label: impl Into<String>) -> Self {
        self.secondary.push((span, label.into()));
        self
    }

    /// The same with what to write instead.
    #[must_use]
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into());
        self
    }

    /// The same, asking whether a near word was meant, if there is one.
    #[must_use]
    pub fn did_you_mean(self, word: Option<String>) -> Self {
        match word {
            Some(word) => self.help(format!("did you mean `{word}`?")),
            None => self,
        }
    }
}

/// All mistakes of a run.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Diagnostics(Vec<Diagnostic>);

impl Diagnostics {
    /// Takes one.
    pub fn push(&mut self, diagnostic: Diagnostic) {
        self.0.push(diagnostic);
    }

    /// Takes several.
    pub fn extend(&mut self, diagnostics: impl IntoIterator<Item = Diagnostic>) {
        self.0.extend(diagnostics);
    }

    /// All in the order found.
    #[must_use]
    pub fn into_vec(self) -> Vec<Diagnostic> {
        self.0
    }

    /// Whether nothing was found.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether an error stands.
    #[must_use]
    pub fn has_errors(&self) -> bool {
        self.count(Severity::Error) != 0
    }

    /// How many there are of a severity.
    #[must_use]
    pub fn count(&self, severity: Severity) -> usize {
        self.0.iter().filter(|found| found.severity == severity).count()
    }

    /// All, by file and place, those without a place first, each once.
    #[must_use]
    pub fn sorted(&self) -> Vec<&Diagnostic> {
        let mut all: Vec<&Diagnostic> = self.0.iter().collect();
        all.sort_by(|a, b| (a.primary, a.code, &a.message).cmp(&(b.primary, b.code, &b.message)));
        all.dedup();
        all
    }
}

#[cfg(test)]
mod tests {
    use super::{Diagnostic, Diagnostics, Severity};
    use crate::diag::{Code, FileId, Span};

    #[test]
    fn sorted_by_file_then_place() {
        let at = |file, start| {
            Diagnostic::new(Code::UnknownKey, "x").at(Span::new(FileId(file), start, start + 1), "")
        };
        let mut all = Diagnostics::default();
        all.extend([at(1, 0), at(0, 9), at(0, 2), at(0, 2), Diagnostic::new(Code::NeverUsed, "x")]);
        assert!(all.has_errors() && all.count(Severity::Warning) == 1);
        let order: Vec<_> =
            all.sorted().iter().map(|found| found.primary.map(|p| (p.file.0, p.start))).collect();
        assert_eq!(order, [None, Some((0, 2)), Some((0, 9)), Some((1, 0))]);
    }
}
