//! What a station does to the pieces that pass it, in three figures: time from piece to piece, which is what the plan
//! needs; time through, which a piece spends in it; pieces inside.
//!
//! | Station | Written as | Time through |
//! |---|---|---|
//! | press, winding machine, balancing bench, assembly bench | `fixed`, the time of one piece | the same |
//! | chamber washer, batch oven, drying cabinet | `batch`, the time of a load and its pieces | the time of the load |
//! | run-in bench, leak test, curing places | `slots`, the time of one piece and the places, each with its own start | the time of the piece |
//! | gauging away from the machine | `sample`, the time of one piece and how many pieces share it | that time, of the piece gauged |
//! | continuous washer, coat line, tunnel oven | `conveyor`, its length, speed, spacing and pieces abreast | length over speed |
//!
//! A coat line that carries racks has the rack as its spacing and the pieces of a rack as `abreast`. Every load, place and
//! row is taken as full. A piece in a station at the end of a shift comes out in the next one: the plan hands pieces on
//! from shift to shift, so a time through of less than a shift is covered by that, and a longer one is not. Filling and
//! emptying between two kinds of piece that may not mix belongs to the setup.

use crate::cutting::station::{
    CONVEYOR_INTERVAL, CONVEYOR_PASSAGE, CONVEYOR_PIECES, Conveyor, conveyor_interval, conveyor_passage,
    conveyor_pieces,
};
use crate::quantity::{Duration, Formula, Record, Term};

/// A time that serves many pieces, spread over them.
pub const SHARE_OF_MANY: Formula =
    Formula { figure: "share for a piece", text: "t_piece = t / N", source: "common-practice" };

/// What a station does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StationWork {
    /// One piece at a time: `fixed = { time }`.
    Fixed {
        /// Time for a piece.
        time: Duration,
    },
    /// A load of pieces at a time: `batch = { time, pieces }`.
    Batch {
        /// Time for a load.
        time: Duration,
        /// Pieces in a full load.
        pieces: u32,
    },
    /// Several pieces beside each other, each with its own start: `slots = { time, slots }`.
    Slots {
        /// Time for a piece.
        time: Duration,
        /// Places.
        slots: u32,
    },
    /// One piece in so many; the others pass: `sample = { time, every }`.
    Sample {
        /// Time for a piece.
        time: Duration,
        /// One piece in so many.
        every: u32,
    },
    /// Pieces that ride through: `conveyor = { length, speed, spacing, abreast }`.
    Conveyor(Conveyor),
}

/// A station in figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passage {
    /// Time from piece to piece.
    pub interval: Duration,
    /// Time of a piece from going in to coming out.
    pub through: Duration,
    /// Pieces inside, the station being full.
    pub inside: f64,
}

impl StationWork {
    pub(super) fn passage(self, record: &mut impl Record) -> Passage {
        match self {
            Self::Fixed { time } => Passage { interval: time, through: time, inside: 1.0 },
            Self::Batch { time, pieces: many } | Self::Slots { time, slots: many } => {
                Passage { interval: spread(time, many, record), through: time, inside: f64::from(many) }
            }
            Self::Sample { time, every } => {
                Passage { interval: spread(time, every, record), through: time, inside: 1.0 }
            }
            Self::Conveyor(conveyor) => ride(conveyor, record),
        }
    }
}

fn ride(conveyor: Conveyor, record: &mut impl Record) -> Passage {
    let (length, speed) = (Term::from(conveyor.length), Term::from(conveyor.speed));
    let (spacing, abreast) = (Term::from(conveyor.spacing), Term::Plain(f64::from(conveyor.abreast)));
    let interval = conveyor_interval(conveyor);
    record.step(&CONVEYOR_INTERVAL, interval.into(), || vec![("s", spacing), ("v", speed), ("k", abreast)]);
    let through = conveyor_passage(conveyor);
    record.step(&CONVEYOR_PASSAGE, through.into(), || vec![("L", length), ("v", speed)]);
    let inside = conveyor_pieces(conveyor);
    record
        .step(&CONVEYOR_PIECES, Term::Plain(inside), || vec![("L", length), ("s", spacing), ("k", abreast)]);
    Passage { interval, through, inside }
}

/// The share of one piece in a time that serves many.
pub(super) fn spread(time: Duration, pieces: u32, record: &mut impl Record) -> Duration {
    let share = time / f64::from(pieces.max(1));
    record.step(&SHARE_OF_MANY, share.into(), || {
        vec![("t", time.into()), ("N", Term::Plain(f64::from(pieces)))]
    });
    share
}
