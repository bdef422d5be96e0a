//! Why a log does not yield constants.

use thiserror::Error;

/// The rows in which something is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Among {
    /// All rows.
    Rows,
    /// The rows that failed; the rest were changed before.
    Failures,
}

/// Why no constants are given. Fields count rows and covariates from 0; the sentences count them from 1.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FitError {
    /// Nothing to fit.
    #[error("there is no row to fit")]
    Empty,
    /// A life, reading or weight that is no number above zero.
    #[error("row {} holds {value}, which is not a number above zero", row + 1)]
    NotPositive {
        /// The row.
        row: usize,
        /// What stands there.
        value: f64,
    },
    /// A reading that is no number of zero or above.
    #[error("reading {} holds {value}, which is not a number of zero or above", row + 1)]
    Reading {
        /// The reading.
        row: usize,
        /// What stands there.
        value: f64,
    },
    /// A row with another number of covariates than the first, or with one that is no number.
    #[error("row {} does not give each covariate as a number", row + 1)]
    Covariates {
        /// The row.
        row: usize,
    },
    /// A prior that does not fit the coefficients.
    #[error("the prior must give a mean and a spread above zero for each of {coefficients} coefficients")]
    Prior {
        /// How many the rows ask for, the constant among them.
        coefficients: usize,
    },
    /// No row failed.
    #[error("no edge was used to its end: lives of edges changed early give no constants by themselves")]
    NoFailure,
    /// Too few rows failed for the number of coefficients.
    #[error("{failures} edges used to their end are too few: {needed} are needed")]
    TooFewFailures {
        /// How many there are.
        failures: f64,
        /// How many it takes.
        needed: usize,
    },
    /// The failures stand at the longest time seen, so the likelihood grows without end.
    #[error(
        "all edges that were used to their end have the longest life of the log: their scatter cannot be told"
    )]
    FailuresAtLongestLife,
    /// The rows lie on the line exactly, so the likelihood grows without end.
    #[error("the lives lie on the line without scatter: their scatter cannot be told")]
    NoScatter,
    /// A covariate with a single value.
    #[error("covariate {} has the same value in {}: its exponent cannot be told", covariate + 1, among.words())]
    NoSpread {
        /// The covariate.
        covariate: usize,
        /// In which rows.
        among: Among,
    },
    /// Covariates that moved together.
    #[error("the covariates moved together in {}: their exponents cannot be told apart", among.words())]
    Collinear {
        /// In which rows.
        among: Among,
    },
    /// The maximum found does not hold: flat in some direction, or not reached.
    #[error("the lives do not determine the constants: the likelihood has no clear peak")]
    NoPeak,
    /// Rows pasted twice.
    #[error("rows {} to {} come again as rows {} to {}", first + 1, first + length, again + 1, again + length)]
    Pasted {
        /// First row of the block.
        first: usize,
        /// First row where it comes again.
        again: usize,
        /// Rows in the block.
        length: usize,
    },
}

impl Among {
    fn words(self) -> &'static str {
        match self {
            Self::Rows => "all rows",
            Self::Failures => "all edges used to their end",
        }
    }
}
