//! The planning problem: slots of time, resources, steps, activities, demands. Times in minutes, calendar in seconds.

/// One shift of the horizon as the plan sees it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Slot {
    /// Start, seconds from the start of the plan.
    pub start: i64,
    /// End, likewise.
    pub end: i64,
}

/// What a resource is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ResourceKind {
    /// A machine: one lot at a time.
    Machine,
    /// People of a skill.
    Crew,
}

/// Something of which each slot has so many minutes.
#[derive(Debug, Clone, PartialEq)]
pub struct Resource {
    /// Name for rows and reports.
    pub name: String,
    /// Machine or crew.
    pub kind: ResourceKind,
    /// Minutes in each slot; infinite where nothing limits.
    pub minutes: Vec<f64>,
    /// Cost of a minute in each slot.
    pub cost: Vec<f64>,
    /// Clock times between which it works, for each slot; breaks are left out.
    pub windows: Vec<Vec<(i64, i64)>>,
}

/// When the output of a step may be used by the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lag {
    /// In the same slot.
    SameSlot,
    /// From the next slot on.
    NextSlot,
}

/// A state of an item on its route; the last step of an item is its stock.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Name for rows and reports.
    pub name: String,
    /// Share of started pieces that are good.
    pub good: f64,
    /// Steps whose output is used, and pieces of it for each piece started.
    pub inputs: Vec<(usize, f64)>,
    /// When its output may be used.
    pub lag: Lag,
    /// Good pieces that lie there at the start.
    pub opening: f64,
    /// Good pieces that must lie there at the end.
    pub closing: f64,
    /// Cost of a piece lying there over one slot.
    pub holding: f64,
}

/// A physical edge place on a machine.
#[derive(Debug, Clone, PartialEq)]
pub struct WearPoint {
    /// The machine.
    pub resource: usize,
    /// Name for reports.
    pub name: String,
    /// Minutes the machine stands for a change.
    pub change: f64,
    /// Of them, minutes of the stop itself: once for all edges changed before the same piece.
    pub stop: f64,
    /// Share of its life from which an edge is taken out while the machine stands anyway: what it could still have made costs no
    /// more than a stop of its own. Above 1 it never is.
    pub early: f64,
}

/// What one piece takes of an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wear {
    /// The edge place.
    pub point: usize,
    /// Share of a life.
    pub share: f64,
}

/// A step done on a machine.
#[derive(Debug, Clone, PartialEq)]
pub struct Activity {
    /// The step it makes.
    pub step: usize,
    /// The machine; `None` for work that no machine limits, such as buying.
    pub machine: Option<usize>,
    /// Minutes of each resource for a piece, shares of tool change included.
    pub uses: Vec<(usize, f64)>,
    /// Minutes on the machine for a piece without tool changes.
    pub run: f64,
    /// Pieces in one load of the machine; a load that is not full takes as long as a full one.
    pub load: u32,
    /// Cost for a piece beyond the minutes.
    pub cost: f64,
    /// Minutes to set the machine up.
    pub setup: f64,
    /// Who sets up.
    pub setter: Option<usize>,
    /// Edges it wears.
    pub wear: Vec<Wear>,
}

/// Pieces wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct Demand {
    /// Name for rows and reports.
    pub name: String,
    /// The step whose output is shipped.
    pub step: usize,
    /// Pieces.
    pub quantity: f64,
    /// When they are due, seconds from the start of the plan.
    pub due: i64,
    /// Weight of an hour that a piece is late.
    pub weight: f64,
    /// Price of a piece, if it is offered to a market that takes any quantity up to this one and only in the slot that ends
    /// by `due`; `None` for an order, which is owed. Markets are for the linear program alone, as published examples need
    /// them: scenarios have orders, and the sequencer ships to orders only.
    pub market: Option<f64>,
}

/// All of it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Problem {
    /// Slots in order of time.
    pub slots: Vec<Slot>,
    /// Machines and crews.
    pub resources: Vec<Resource>,
    /// Steps, each after its inputs.
    pub steps: Vec<Step>,
    /// Edge places.
    pub points: Vec<WearPoint>,
    /// Activities.
    pub activities: Vec<Activity>,
    /// Demands.
    pub demands: Vec<Demand>,
}

impl Activity {
    /// Minutes on the machine for so many pieces, without setup and tool changes.
    #[must_use]
    pub fn running(&self, pieces: u32) -> f64 {
        let load = self.load.max(1);
        f64::from(pieces.div_ceil(load)) * f64::from(load) * self.run
    }
}

impl Problem {
    /// Places of the activities that make a step.
    pub fn makers(&self, step: usize) -> impl Iterator<Item = usize> + '_ {
        self.activities
            .iter()
            .enumerate()
            .filter(move |(_, activity)| activity.step == step)
            .map(|(id, _)| id)
    }

    /// Steps that use the output of a step, and pieces for each piece they start.
    pub fn users(&self, step: usize) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.steps.iter().enumerate().flat_map(move |(id, user)| {
            user.inputs.iter().filter(move |(input, _)| *input == step).map(move |(_, pieces)| (id, *pieces))
        })
    }
}

/// Seconds of the calendar as hours.
pub(super) fn hours(seconds: i64) -> f64 {
    #[expect(clippy::cast_precision_loss, reason = "a horizon has far fewer than 2^52 seconds")]
    let seconds = seconds as f64;
    seconds / 3600.0
}
