//! From cut to cycle: what each tool does, how long a piece takes on a machine, how many pieces an edge makes.

mod bar;
mod cut;
mod cut_life;
mod estimate;
mod forces;
mod item;
mod process;

pub use bar::{BarShare, bar_share};
pub use cut::{CutError, CutEstimate, Edge, LimitCheck, Setting, estimate_cut};
pub use estimate::{CYCLE_TIME, Element, OperationEstimate, ToolUse, estimate_operation};
pub use item::{
    Bar, Cut, Feed, Gauge, Item, Load, LoadedBy, Making, MillShape, Operation, Shop, StationWork, Stock,
    While, Work,
};
