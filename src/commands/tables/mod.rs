//! Tables that several commands share. Each turns results into typed cells; nothing is computed here.

mod advice;
mod board;
mod capacity;
mod changed;
mod comparison;
mod cuts;
mod cycles;
mod edges;
mod edges_by_day;
mod limits;
mod lots;
mod names;
mod notes;
mod orders;
mod outside;
mod roll_test;
mod side_by_side;
mod slowed;
mod speeds;
mod stations;
mod stock;

pub(super) use advice::Advised;
pub(super) use board::{board, changes};
pub(super) use capacity::{capacity_summary, days, outputs, resources, sent_a_day};
pub(super) use changed::{ChangedEdge, ChangedLot, ChangedOrder, ChangedPlan, changed_plan};
pub(super) use comparison::{
    edge_comparison, machine_comparison, operation_comparison, output_comparison, placed, plan_comparison,
};
pub(super) use cuts::{cutting_data, loads, term, wear, workings};
pub(super) use cycles::{cycles, elements};
pub(super) use edges::edges;
pub(super) use edges_by_day::edges_by_day;
pub(super) use limits::limits;
pub(super) use lots::{begun, kept, lot_cost};
pub(super) use names::{alike, operation};
pub(super) use notes::{cautions, sources, used_sources};
pub(super) use orders::orders;
pub(super) use outside::lots_outside;
pub(super) use roll_test::roll_tests;
pub(super) use side_by_side::{Side, side_by_side};
pub(super) use slowed::slowed;
pub(super) use speeds::{speed_gains, speed_programs, speeds};
pub(super) use stations::stations;
pub(super) use stock::stock;
