//! A figure together with where it comes from.

/// How well a figure is backed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// Read in the source named.
    Read,
    /// Computed from, or quoted by, the source named.
    Secondary,
    /// From memory of the source named, not read again.
    Memory,
    /// A fact of the trade without a source.
    CommonPractice,
    /// Found from a log of the shop itself.
    ShopLog,
    /// Given by the user in the scenario.
    Given,
}

impl Standing {
    /// Those that a catalog may state, with the words that are written for them.
    pub const WORDS: [(&'static str, Self); 5] = [
        ("read", Self::Read),
        ("secondary", Self::Secondary),
        ("memory", Self::Memory),
        ("common practice", Self::CommonPractice),
        ("shop log", Self::ShopLog),
    ];

    /// As written in catalogs and reports.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Secondary => "secondary",
            Self::Memory => "memory",
            Self::CommonPractice => "common practice",
            Self::ShopLog => "shop log",
            Self::Given => "given",
        }
    }
}

/// A figure, the key of its source, the place in that source, and its standing.
#[derive(Debug, Clone, PartialEq)]
pub struct Sourced<T> {
    /// The figure.
    pub value: T,
    /// Key in `catalogs/sources.toml`, or `scenario` if the user gave it.
    pub source: String,
    /// Page, table or row in the source.
    pub at: Option<String>,
    /// How well it is backed.
    pub standing: Standing,
}
