//! The change point of one edge: the least of what economy, reliability, size, finish and the shop allow, in whole pieces.

use crate::quantity::{Formula, Length};
use crate::tooling::replacement::{PieceChange, PieceOutcome};
use crate::tooling::{LifeFamily, Sourced};

/// What asks for an edge to come out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Rule {
    /// Least cost of a good piece.
    LeastCost,
    /// Most good pieces an hour, where prices are missing.
    MostAnHour,
    /// An edge costs no more if it is left in until it fails.
    ToFailure,
    /// Whole pieces of the average life.
    AverageLife,
    /// Share of edges that must last.
    Survival,
    /// No offset correction is left.
    SizeDrift,
    /// The finish is lost.
    Finish,
    /// Most pieces that the shop allows.
    MostPieces,
    /// A stop common with other edges.
    CommonStop,
}

impl Rule {
    /// In words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LeastCost => "least cost",
            Self::MostAnHour => "most pieces an hour",
            Self::ToFailure => "left in until it fails",
            Self::AverageLife => "average life",
            Self::Survival => "survival",
            Self::SizeDrift => "size drift",
            Self::Finish => "finish",
            Self::MostPieces => "most pieces allowed",
            Self::CommonStop => "common stop",
        }
    }
}

/// Whole pieces up to an age.
pub(super) const PIECES_TO_AGE: Formula =
    Formula { figure: "pieces to the change", text: "N = floor(u / w)", source: "groover" };

/// Least of the pieces that the rules allow.
pub(super) const CHANGE_POINT: Formula =
    Formula { figure: "change point", text: "N = min over rules of N_i", source: "common-practice" };

/// Offset corrections of one cut while an edge lasts.
#[derive(Debug, Clone, PartialEq)]
pub struct Correction {
    /// Place of the cut in its operation.
    pub cut: usize,
    /// How much the diameter is brought back each time.
    pub amount: Length,
    /// After which pieces.
    pub after: Vec<u32>,
    /// Largest distance of pieces between two gaugings that still sees each correction come.
    pub gauge_every: u32,
}

/// When an edge comes out and what that means.
#[derive(Debug, Clone, PartialEq)]
pub struct ChangePoint {
    /// Pieces of the average edge, not rounded.
    pub average: f64,
    /// Coefficient of variation of the life.
    pub variation: Sourced<f64>,
    /// Family of the life.
    pub family: LifeFamily,
    /// What a change and a failure cost.
    pub change: PieceChange,
    /// What each rule asks for, in pieces.
    pub rules: Vec<(Rule, u32)>,
    /// The rule that asks for the least.
    pub rule: Rule,
    /// What comes of it.
    pub outcome: PieceOutcome,
    /// At a common stop: edges that fail between two planned changes, each replaced at once.
    pub renewals: Option<f64>,
    /// Offset corrections on the way there.
    pub corrections: Vec<Correction>,
}

impl ChangePoint {
    /// Pieces an edge makes on average, good ones and the one that is lost when it fails.
    #[must_use]
    pub fn made(&self) -> f64 {
        match self.renewals {
            Some(failures) => f64::from(self.outcome.pieces) / (1.0 + failures),
            None => self.outcome.good + self.outcome.failed,
        }
    }

    /// Share of the edges that fail before their change.
    #[must_use]
    pub fn failed(&self) -> f64 {
        self.renewals.map_or(self.outcome.failed, |failures| failures / (1.0 + failures))
    }
}
