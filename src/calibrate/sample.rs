//! What a log says of one edge, and what is asked of it.

/// Distribution of the life T: log T = x'b + sigma W.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Family {
    /// W is the smallest extreme value; sigma = 1/shape; exp(x'b) is the life that 63.2 % do not reach.
    Weibull,
    /// W is standard normal; exp(x'b) is the median life.
    Lognormal,
}

/// How the life of an edge ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// Worn to the limit, or broken.
    Failed,
    /// Changed early: the life would have been longer.
    RightCensored,
}

/// One life, or several equal ones.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Covariates without the constant: logarithms of speed, feed, depth.
    pub x: Vec<f64>,
    /// Life, above zero.
    pub life: f64,
    /// How it ended.
    pub outcome: Outcome,
    /// How many edges the row stands for.
    pub weight: f64,
}

impl Row {
    /// One edge that failed.
    #[must_use]
    pub fn failed(x: Vec<f64>, life: f64) -> Self {
        Self { x, life, outcome: Outcome::Failed, weight: 1.0 }
    }

    /// One edge that was changed early.
    #[must_use]
    pub fn censored(x: Vec<f64>, life: f64) -> Self {
        Self { x, life, outcome: Outcome::RightCensored, weight: 1.0 }
    }

    pub(super) fn has_failed(&self) -> bool {
        self.outcome == Outcome::Failed
    }
}

/// What was known of the coefficients before: a normal distribution for each, the constant first.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    /// Expected values.
    pub mean: Vec<f64>,
    /// Standard deviations; infinite where nothing was known.
    pub sd: Vec<f64>,
}

impl Prior {
    /// Whether something was known of coefficient `at`.
    pub(super) fn speaks_of(&self, at: usize) -> bool {
        self.sd.get(at).is_some_and(|sd| sd.is_finite())
    }
}

/// Whether `prior` says something of coefficient `at`.
pub(super) fn known_before(prior: Option<&Prior>, at: usize) -> bool {
    prior.is_some_and(|prior| prior.speaks_of(at))
}

/// Number of edges that failed.
pub(super) fn failure_count(rows: &[Row]) -> f64 {
    rows.iter().filter(|row| row.has_failed()).map(|row| row.weight).sum()
}
