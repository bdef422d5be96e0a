//! When to change an edge whose life scatters: by age, in whole pieces, in blocks, at common stops, and by drift of size.

mod age;
mod block;
mod count;
mod drift;
mod edges;
mod group;
mod pieces;
mod renewal;

pub use age::{AGE_COST_RATE, BEST_AGE, age_cost_rate, best_age};
pub use block::{BLOCK_COST_RATE, best_block, block_cost_rate};
pub use drift::{SIZE_DRIFT, WEAR_FOR_DRIFT, size_drift, wear_for_drift};
pub use edges::{EDGE_DEMAND, EDGE_DEVIATION, EdgeDemand, edges_for};
pub use group::{
    COMMON_STOPS, GroupedTool, Grouping, at_common_stops, at_given_stops, failures_between, greatest_divisor,
    stops_made,
};
pub use pieces::{GOOD_PIECES, PieceChange, PieceOutcome, TIME_PER_EDGE};
pub use renewal::{RENEWAL, RENEWAL_BY_PIECE, RENEWAL_STEPS, renewal, renewals_by_piece, renewals_by_share};
