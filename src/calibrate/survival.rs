//! The share of edges still cutting, without a law of life.

use super::sample::{Outcome, Row};

/// The survival curve after one life at which edges failed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SurvivalStep {
    /// The life.
    pub life: f64,
    /// Edges that had reached it.
    pub at_risk: f64,
    /// Edges that failed at it.
    pub failures: f64,
    /// Share of edges that outlive it.
    pub survival: f64,
    /// Standard error of the share.
    pub standard_error: f64,
}

/// Product-limit survival of lives, some of them cut short.
///
/// S = product of (1 - d/r); se = S sqrt(sum of d/(r (r - d))). An edge changed at the life of a failure counts as
/// having reached it. Covariates are not looked at. Rows without a positive life are passed over.
///
/// # Symbols
/// r edges that reached the life. d edges that failed at it. S share that outlives it.
/// # Range
/// Any; with all edges failed the last share is 0 and its error 0.
/// # Source
/// \[kaplan-meier-1958\], \[lawless\].
#[must_use]
pub fn kaplan_meier(rows: &[Row]) -> Vec<SurvivalStep> {
    let mut sorted: Vec<&Row> = rows.iter().filter(|row| row.life > 0.0).collect();
    sorted.sort_by(|one, other| one.life.total_cmp(&other.life));
    let mut at_risk: f64 = sorted.iter().map(|row| row.weight).sum();
    let (mut survival, mut variance) = (1.0, 0.0);
    let mut steps = Vec::new();
    for tied in sorted.chunk_by(|one, other| one.life.total_cmp(&other.life).is_eq()) {
        let whole: f64 = tied.iter().map(|row| row.weight).sum();
        let failures: f64 =
            tied.iter().filter(|row| row.outcome == Outcome::Failed).map(|row| row.weight).sum();
        if failures > 0.0 {
            let left = at_risk - failures;
            survival *= left / at_risk;
            variance += if left > 0.0 { failures / (at_risk * left) } else { 0.0 };
            let life = tied[0].life;
            steps.push(SurvivalStep {
                life,
                at_risk,
                failures,
                survival,
                standard_error: survival * variance.sqrt(),
            });
        }
        at_risk -= whole;
    }
    steps
}
