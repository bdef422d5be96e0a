//! The plan as a linear program.

mod balances;
mod plan_model;
mod side_rows;

pub(super) use plan_model::MISSING_AT_END;
pub use plan_model::{Flows, PlanModel, Ready, Reserve};
