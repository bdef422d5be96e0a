//! Who makes what on which machine in which shift: problem, linear program, sequencer, plan, verification.
//!
//! A [`Problem`] knows nothing of cutting: minutes, pieces, people, wear shares. Any method turns it into a [`Plan`];
//! [`verify()`] re-adds every balance from the plan alone.

mod build;
mod capacity;
mod cause;
mod draft;
mod lay;
mod lp;
mod model;
mod plan;
mod planner;
mod problem;
mod rollback;
mod scenario;
mod sequencer;
mod solver;
mod verify;

pub use build::{BuiltProblem, build_problem};
pub use capacity::{Capacity, capacity, output};
pub use cause::{Cause, causes};
pub use lp::{Flows, PlanModel, Ready, Reserve};
pub use model::{Column, Model, ModelFault, Row};
pub use plan::{Change, Lot, Plan, Shipment, Standing};
pub use planner::{PlanError, Planned, Progress, Search, plan};
pub use problem::{
    Activity, Demand, EdgeStock, Lag, Problem, Resource, ResourceKind, Running, Slot, Step, Wear, WearPoint,
};
pub use scenario::{Delivery, Late, Opening, Order, Scenario, SetUp};
pub use solver::{Solution, SolveError, solve};
pub use verify::{Violation, verify};
