//! Who makes what on which machine in which shift: problem, linear program, sequencer, plan, verification.
//!
//! A [`Problem`] knows nothing of cutting: minutes, pieces, people, wear shares. Any method turns it into a [`Plan`];
//! [`verify()`] re-adds every balance from the plan alone.

mod advice;
mod build;
mod capacity;
mod floor;
mod kept;
mod lots;
mod lp;
mod now;
mod ordering;
mod plan;
mod planner;
mod problem;
mod program;
mod rollback;
mod scenario;
mod speeds;
mod verify;

pub use advice::{
    ChainLink, Difference, LateOrder, Opened, Relaxation, Scarce, Shortfall, Shortfalls, Suffices, Tried,
    Wait, WayOut, Worth, chain, late_orders, shortfalls, ways_out, worths,
};
pub use build::{BuiltProblem, build_problem};
pub use capacity::{Capacity, capacity, output};
pub use kept::{PastChange, PastLot, PastPlan, PastShipment, kept_until};
pub use lots::{
    CarryOver, Effort as LotEffort, LotLimits, LotPlan, LotStatus, lot_plan, lots_again, plan_without_setups,
    setup_bound,
};
pub use lp::{Flows, PlanModel, Ready, Reserve};
pub use now::{FloorState, Outage, calendar_from, first_slot, problem_from};
pub use ordering::{Aim, Effort, Link, OrderFault, Ordered, Setups, Task, TaskSet, Tie, Way, order};
pub use plan::{Change, Lot, Plan, Shipment, Standing};
pub use planner::{PlanError, Planned, Progress, Search, plan};
pub use problem::{
    Activity, Demand, EdgeStock, Lag, Problem, Resource, ResourceKind, Running, Slot, Step, Wear, WearPoint,
};
pub use program::{
    Column, Limits, Model, ModelFault, OneSided, PriceRange, Priced, Resolver, Row, Solution, SolveError,
    Whole, WholeStatus, one_sided, range_of_price, solve, solve_priced, solve_whole, write_mps,
};
pub use scenario::{Delivery, Late, Opening, Order, Scenario, SetUp};
pub use speeds::{FreeError, FreedSpeeds, SpeedSearch, free_speeds};
pub use verify::{Violation, audit, verify};
