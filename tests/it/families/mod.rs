//! Whole cuts of each family: read from a scenario, worked out, held against figures worked by hand.

mod holes;
mod life;
mod catalogs;
mod gears;
mod grinding;
mod limits;
mod milling;
mod turning;
mod wear_curve;
pub(crate) mod workshop;
