//! Coefficients of the log-log line written as constants of V T^n f^a d^b = C.

use super::fit::Fit;
use super::line::LineFit;
use super::matrix::quadratic;
use super::normal::{student_two_sided, two_sided};

/// A value with the ends of its interval; `None` where there is no degree of freedom to tell them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The value.
    pub value: f64,
    /// Lower and upper end.
    pub interval: Option<(f64, f64)>,
}

/// What the constants should be read with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remark {
    /// Life does not fall with speed: n is zero or below, or infinite.
    NotFalling,
    /// n above 1: life would fall by less than in proportion to speed.
    ExponentAboveOne,
    /// The line explains less than four fifths of the variation of ln T.
    PoorLine {
        /// Share explained.
        r_squared: f64,
    },
}

/// Constants of V T^n f^a d^b = C, from ln T = b0 + b1 ln V + b2 ln f + b3 ln d.
#[derive(Debug, Clone, PartialEq)]
pub struct TaylorConstants {
    /// n = -1/b1.
    pub n: Estimate,
    /// Exponents of the covariates after speed, in their order: a = b2/b1, b = b3/b1.
    pub exponents: Vec<Estimate>,
    /// C = exp(-b0/b1): the speed that gives a life of one at feed and depth of one.
    pub c: Estimate,
    /// What they should be read with.
    pub remarks: Vec<Remark>,
}

impl Fit {
    /// Constants for the life that a share `p` of the edges does not reach, with intervals at the confidence `level`.
    ///
    /// n = -1/b1, its ends those of b1 carried over. a = b2/b1 and ln C = -(b0 + w sigma)/b1 by the delta method,
    /// w the deviate of W with a share p below it. `None` without a covariate: the first must be ln V.
    ///
    /// # Symbols
    /// V cutting speed. T life. f feed. d depth. n, a, b exponents. C constant.
    /// # Range
    /// As for the fit. p = 0.5 gives median lives; C of another share is another C.
    /// # Source
    /// \[groover\] for the law, \[meeker-escobar\] for the delta method.
    #[must_use]
    pub fn taylor(&self, p: f64, level: f64) -> Option<TaylorConstants> {
        let last = self.coefficients.len();
        let deviate = self.family.deviate(p);
        let mut coefficients = self.coefficients.clone();
        *coefficients.first_mut()? += deviate * self.sigma;
        let shifted = |row: usize, column: usize| {
            let slope = |at: usize| if at == 0 { deviate * self.sigma } else { 0.0 };
            self.covariance[row][column]
                + slope(row) * self.covariance[last][column]
                + slope(column) * self.covariance[row][last]
                + slope(row) * slope(column) * self.covariance[last][last]
        };
        let covariance: Vec<Vec<f64>> =
            (0..last).map(|row| (0..last).map(|column| shifted(row, column)).collect()).collect();
        constants(&coefficients, Some(&(covariance, two_sided(level))))
    }
}

impl LineFit {
    /// Constants of median lives, with intervals at the confidence `level`; see [`Fit::taylor`].
    #[must_use]
    pub fn taylor(&self, level: f64) -> Option<TaylorConstants> {
        let spread = self.covariance().map(|covariance| (covariance, student_two_sided(level, self.degrees)));
        let mut constants = constants(&self.coefficients, spread.as_ref())?;
        if self.r_squared < 0.8 {
            constants.remarks.push(Remark::PoorLine { r_squared: self.r_squared });
        }
        Some(constants)
    }
}

fn constants(b: &[f64], spread: Option<&(Vec<Vec<f64>>, f64)>) -> Option<TaylorConstants> {
    let slope = *b.get(1)?;
    let half = |direction: &[f64]| spread.map(|(covariance, t)| t * quadratic(covariance, direction).sqrt());
    let along = |first: usize, first_part: f64, slope_part: f64| {
        let mut direction = vec![0.0; b.len()];
        direction[first] = first_part;
        direction[1] += slope_part;
        half(&direction)
    };
    let n = -slope.recip();
    let mut remarks = Vec::new();
    if slope >= 0.0 {
        remarks.push(Remark::NotFalling);
    } else if n > 1.0 {
        remarks.push(Remark::ExponentAboveOne);
    }
    let exponents = (2..b.len())
        .map(|at| {
            let value = b[at] / slope;
            let half = along(at, slope.recip(), -value / slope);
            Estimate { value, interval: half.map(|half| (value - half, value + half)) }
        })
        .collect();
    let log_c = -b[0] / slope;
    let half_c = along(0, -slope.recip(), -log_c / slope);
    Some(TaylorConstants {
        n: Estimate { value: n, interval: along(1, 0.0, 1.0).and_then(|half| reciprocal_ends(slope, half)) },
        exponents,
        c: Estimate {
            value: log_c.exp(),
            interval: half_c.map(|half| ((log_c - half).exp(), (log_c + half).exp())),
        },
        remarks,
    })
}

/// Ends of n from those of the slope; the upper one is infinite if the slope may be flat. `None` for a rising line.
fn reciprocal_ends(slope: f64, half: f64) -> Option<(f64, f64)> {
    let (steep, flat) = (slope - half, slope + half);
    (slope < 0.0).then(|| (-steep.recip(), if flat < 0.0 { -flat.recip() } else { f64::INFINITY }))
}
