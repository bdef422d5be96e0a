//! Who makes what on which machine in which shift: problem, linear program, sequencer, plan, verification.
//!
//! A [`Problem`] knows nothing of cutting: minutes, pieces, people, wear shares. Any method turns it into a [`Plan`];
//! [`verify()`] re-adds every balance from the plan alone.

mod advice;
mod build;
mod capacity;
mod draft;
mod lay;
mod lp;
mod plan;
mod planner;
mod problem;
mod program;
mod rollback;
mod scenario;
mod sequencer;
mod verify;

pub use advice::{
    Difference, Late, Link, Opened, Relaxation, Scarce, Shortfall, Shortfalls, Suffices, Tried, Wait, WayOut,
    Worth, chain, late_orders, shortfalls, ways_out, worths,
};
pub use build::{BuiltProblem, build_problem};
pub use capacity::{Capacity, capacity, output};
pub use lp::{Flows, PlanModel, Ready, Reserve};
pub use plan::{Change, Lot, Plan, Shipment, Standing};
pub use planner::{PlanError, Planned, Progress, Search, plan};
pub use problem::{
    Activity, Demand, EdgeStock, Lag, Problem, Resource, ResourceKind, Running, Slot, Step, Wear, WearPoint,
};
pub use program::{
    Column, Limits, Model, ModelFault, OneSided, PriceRange, Priced, Resolver, Row, Solution, SolveError,
    Whole, WholeStatus, one_sided, range_of_price, solve, solve_priced, solve_whole, write_mps,
};
pub use scenario::{Opening, Order, Scenario};
pub use verify::{Violation, verify};
