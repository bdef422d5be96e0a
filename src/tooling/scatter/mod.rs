//! How the life of equal edges scatters about its mean: families, their parameters, and the spread of life.

mod family;
mod root;
mod spread;

pub use family::{
    GAMMA_SHAPE, LOG_DEVIATION, LifeFamily, Scatter, USUAL_SCATTER, WEIBULL_SHAPE, gamma_shape,
    log_deviation, weibull_shape, weibull_variation,
};
pub use spread::LifeSpread;

pub(in crate::tooling) use root::root;
