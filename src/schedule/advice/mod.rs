//! Advice on a plan: what an hour is worth, why an order is late, what would make it.

mod base;
mod worth;
mod pegging;
mod chain;
mod waits;
mod shortfall;
mod late;
mod relaxation;
mod candidates;
mod elastic;
mod relief;

pub use chain::{ChainLink, chain};
pub use late::{LateOrder, late_orders};
pub use relaxation::{Opened, Relaxation};
pub use relief::{Suffices, Tried, WayOut, ways_out};
pub use shortfall::{Shortfall, Shortfalls, shortfalls};
pub use waits::Wait;
pub use worth::{Difference, Scarce, Worth, worths};
