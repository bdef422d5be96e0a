//! Intervals about the line of least squares, by Student's t.

use super::line::LineFit;
use super::matrix::quadratic;
use super::normal::student_two_sided;

impl LineFit {
    /// Ends of each coefficient at the confidence `level`: b -+ t se. `None` where no degree of freedom is left.
    #[must_use]
    pub fn intervals(&self, level: f64) -> Option<Vec<(f64, f64)>> {
        let errors = self.standard_errors()?;
        let t = student_two_sided(level, self.degrees);
        let ends = |(value, error): (&f64, &f64)| (value - t * error, value + t * error);
        Some(self.coefficients.iter().zip(&errors).map(ends).collect())
    }

    /// Ends of the mean of ln T at the covariates; exponentials are those of the median life.
    #[must_use]
    pub fn mean_interval(&self, x: &[f64], level: f64) -> Option<(f64, f64)> {
        self.about(x, level, 0.0)
    }

    /// Ends within which ln T of one more edge falls at the covariates.
    #[must_use]
    pub fn single_interval(&self, x: &[f64], level: f64) -> Option<(f64, f64)> {
        self.about(x, level, 1.0)
    }

    /// `own` is the variance of one edge, as a multiple of that of the scatter.
    fn about(&self, x: &[f64], level: f64, own: f64) -> Option<(f64, f64)> {
        let direction: Vec<f64> = std::iter::once(1.0).chain(x.iter().copied()).collect();
        let error = self.scatter? * (own + quadratic(&self.inverse, &direction)).sqrt();
        let half = student_two_sided(level, self.degrees) * error;
        Some((self.mean(x) - half, self.mean(x) + half))
    }

    /// Covariance of the coefficients; `None` where no degree of freedom is left.
    #[must_use]
    pub fn covariance(&self) -> Option<Vec<Vec<f64>>> {
        let variance = self.scatter?.powi(2);
        Some(self.inverse.iter().map(|row| row.iter().map(|entry| variance * entry).collect()).collect())
    }
}
