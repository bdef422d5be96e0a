//! Who makes what on which machine in which shift: problem, linear program, sequencer, plan, verification.
//!
//! A [`Problem`] knows nothing of cutting: minutes, pieces, people, wear shares. Any method turns it into a [`Plan`];
//! [`verify()`] re-adds every balance from the plan alone.

mod build;
mod capacity;
mod cause;
mod draft;
mod lay;
mod lots;
mod lp;
mod plan;
mod planner;
mod problem;
mod program;
mod rollback;
mod scenario;
mod sequencer;
mod verify;

pub use build::{BuiltProblem, build_problem};
pub use capacity::{Capacity, capacity, output};
pub use cause::{Cause, causes};
pub use lots::{
    CarryOver, Effort, LotLimits, LotPlan, LotStatus, lot_plan, plan_without_setups, setup_bound,
};
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
