//! What a log cannot tell, at the rows that show it.

use super::group::Group;
use crate::calibrate::FitError;
use crate::diag::{Code, Diagnostic};

/// A refusal in the words of the log: lines instead of rows.
pub(super) fn diagnostic(group: &Group, error: &FitError) -> Diagnostic {
    let at = |row: usize| group.lives.get(row).map_or(group.lives[0].span, |life| life.span);
    let line = |row: usize| group.lives.get(row).map_or(0, |life| life.line);
    let axes = group.axes();
    let name = |covariate: usize| axes.get(covariate).map_or("covariate", |axis| axis.name());
    let of = group.name();
    let told = |message: String| Diagnostic::new(Code::CannotTell, message);
    match error {
        FitError::Pasted { first, again, length } => told(format!(
            "{of}: lines {} to {} come again as lines {} to {}",
            line(*first),
            line(first + length - 1),
            line(*again),
            line(again + length - 1)
        ))
        .at(at(*again), "the block begins here again")
        .also(at(*first), "first here")
        .help("take the second block out; if they are different edges, give each change an `id`"),
        FitError::NoSpread { covariate, .. } => {
            told(format!("{of}: {}", error.to_string().replace(
                &format!("covariate {}", covariate + 1),
                &format!("the {}", name(*covariate)),
            )))
            .at(at(0), "nothing shows how life hangs on it")
            .help(format!(
                "log changes at another {}, or join the catalog's exponent with --prior: the life and its scatter come from the log then",
                name(*covariate)
            ))
        }
        FitError::Collinear { .. } => told(format!("{of}: {error}"))
            .at(at(0), "from here on")
            .help("change feed and speed separately, leave one of the columns out, or use --prior"),
        FitError::NoFailure => told(format!("{of}: {error}"))
            .at(at(0), "changed early, like all others")
            .help("run some edges to their wear limit and log them as `worn`"),
        FitError::NotPositive { row, .. } | FitError::Reading { row, .. } | FitError::Covariates { row } => {
            told(format!("{of}: {error}")).at(at(*row), "this row")
        }
        FitError::NoScatter => told(format!("{of}: {error}"))
            .at(at(0), "from here on")
            .help("log more edges to their end"),
        FitError::Empty
        | FitError::Prior { .. }
        | FitError::TooFewFailures { .. }
        | FitError::FailuresAtLongestLife
        | FitError::NoPeak => told(format!("{of}: {error}"))
            .at(at(0), "from here on")
            .help("log more edges to their end, or join the catalog with --prior"),
    }
}
