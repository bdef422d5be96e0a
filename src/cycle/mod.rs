//! From cut to cycle: what each tool does, how long a piece takes on a machine, how many pieces an edge makes.

mod work;
mod drawing;
mod station;
mod roll;
mod lots;
mod item;
mod setting;

mod process;
mod loads;
mod cut_life;
mod life_range;
mod limits;
mod deep_hole;
mod cut;
mod repair;

mod change;
mod bar;
mod elements;
mod estimate;
mod propose;
mod worth;
mod speeds;

pub use crate::cutting::limits::Support;
pub use bar::{BarShare, bar_share};
pub use change::{ChangePoint, CommonStops, Correction, Drift, Kept, Rule, Stops, ToolUse, common_stops};
pub use cut::{CutEstimate, estimate_cut};
pub use cut_life::Edge;
pub use drawing::{Drawing, DrawnBore, DrawnGroove, DrawnHole, DrawnStep, DrawnThread, End, Feature};
pub use elements::{CHANNEL_TIME, Element, LOAD_BEYOND};
pub use estimate::{CYCLE_TIME, GROSS_RATE, OperationEstimate, estimate_operation, estimate_operation_as};
pub use item::{
    Asked, Bar, Cut, EdgeChanges, Feed, Gauge, Hold, Item, Load, LoadedBy, Making, Offset, Operation, Repair,
    Shop, SpeedFreedom, Stock, While,
};
pub use limits::{LimitCheck, LimitOf, Remedy, Sense};
pub use lots::{Boxes, Family, Lots, Outside};
pub use propose::{Proposal, ProposeError, Proposed, Reason, propose};
pub use repair::{Slowed, estimate_within_limits};
pub use roll::{RollTest, RollVerdict, RolledDeviation, Spread, roll_verdict};
pub use setting::{CutError, Setting};
pub use speeds::{
    MinuteWorth, PricedOperation, SpeedChange, SpeedChoice, SpeedRule, Worths, lower_hull, priced_operation,
    speed_frontier,
};
pub use station::{Passage, SHARE_OF_MANY, StationWork};
pub use work::{
    CentrelessWork, DeepHoles, Entry, FinishPass, GearWork, GrindingWork, HobWork, HoleKind, HoleWork,
    Infeed, LinearWork, MillShape, MilledThread, MillingWork, Pecks, PlungeStage, PocketWork, Side, SlowFeed,
    StraightWork, ThinChip, ThreadWork, TraverseStage, TurningWork, Work,
};
pub use worth::{added_worth, stock_worth};
