//! The codes of all mistakes. A code never changes its meaning; a code no longer used is not given out again.

use super::Severity;
use std::str::FromStr;
use thiserror::Error;

/// Kind of a mistake: `E` stops the work, `W` does not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Code {
    /// E101: the text is not TOML.
    NotToml,
    /// E102: a key that nothing reads.
    UnknownKey,
    /// E103: a key that must be given is not.
    MissingKey,
    /// E104: a value of the wrong kind.
    WrongKind,
    /// E105: a text that is not the quantity asked for.
    NotAQuantity,
    /// E106: a value outside what makes sense.
    OutOfRange,
    /// E107: a file that cannot be read as text.
    NotText,
    /// E108: a file nested too deep or too large.
    TooLarge,
    /// E109: a designation of a standard that does not decode.
    Designation,
    /// E110: a table of a log whose head line or rows are out of shape.
    LogShape,
    /// E111: an earlier report that cannot be read back.
    SavedReport,
    /// E201: a name that nothing bears.
    UnknownName,
    /// E202: the same given twice.
    GivenTwice,
    /// E203: a calendar or shift that does not make sense.
    Calendar,
    /// E204: lengths and diameters that contradict each other.
    Geometry,
    /// E205: a route or bill of materials in a circle or to nowhere.
    Route,
    /// E206: not exactly one of several keys.
    ExactlyOne,
    /// E301: a limit of the machine is broken.
    MachineLimit,
    /// E302: one edge does not last one piece.
    EdgeTooShort,
    /// E303: no machine can run it.
    NoMachine,
    /// E304: no tool life data for the material.
    NoLifeData,
    /// E305: a log that cannot tell what is asked of it.
    CannotTell,
    /// W401: outside the range of the law.
    OutsideLaw,
    /// W402: a figure is missing.
    FigureMissing,
    /// W403: looks like a wrong unit.
    UnlikelyUnit,
    /// W404: given and never used.
    NeverUsed,
}

/// A text that is no code.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
#[error("`{0}` is not a code of this program")]
pub struct UnknownCode(pub String);

const ALL: [(Code, &str); 26] = [
    (Code::NotToml, "E101"),
    (Code::UnknownKey, "E102"),
    (Code::MissingKey, "E103"),
    (Code::WrongKind, "E104"),
    (Code::NotAQuantity, "E105"),
    (Code::OutOfRange, "E106"),
    (Code::NotText, "E107"),
    (Code::TooLarge, "E108"),
    (Code::Designation, "E109"),
    (Code::LogShape, "E110"),
    (Code::SavedReport, "E111"),
    (Code::UnknownName, "E201"),
    (Code::GivenTwice, "E202"),
    (Code::Calendar, "E203"),
    (Code::Geometry, "E204"),
    (Code::Route, "E205"),
    (Code::ExactlyOne, "E206"),
    (Code::MachineLimit, "E301"),
    (Code::EdgeTooShort, "E302"),
    (Code::NoMachine, "E303"),
    (Code::NoLifeData, "E304"),
    (Code::CannotTell, "E305"),
    (Code::OutsideLaw, "W401"),
    (Code::FigureMissing, "W402"),
    (Code::UnlikelyUnit, "W403"),
    (Code::NeverUsed, "W404"),
];

impl Code {
    /// All codes in order.
    pub fn all() -> impl Iterator<Item = Self> {
        ALL.iter().map(|(code, _)| *code)
    }

    /// As shown and as asked for: `E102`.
    #[must_use]
    pub fn as_str(self) -> &'static str {
        ALL[self as usize].1
    }

    /// Whether it stops the work.
    #[must_use]
    pub fn severity(self) -> Severity {
        if self.as_str().starts_with('W') { Severity::Warning } else { Severity::Error }
    }

    /// In a few words.
    #[must_use]
    pub fn title(self) -> &'static str {
        self.explanation().title
    }
}

impl FromStr for Code {
    type Err = UnknownCode;

    fn from_str(text: &str) -> Result<Self, UnknownCode> {
        let wanted = text.trim();
        ALL.iter()
            .find(|(_, known)| known.eq_ignore_ascii_case(wanted))
            .map(|(code, _)| *code)
            .ok_or_else(|| UnknownCode(text.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::Code;
    use crate::diag::Severity;

    #[test]
    fn codes_read_back_and_are_in_order() {
        for code in Code::all() {
            assert_eq!(code.as_str().parse(), Ok(code));
        }
        let texts: Vec<_> = Code::all().map(Code::as_str).collect();
        assert!(texts.is_sorted_by(|a, b| a < b), "{texts:?}");
        assert_eq!(" e104".parse(), Ok(Code::WrongKind));
        assert!("E999".parse::<Code>().is_err());
        assert_eq!(Code::NeverUsed.severity(), Severity::Warning);
    }
}
