//! The plan of the linear program laid out in whole pieces, machine by machine and minute by minute.
//!
//! Slot by slot, each machine works towards the whole number of pieces that the program has reached by the end of the slot; what did
//! not fit is made up in the next. A lot starts when its machine, the people who set it up and its pieces allow it to run
//! through without waiting. Wear is carried from piece to piece, lot to lot and slot to slot; an edge is changed before the piece that
//! would outlive it.

mod clock;
mod draft;
mod goods;
mod lay;
mod outside;
mod setters;
mod shift;
mod ship;
mod turns;
mod wanted;

pub(super) use shift::{LaidOut, Program, lay_out};
