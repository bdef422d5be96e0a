//! What a command gives back: a report with a verdict, or why there is none. Exit codes follow from these alone.

use crate::diag::{Color, Diagnostics, SourceMap, escaped, render};
use crate::input::{EntriesError, FileError};
use crate::quantity::Units;
use crate::report::Document;
use crate::schedule::{FreeError, PlanError, SolveError};
use std::path::PathBuf;
use thiserror::Error;

/// Whether the answer is yes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Done.
    Yes,
    /// Done, and the answer is no: orders late, targets missed.
    No,
}

/// A report.
#[derive(Debug)]
pub struct Answer {
    /// The report.
    pub document: Document,
    /// How quantities are shown.
    pub units: Units,
    /// Whether the answer is yes.
    pub verdict: Verdict,
    /// Warnings about the input.
    pub warnings: Diagnostics,
    /// The files the warnings point into.
    pub sources: SourceMap,
    /// Further files asked for.
    pub beside: Vec<Beside>,
}

/// A file written beside the report.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// Where.
    pub path: PathBuf,
    /// What.
    pub text: String,
}

impl Answer {
    /// A report on no scenario.
    #[must_use]
    pub fn plain(document: Document) -> Self {
        Self {
            document,
            units: Units::default(),
            verdict: Verdict::Yes,
            warnings: Diagnostics::default(),
            sources: SourceMap::default(),
            beside: Vec::new(),
        }
    }
}

/// Why there is no report.
#[derive(Debug, Error)]
pub enum Failure {
    /// What was asked for does not exist.
    #[error("{0}")]
    Usage(String),
    /// The input has mistakes.
    #[error("the input has mistakes")]
    Input(Box<(Diagnostics, SourceMap)>),
    /// A file could not be read.
    #[error(transparent)]
    File(#[from] FileError),
    /// The solver gave up.
    #[error("{0}")]
    Limit(String),
    /// A fault of this program.
    #[error("{0}")]
    Bug(String),
}

impl Failure {
    /// Exit code: 2 wrong command line, 3 wrong input, 4 files, 5 limit hit, 70 a fault of this program.
    #[must_use]
    pub const fn exit_code(&self) -> u8 {
        match self {
            Self::Usage(_) => 2,
            Self::Input(_) => 3,
            Self::File(_) => 4,
            Self::Limit(_) => 5,
            Self::Bug(_) => 70,
        }
    }

    /// What is said on stderr.
    #[must_use]
    pub fn text(&self, color: Color) -> String {
        match self {
            Self::Input(found) => render(&found.0, &found.1, color),
            Self::Bug(what) => {
                format!("error: {what}\nThis is a fault of wearland; the plan was not written.\n")
            }
            Self::Usage(_) | Self::File(_) | Self::Limit(_) => {
                format!("error: {}\n", escaped(&self.to_string()))
            }
        }
    }
}

impl Verdict {
    /// Exit code: 0 yes, 1 no.
    #[must_use]
    pub const fn exit_code(self) -> u8 {
        match self {
            Self::Yes => 0,
            Self::No => 1,
        }
    }
}

impl From<SolveError> for Failure {
    fn from(error: SolveError) -> Self {
        match error {
            SolveError::Solver(what) => Self::Limit(format!("the solver gave up: {what}")),
            SolveError::Infeasible => Self::Limit(
                "the solver found no plan: the numbers of this scenario lie too far apart".to_owned(),
            ),
            SolveError::Fault(_) | SolveError::Unbounded => Self::Bug(error.to_string()),
        }
    }
}

impl From<PlanError> for Failure {
    fn from(error: PlanError) -> Self {
        match error {
            PlanError::Solve(error) => error.into(),
            PlanError::Refused(_) => Self::Bug(error.to_string()),
        }
    }
}

impl From<FreeError> for Failure {
    fn from(error: FreeError) -> Self {
        match error {
            FreeError::Solve(error) => error.into(),
            // At the speeds as written the cut could be worked out.
            FreeError::Cut { .. } => Self::Bug(error.to_string()),
        }
    }
}

impl From<EntriesError> for Failure {
    fn from(error: EntriesError) -> Self {
        match error {
            EntriesError::File(error) => error.into(),
            EntriesError::Mistakes(found) => Self::Input(found),
            EntriesError::Unknown { .. } => Self::Usage(error.to_string()),
        }
    }
}
