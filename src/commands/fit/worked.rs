//! One group fitted: coefficients about a reference cut, constants with intervals, scatter.

use super::group::{Axis, Group};
use super::known::Known;
use super::{FitRequest, Method};
use crate::calibrate::{
    Estimate, Family, Fit, FitError, Influence, LineFit, LogLife, Prior, Profiled, Remark, Row,
    TaylorConstants, fit_censored, fit_least_squares, influence, influence_on_line, profile_interval,
};
use crate::tooling::scatter::weibull_variation;
use statrs::function::gamma::{digamma, ln_gamma};

/// Confidence of all intervals.
pub(super) const LEVEL: f64 = 0.95;
/// Rows up to which each is left out in turn.
const MOST_LEFT_OUT: usize = 400;

/// What was fitted.
pub(super) enum Found {
    /// A censored fit.
    Censored(Fit),
    /// A line of least squares.
    Line(LineFit),
}

/// A group and what came of it.
pub(super) struct Worked<'a> {
    pub(super) group: &'a Group,
    pub(super) known: Known,
    pub(super) axes: Vec<Axis>,
    /// Values about which logarithms are taken: of the prior's reference cut, else one.
    pub(super) about: Vec<f64>,
    pub(super) rows: Vec<Row>,
    pub(super) found: Found,
    /// Ends of the slope on speed.
    pub(super) slope: Option<(f64, f64)>,
    pub(super) influence: Vec<Influence>,
    pub(super) with_prior: bool,
}

impl<'a> Worked<'a> {
    pub(super) fn new(request: &FitRequest, group: &'a Group, known: Known) -> Result<Self, FitError> {
        let axes = group.axes();
        let mut prior = if request.prior { known.prior(group, &axes) } else { None };
        let with_prior = prior.is_some();
        let about: Vec<f64> = axes
            .iter()
            .map(|axis| about(&known, group, *axis).filter(|_| with_prior).unwrap_or(1.0))
            .collect();
        let mut rows = group.rows();
        for row in &mut rows {
            for (x, about) in row.x.iter_mut().zip(&about) {
                *x -= about.ln();
            }
        }
        let (found, slope) = match request.method {
            Method::LeastSquares => {
                let line = fit_least_squares(&rows)?;
                let slope = line.intervals(LEVEL).and_then(|ends| ends.get(1).copied());
                (Found::Line(line), slope)
            }
            Method::Weibull | Method::Lognormal => {
                let family = family(request.method);
                let (fit, joined) = joined(&rows, family, prior.as_ref())?;
                prior = joined;
                let slope = if axes.first() != Some(&Axis::Speed) {
                    None
                } else if with_prior {
                    fit.wald(LEVEL).get(1).copied()
                } else {
                    // Where the likelihood ratio finds no end, the normal approximation stands.
                    profile_interval(&rows, family, &Profiled::Coefficient(1), LEVEL)
                        .ok()
                        .or_else(|| fit.wald(LEVEL).get(1).copied())
                };
                (Found::Censored(fit), slope)
            }
        };
        let influence = match &found {
            _ if rows.len() > MOST_LEFT_OUT => Vec::new(),
            Found::Line(_) => influence_on_line(&rows).unwrap_or_default(),
            Found::Censored(fit) => influence(&rows, fit.family, prior.as_ref()).unwrap_or_default(),
        };
        Ok(Self { group, known, axes, about, rows, found, slope, influence, with_prior })
    }

    pub(super) fn coefficients(&self) -> &[f64] {
        match &self.found {
            Found::Censored(fit) => &fit.coefficients,
            Found::Line(line) => &line.coefficients,
        }
    }

    /// The constant about logarithms of one.
    pub(super) fn intercept(&self) -> f64 {
        let (constant, slopes) = self.coefficients().split_first().map_or((0.0, &[][..]), |(a, b)| (*a, b));
        constant - slopes.iter().zip(&self.about).map(|(slope, about)| slope * about.ln()).sum::<f64>()
    }

    /// Place of an axis among the coefficients.
    pub(super) fn place(&self, axis: Axis) -> Option<usize> {
        self.axes.iter().position(|own| *own == axis).map(|at| at + 1)
    }

    /// Exponent n = -1/b1 with the ends of its slope carried over.
    pub(super) fn n(&self) -> Option<Estimate> {
        let slope = self.coefficients()[self.place(Axis::Speed)?];
        let interval = self
            .slope
            .filter(|_| slope < 0.0)
            .map(|(steep, flat)| (-1.0 / steep, if flat < 0.0 { -1.0 / flat } else { f64::INFINITY }));
        Some(Estimate { value: -1.0 / slope, interval })
    }

    /// Exponent of feed or depth in V T^n f^a d^b = C.
    pub(super) fn exponent(&self, axis: Axis) -> Option<Estimate> {
        let place = self.place(axis)?;
        self.place(Axis::Speed)?;
        self.taylor()?.exponents.get(place - 2).copied()
    }

    /// Constants about logarithms of `about`; `None` without a speed.
    fn taylor(&self) -> Option<TaylorConstants> {
        self.place(Axis::Speed)?;
        match &self.found {
            Found::Censored(fit) => fit.taylor(0.5, LEVEL),
            Found::Line(line) => line.taylor(LEVEL),
        }
    }

    /// What speaks against the constants.
    pub(super) fn remarks(&self) -> Vec<Remark> {
        self.taylor().map_or_else(Vec::new, |taylor| taylor.remarks)
    }

    /// Ends between which a single edge lives at the reference cut, minutes.
    pub(super) fn one_edge(&self) -> Option<(f64, f64)> {
        let x = self.reference();
        let rest = 0.5 * (1.0 - LEVEL);
        let ends = match &self.found {
            Found::Censored(fit) => (fit.quantile(rest, &x).value, fit.quantile(1.0 - rest, &x).value),
            Found::Line(line) => line.single_interval(&x, LEVEL)?,
        };
        Some((ends.0.exp(), ends.1.exp()))
    }

    /// Reference cut in logarithms about `about`: the middle of the log, or that of the catalog where it is joined.
    pub(super) fn reference(&self) -> Vec<f64> {
        let at = |(axis, about): (&Axis, &f64)| {
            if self.with_prior {
                0.0
            } else {
                self.group.middle(*axis).map_or(0.0, |middle| (middle / about).ln())
            }
        };
        self.axes.iter().zip(&self.about).map(at).collect()
    }

    /// Value of an axis at the reference cut, m/min or mm.
    pub(super) fn reference_value(&self, axis: Axis) -> Option<f64> {
        match self.place(axis) {
            Some(place) => Some(self.about[place - 1] * self.reference()[place - 1].exp()),
            None => self.group.middle(axis),
        }
    }

    /// What of the reference cut the log leaves open: `feed`, `depth` or both.
    pub(super) fn missing(&self) -> Option<String> {
        let open = [(Axis::Feed, "feed"), (Axis::Depth, "depth")];
        let names: Vec<&str> = open
            .into_iter()
            .filter(|(axis, _)| self.reference_value(*axis).is_none())
            .map(|(_, name)| name)
            .collect();
        (!names.is_empty()).then(|| names.join(" and no "))
    }

    /// Life at the reference cut in minutes: the mean of the distribution; of a line of least squares its median.
    pub(super) fn life(&self) -> Estimate {
        let x = self.reference();
        match &self.found {
            Found::Censored(fit) => {
                let value = fit.location(&x) + log_mean(fit.family, fit.sigma);
                // Delta method over coefficients and ln sigma.
                let direction: Vec<f64> = std::iter::once(1.0)
                    .chain(x.iter().copied())
                    .chain([log_mean_slope(fit.family, fit.sigma)])
                    .collect();
                let mut variance = 0.0;
                for (row, one) in fit.covariance.iter().zip(&direction) {
                    variance +=
                        row.iter().zip(&direction).map(|(cell, other)| one * cell * other).sum::<f64>();
                }
                let (low, high) = LogLife { value, standard_error: variance.sqrt() }.interval(LEVEL);
                Estimate { value: value.exp(), interval: Some((low, high)) }
            }
            Found::Line(line) => Estimate {
                value: line.mean(&x).exp(),
                interval: line.mean_interval(&x, LEVEL).map(|(low, high)| (low.exp(), high.exp())),
            },
        }
    }

    /// Mean life at the reference cut in minutes; of a line, from its median by the scatter of the residuals.
    pub(super) fn mean_life(&self) -> Estimate {
        let life = self.life();
        let scatter = match &self.found {
            Found::Censored(_) => None,
            Found::Line(line) => line.scatter,
        };
        let up = scatter.map_or(1.0, |s| (0.5 * s * s).exp());
        Estimate { value: life.value * up, interval: life.interval.map(|(low, high)| (low * up, high * up)) }
    }

    /// Coefficient of variation of the life, if a scatter was found.
    pub(super) fn variation(&self) -> Option<Estimate> {
        match &self.found {
            Found::Censored(fit) => {
                let of = |sigma: f64| match fit.family {
                    Family::Weibull => weibull_variation(1.0 / sigma),
                    Family::Lognormal => (sigma * sigma).exp_m1().sqrt(),
                };
                let ends = fit.wald(LEVEL).last().copied();
                Some(Estimate { value: of(fit.sigma), interval: ends.map(|(low, high)| (of(low), of(high))) })
            }
            Found::Line(line) => {
                let of = |s: f64| (s * s).exp_m1().sqrt();
                line.scatter.map(|s| Estimate { value: of(s), interval: None })
            }
        }
    }

    /// ln T in the middle of the distribution for a row.
    pub(super) fn median(&self, x: &[f64]) -> f64 {
        match &self.found {
            Found::Censored(fit) => fit.quantile(0.5, x).value,
            Found::Line(line) => line.mean(x),
        }
    }

    /// ln T that a share of the edges does not reach.
    pub(super) fn quantile(&self, p: f64, x: &[f64]) -> Option<f64> {
        match &self.found {
            Found::Censored(fit) => Some(fit.quantile(p, x).value),
            Found::Line(_) => None,
        }
    }
}

/// Value about which the logarithms of an axis are taken where the catalog is joined: its own, else the middle of the log.
fn about(known: &Known, group: &Group, axis: Axis) -> Option<f64> {
    known.reference(axis).or_else(|| group.middle(axis))
}

pub(super) fn family(method: Method) -> Family {
    match method {
        Method::Lognormal => Family::Lognormal,
        Method::Weibull | Method::LeastSquares => Family::Weibull,
    }
}

/// Fits with a prior on the mean life: its constant is that of the family, which lies off the logarithm of the mean by as much as
/// the scatter says, so that the two are found in turn. Returns the prior as it was used.
pub(super) fn joined(
    rows: &[Row],
    family: Family,
    prior: Option<&Prior>,
) -> Result<(Fit, Option<Prior>), FitError> {
    let Some(stated) = prior else { return Ok((fit_censored(rows, family, None)?, None)) };
    let mut used = stated.clone();
    let mut fit = fit_censored(rows, family, Some(&used))?;
    for _ in 0..MOST_TURNS {
        let constant = stated.mean[0] - log_mean(family, fit.sigma);
        let moved = (constant - used.mean[0]).abs();
        used.mean[0] = constant;
        fit = fit_censored(rows, family, Some(&used))?;
        if moved < 1e-12 {
            break;
        }
    }
    Ok((fit, Some(used)))
}

/// Turns in which mean and scatter settle.
const MOST_TURNS: usize = 50;

/// Derivative of [`log_mean`] by ln sigma.
fn log_mean_slope(family: Family, sigma: f64) -> f64 {
    match family {
        Family::Weibull => sigma * digamma(1.0 + sigma),
        Family::Lognormal => sigma * sigma,
    }
}

/// ln of the mean of exp(sigma W).
fn log_mean(family: Family, sigma: f64) -> f64 {
    match family {
        Family::Weibull => ln_gamma(1.0 + sigma),
        Family::Lognormal => 0.5 * sigma * sigma,
    }
}
