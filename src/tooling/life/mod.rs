//! How long an edge lasts: the closed set of life laws, the growth of the wear land, and what a piece takes of a life.

mod colding;
mod curve;
mod factor;
mod law;
mod share;
mod taylor;

pub use colding::{
    COLDING_LIFE, COLDING_SPEED, Colding, ColdingConstants, colding_exponent, colding_life, colding_speed,
};
pub use curve::{LIFE_AT_LAND, SHARE_AT_LAND, WearCurve, WearCurveError, life_at};
pub use factor::{SPEED_FACTOR, SpeedFactors, hardness_factor};
pub use law::{CutConditions, LifeLaw, LifeShape, ReferenceLife, tool_life};
pub use share::{HOB_EDGE_PIECES, PIECES_PER_EDGE, WEAR_SHARE, WHEEL_SHARE, pieces_per_edge};
pub use taylor::{ACTUAL_LIFE, ExtendedTaylor, REFERENCE_PATH_LIFE, reference_life};
