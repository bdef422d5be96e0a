//! What a search for lots may take, and what it gives back.

use super::setup_model::CarryOver;
use std::sync::atomic::AtomicBool;

/// How hard to look.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Effort {
    /// A few linear programs and no bound, for a planner that asks often.
    Plain,
    /// A few linear programs, and a bound with setups.
    #[default]
    Quick,
    /// Then parts of the plan solved anew in whole numbers.
    Thorough,
}

/// When a search ends.
///
/// With `seconds` the answer depends on the speed of the computer; without, it is the same on every run.
#[derive(Debug, Clone, Copy)]
pub struct LotLimits<'a> {
    /// How hard to look.
    pub effort: Effort,
    /// Whether a setup outlives its slot.
    pub carry_over: CarryOver,
    /// Distance from the bound, as a share of the cost, at which the search ends.
    pub gap: f64,
    /// Most linear programs with setups spread over lots.
    pub rounds: usize,
    /// Most parts of the plan that are solved anew.
    pub parts: usize,
    /// Seconds in all.
    pub seconds: Option<f64>,
    /// Money for a unit of weighted lateness; none: more than setups are ever worth.
    pub lateness_price: Option<f64>,
    /// Set from elsewhere, it ends the search: the best plan so far is given back.
    pub stop: Option<&'a AtomicBool>,
}

impl Default for LotLimits<'_> {
    fn default() -> Self {
        Self {
            effort: Effort::Quick,
            carry_over: CarryOver::Linked,
            gap: 1e-4,
            rounds: 4,
            parts: 40,
            seconds: None,
            lateness_price: None,
            stop: None,
        }
    }
}

/// How a search ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LotStatus {
    /// The plan is within the gap asked for of the bound.
    GapReached,
    /// Rounds, parts or seconds were used up.
    LimitReached,
    /// The user ended it.
    Stopped,
}

/// Lots with their setups.
#[derive(Debug, Clone, PartialEq)]
pub struct LotPlan {
    /// Pieces started, by activity and slot.
    pub started: Vec<Vec<f64>>,
    /// Pieces shipped, by demand and slot.
    pub shipped: Vec<Vec<f64>>,
    /// Setups made, by activity and slot.
    pub made: Vec<Vec<bool>>,
    /// Whether the machine comes into the slot set up for the activity.
    pub carried: Vec<Vec<bool>>,
    /// Whether it stays so to the end of the slot.
    pub kept: Vec<Vec<bool>>,
    /// Money.
    pub money: f64,
    /// Weighted lateness.
    pub lateness: f64,
    /// Money and priced lateness: what the search makes least.
    pub cost: f64,
    /// No plan of the same model costs less, priced lateness included.
    pub bound: f64,
    /// Distance of cost and bound, as a share of the cost.
    pub gap: f64,
    /// Linear programs with setups spread over lots.
    pub rounds: usize,
    /// Parts of the plan solved anew.
    pub parts: usize,
    /// How the search ended.
    pub status: LotStatus,
}
