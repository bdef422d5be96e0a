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
    ACTUAL_LIFE, CutConditions, HOB_EDGE_PIECES, LifeLaw, PIECES_PER_EDGE, REFERENCE_PATH_LIFE,
    ReferenceLife, SPEED_FACTOR, SpeedFactors, WEAR_SHARE, WHEEL_SHARE, pieces_per_edge, reference_life,
    tool_life,
};
pub use material::{Group, Material};
pub use policy::{ChangeBy, ChangePolicy};
pub use scatter::{LifeFamily, Scatter};
pub use sourced::{Sourced, Standing};
pub use tool::{Condition, Geometry, Substrate, Tool, ToolKind, edge_cost};
