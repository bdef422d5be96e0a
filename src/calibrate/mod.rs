//! From logs of tool lives to constants of the life law: censored regression, least squares, intervals, wear curves.
//!
//! Plain numbers: lives in minutes, or pieces, or metres; covariates are natural logarithms of speed, feed, depth.
//! Which unit they are taken in is the caller's choice and shows in the constant alone.

mod error;
mod sample;
mod matrix;
mod normal;
mod likelihood;
mod maximum;
mod check;
mod repetition;
mod censored;
mod fit;
mod profile;
mod line;
mod line_intervals;
mod taylor;
mod influence;
mod survival;
mod power;
mod wear_life;
mod shape_bias;

pub use censored::fit_censored;
pub use error::{Among, FitError};
pub use fit::{Fit, LogLife};
pub use influence::{Influence, Slip, influence, influence_on_line};
pub use line::{LackOfFit, LineFit, fit_least_squares};
pub use power::{PowerFit, fit_power_curve, power_start};
pub use profile::{Profiled, profile_interval};
pub use repetition::refuse_pasted_rows;
pub use sample::{Family, Outcome, Prior, Row};
pub use shape_bias::weibull_shape_bias;
pub use survival::{SurvivalStep, kaplan_meier};
pub use taylor::{Estimate, Remark, TaylorConstants};
pub use wear_life::{PowerLife, WearLife, power_life, wear_life};
