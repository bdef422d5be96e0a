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
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ResourceKind {
    /// A machine: one lot at a time.
    #[default]
    Machine,
    /// People of a skill.
    Crew,
    /// A firm outside: its minutes are pieces that it takes in a slot.
    Outside,
}

/// Something of which each slot has so many minutes.
#[derive(Debug, Clone, PartialEq, Default)]
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
    /// Activity that a machine stands set up for at the start.
    pub set_up: Option<usize>,
}

/// When the output of a step may be used by the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Lag {
    /// In the same slot, piece by piece.
    SameSlot,
    /// From the next slot on.
    #[default]
    NextSlot,
    /// In boxes: so many pieces of a lot move on together, so many seconds after the last of them is done. What is left of a
    /// lot moves on when the lot ends.
    Boxes {
        /// Pieces in a box.
        pieces: u32,
        /// Seconds on the way.
        seconds: i64,
    },
}

/// A state of an item on its route; the last step of an item is its stock.
#[derive(Debug, Clone, PartialEq, Default)]
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
#[derive(Debug, Clone, PartialEq, Default)]
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
    /// Share of its life that is worn at the start.
    pub worn: f64,
    /// Edges that a change takes.
    pub edges: u32,
    /// Stock that they come from; `None`: as many as are needed.
    pub stock: Option<usize>,
}

/// Edges of one tool, as they come in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EdgeStock {
    /// Name for rows and reports.
    pub name: String,
    /// Edges that can be used from each slot on: what lies there in the first, then what is delivered.
    pub arrivals: Vec<u32>,
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
#[derive(Debug, Clone, PartialEq, Default)]
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
    /// Family of work that is set up alike.
    pub family: Option<usize>,
    /// Minutes to set the machine up after work of the same family.
    pub setup_within: f64,
    /// Pieces that a setup must be followed by, unless fewer are wanted in all.
    pub least_lot: u32,
    /// Seconds until pieces come back from outside.
    pub away: i64,
    /// Edges it wears.
    pub wear: Vec<Wear>,
}

/// Pieces wanted.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Demand {
    /// Name for rows and reports.
    pub name: String,
    /// The step whose output is shipped.
    pub step: usize,
    /// Pieces.
    pub quantity: f64,
    /// When they are due, seconds from the start of the plan.
    pub due: i64,
    /// Weight of an hour that a piece is late: least before any money is looked at.
    pub weight: f64,
    /// Money that an hour costs by which a piece is late: weighed against all other money.
    pub late_price: f64,
    /// Price of a piece, if it is offered to a market that takes any quantity up to this one and only in the slot that ends
    /// by `due`; `None` for an order, which is owed. Markets are for the linear program alone, as published examples need
    /// them: scenarios have orders, and the sequencer ships to orders only.
    pub market: Option<f64>,
}

/// Work that goes on at the start, before anything else on its machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Running {
    /// The activity, for which its machine stands set up.
    pub activity: usize,
    /// Pieces still to be started.
    pub pieces: u32,
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
    /// Edges at hand and on order.
    pub edge_stocks: Vec<EdgeStock>,
    /// Work that goes on.
    pub running: Vec<Running>,
}

impl Activity {
    /// Minutes to set the machine up after an activity, or from nothing.
    #[must_use]
    pub fn setup_after(&self, before: Option<&Self>) -> f64 {
        match before {
            Some(before) if self.family.is_some() && before.family == self.family => self.setup_within,
            _ => self.setup,
        }
    }

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
