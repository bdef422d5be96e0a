//! One file for each question a user asks; each head comment lists its way through the street.

mod actual;
mod capacity;
mod catalog;
mod check;
mod code;
mod compare;
mod cycle;
mod failure;
mod fit;
mod plan;
mod proposal;
mod propose;
mod replan;
mod study;
mod wear;
mod tables;

pub use actual::{ActualRequest, actual};
pub use capacity::capacity;
pub use catalog::catalog;
pub use check::check;
pub use code::code;
pub use compare::{Compared, compare};
pub use cycle::{CycleView, cycle};
pub use failure::{Answer, Beside, Failure, Verdict};
pub use fit::{FitRequest, Method, fit};
pub use plan::{Advice, PlanRequest, plan};
pub use propose::propose;
pub use study::{Request, Speeds};
pub use wear::{WearView, wear};
