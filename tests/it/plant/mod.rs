//! What a plant has beside machines and shifts: planned stops, overtime, families of setups, boxes, firms outside, edges at hand,
//! lateness that has a price - from the words of a scenario to the planning problem, and through the program.

mod edges;
mod hours;
mod lots;
mod outside;
mod pins;
