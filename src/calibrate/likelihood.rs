//! Log-likelihood of lives with right censoring, with its first and second derivatives.

use super::normal::{normal_quantile, normal_tail};
use super::sample::{Family, Prior, Row};

/// One row with its logarithm and covariates centred, the constant first.
pub(super) struct Point {
    pub(super) log_life: f64,
    pub(super) design: Vec<f64>,
    pub(super) failed: bool,
    pub(super) weight: f64,
}

/// Where the axes stand: what is taken off log lives and covariates, and which quantile the constant stands for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Axes {
    pub(super) log_life: f64,
    pub(super) x: Vec<f64>,
    /// The constant is the quantile with this standard deviate.
    pub(super) deviate: f64,
}

impl Axes {
    /// Through the weighted mean of all rows; the constant is the location.
    pub(super) fn central(rows: &[Row]) -> Self {
        let whole: f64 = rows.iter().map(|row| row.weight).sum();
        let mean =
            |of: &dyn Fn(&Row) -> f64| rows.iter().map(|row| row.weight * of(row)).sum::<f64>() / whole;
        let covariates = rows.first().map_or(0, |row| row.x.len());
        Self {
            log_life: mean(&|row| row.life.ln()),
            x: (0..covariates).map(|at| mean(&|row| row.x[at])).collect(),
            deviate: 0.0,
        }
    }
}

/// What was known before of one direction in the coefficients.
struct Pull {
    direction: Vec<f64>,
    mean: f64,
    sd: f64,
}

/// A likelihood to be maximised over (coefficients, ln sigma).
pub(super) struct Likelihood {
    pub(super) points: Vec<Point>,
    pub(super) family: Family,
    deviate: f64,
    pulls: Vec<Pull>,
}

/// Value, gradient and matrix of second derivatives.
pub(super) struct Slope {
    pub(super) value: f64,
    pub(super) gradient: Vec<f64>,
    pub(super) hessian: Vec<Vec<f64>>,
}

impl Likelihood {
    pub(super) fn new(rows: &[Row], family: Family, axes: &Axes) -> Self {
        let points = rows
            .iter()
            .map(|row| Point {
                log_life: row.life.ln() - axes.log_life,
                design: std::iter::once(1.0).chain(row.x.iter().zip(&axes.x).map(|(x, c)| x - c)).collect(),
                failed: row.has_failed(),
                weight: row.weight,
            })
            .collect();
        Self { points, family, deviate: axes.deviate, pulls: Vec::new() }
    }

    /// Adds what was known before. The constant of the prior stands at covariates of zero, that of the axes at their centre.
    pub(super) fn with_prior(mut self, prior: &Prior, axes: &Axes) -> Self {
        for (at, (mean, sd)) in
            prior.mean.iter().zip(&prior.sd).enumerate().filter(|(_, (_, sd))| sd.is_finite())
        {
            let direction = (0..prior.mean.len())
                .map(|place| match (at, place) {
                    (0, 1..) => -axes.x[place - 1],
                    _ if at == place => 1.0,
                    _ => 0.0,
                })
                .collect();
            let mean = if at == 0 { mean - axes.log_life } else { *mean };
            self.pulls.push(Pull { direction, mean, sd: *sd });
        }
        self
    }

    /// Number of unknowns: coefficients and ln sigma.
    pub(super) fn unknowns(&self) -> usize {
        self.points.first().map_or(0, |point| point.design.len()) + 1
    }

    /// The log-likelihood in the centred logarithms, without what was known before.
    pub(super) fn of_data(&self, at: &[f64]) -> f64 {
        let (coefficients, log_sigma) = split(at);
        let sigma = log_sigma.exp();
        let term = |point: &Point| {
            let z = (point.log_life - super::matrix::dot(&point.design, coefficients)) / sigma + self.deviate;
            let own = if point.failed {
                self.family.log_density(z)[0] - log_sigma
            } else {
                self.family.log_tail(z)[0]
            };
            point.weight * own
        };
        self.points.iter().map(term).sum()
    }

    /// The penalised log-likelihood.
    pub(super) fn value(&self, at: &[f64]) -> f64 {
        let pulled: f64 = self.pulls.iter().map(|pull| 0.5 * (pull.off(split(at).0) / pull.sd).powi(2)).sum();
        self.of_data(at) - pulled
    }

    pub(super) fn slope(&self, at: &[f64]) -> Slope {
        let (coefficients, log_sigma) = split(at);
        let (sigma, last) = (log_sigma.exp(), coefficients.len());
        let mut gradient = vec![0.0; at.len()];
        let mut hessian = vec![vec![0.0; at.len()]; at.len()];
        for point in &self.points {
            let u = (point.log_life - super::matrix::dot(&point.design, coefficients)) / sigma;
            let [_, first, second] = if point.failed {
                self.family.log_density(u + self.deviate)
            } else {
                self.family.log_tail(u + self.deviate)
            };
            for (row, x) in point.design.iter().enumerate() {
                gradient[row] -= point.weight * first * x / sigma;
                hessian[row][last] += point.weight * (second * u + first) * x / sigma;
                for (column, other) in point.design.iter().enumerate() {
                    hessian[row][column] += point.weight * second * x * other / (sigma * sigma);
                }
            }
            gradient[last] -= point.weight * (first * u + if point.failed { 1.0 } else { 0.0 });
            hessian[last][last] += point.weight * (second * u + first) * u;
        }
        for pull in &self.pulls {
            let (off, variance) = (pull.off(coefficients), pull.sd * pull.sd);
            for (row, x) in pull.direction.iter().enumerate() {
                gradient[row] -= off * x / variance;
                for (column, other) in pull.direction.iter().enumerate() {
                    hessian[row][column] -= x * other / variance;
                }
            }
        }
        let border: Vec<f64> = hessian[..last].iter().map(|row| row[last]).collect();
        hessian[last][..last].copy_from_slice(&border);
        Slope { value: self.value(at), gradient, hessian }
    }
}

impl Pull {
    fn off(&self, coefficients: &[f64]) -> f64 {
        super::matrix::dot(&self.direction, coefficients) - self.mean
    }
}

/// Coefficients and ln sigma.
pub(super) fn split(at: &[f64]) -> (&[f64], f64) {
    match at.split_last() {
        Some((last, rest)) => (rest, *last),
        None => (at, 0.0),
    }
}

impl Family {
    /// Log density of the standard deviate, and its first two derivatives.
    pub(super) fn log_density(self, z: f64) -> [f64; 3] {
        match self {
            Self::Weibull => [z - z.exp(), 1.0 - z.exp(), -z.exp()],
            Self::Lognormal => [-0.5 * z * z - 0.5 * (2.0 * std::f64::consts::PI).ln(), -z, -1.0],
        }
    }

    /// Logarithm of the share above the standard deviate, and its first two derivatives.
    pub(super) fn log_tail(self, z: f64) -> [f64; 3] {
        match self {
            Self::Weibull => [-z.exp(), -z.exp(), -z.exp()],
            Self::Lognormal => {
                let (log_tail, hazard) = normal_tail(z);
                [log_tail, -hazard, -hazard * (hazard - z)]
            }
        }
    }

    /// Standard deviate with a share `p` below it.
    pub(super) fn deviate(self, p: f64) -> f64 {
        match self {
            Self::Weibull => (-(-p).ln_1p()).ln(),
            Self::Lognormal => normal_quantile(p),
        }
    }

    /// Mean of the standard deviate.
    pub(super) fn mean_deviate(self) -> f64 {
        match self {
            Self::Weibull => -0.577_215_664_901_532_9,
            Self::Lognormal => 0.0,
        }
    }
}
