//! When the edges of an operation come out: what asks for it, what rules, what it costs to be earlier or later.

mod drawing;
mod point;
mod together;
mod usage;

pub(super) use drawing::kept;
pub use drawing::{Drift, Kept};
pub use point::{ChangePoint, Correction, Rule};
pub(super) use together::shared_stops;
pub use together::{CommonStops, Stops, common_stops};
pub use usage::ToolUse;
pub(super) use usage::{Bench, tool_uses, use_at_share};
