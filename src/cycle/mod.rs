//! From cut to cycle: what each tool does, how long a piece takes on a machine, how many pieces an edge makes.

mod item;
mod setting;

mod process;
mod forces;
mod cut_life;
mod cut;

mod bar;
mod elements;
mod estimate;

pub use bar::{BarShare, bar_share};
pub use cut::{CutEstimate, LimitCheck, estimate_cut};
pub use cut_life::Edge;
pub use elements::{CHANNEL_TIME, Element, LOAD_BEYOND, SHARE_OF_MANY};
pub use estimate::{CYCLE_TIME, GROSS_RATE, OperationEstimate, ToolUse, estimate_operation};
pub use item::{
    Bar, Cut, Feed, Gauge, Item, Load, LoadedBy, Making, MillShape, Operation, Shop, StationWork, Stock,
    While, Work,
};
pub use setting::{CutError, Setting};
