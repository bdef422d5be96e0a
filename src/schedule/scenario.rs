//! Everything a plan is made from, complete: all names resolved, all texts turned into quantities.

use crate::cycle::Shop;
use crate::plant::Calendar;
use crate::quantity::{Fraction, Money, Units};

/// A scenario.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// In words.
    pub title: String,
    /// How quantities are shown.
    pub units: Units,
    /// Shifts and people.
    pub calendar: Calendar,
    /// Materials, tools, coolants, machines, parts and products.
    pub shop: Shop,
    /// What is wanted.
    pub orders: Vec<Order>,
    /// What lies there at the start, and must at the end.
    pub openings: Vec<Opening>,
    /// Edges on order.
    pub deliveries: Vec<Delivery>,
    /// What machines stand set up for at the start.
    pub set_ups: Vec<SetUp>,
    /// Cost of holding stock for a year, as a share of its value.
    pub holding: Fraction,
}

/// An order.
#[derive(Debug, Clone, PartialEq)]
pub struct Order {
    /// Its name.
    pub id: String,
    /// The item wanted.
    pub item: usize,
    /// Pieces or sets.
    pub quantity: u32,
    /// When due, seconds from midnight of the plan's first day.
    pub due: i64,
    /// How lateness counts.
    pub late: Late,
}

/// How the lateness of an order counts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Late {
    /// Least before any money is looked at, by weight against other orders.
    Priority(f64),
    /// Weighed against all other money: what a piece costs that is a day late.
    Price(Money),
}

/// Edges on order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Delivery {
    /// The tool.
    pub tool: usize,
    /// Edges that come.
    pub edges: u32,
    /// When, seconds from midnight of the plan's first day.
    pub at: i64,
}

/// What a machine stands set up for at the start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SetUp {
    /// The machine.
    pub machine: usize,
    /// The item.
    pub item: usize,
    /// Place of the operation in its route.
    pub operation: usize,
}

/// Stock of an item at the start.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Opening {
    /// The item.
    pub item: usize,
    /// Place of the operation after which the pieces lie; the last one for finished pieces.
    pub operation: usize,
    /// Good pieces at the start.
    pub pieces: u32,
    /// Good pieces wanted at the end.
    pub at_end: u32,
}
