//! What cuts and what is cut: work materials, tools, coolant states, and how long an edge lasts.

mod band;
mod coolant;
mod designation;
mod life;
mod material;
pub mod replacement;
pub mod scatter;
mod policy;
mod sourced;
mod tool;

pub use crate::cutting::limits::BoringBar;
pub use band::ScatterBand;
pub use coolant::{Coolant, CoolantFactor};
pub use designation::{DesignationError, GradePosition, Insert, Position, decode_grade, decode_insert};
pub use life::{
    ACTUAL_LIFE, COLDING_LIFE, COLDING_SPEED, Colding, ColdingConstants, CutConditions, ExtendedTaylor,
    HOB_EDGE_PIECES, LIFE_AT_LAND, LifeLaw, LifeShape, PIECES_PER_EDGE, REFERENCE_PATH_LIFE, ReferenceLife,
    SHARE_AT_LAND, SPEED_FACTOR, SpeedFactors, WEAR_SHARE, WHEEL_SHARE, WearCurve, WearCurveError,
    colding_exponent, colding_life, colding_speed, hardness_factor, life_at, pieces_per_edge, reference_life,
    tool_life,
};
pub use material::{Group, Material};
pub use policy::{ChangeBy, ChangePolicy};
pub use scatter::{LifeFamily, Scatter};
pub use sourced::{Sourced, Standing};
pub use tool::{Condition, Geometry, Substrate, Tool, ToolKind, edge_cost};
