//! Quantities that cannot be confused: a number together with what it measures, read from and shown as text with its unit.
//!
//! Everything on the street above formulas: no file, no span, no catalog. A formula converts to plain numbers at the
//! top of its body (`.to_mm()`), computes, and wraps the result (`Duration::s`).

mod define;
mod kinds;
mod measure;
mod range;
mod text;
mod working;

pub use kinds::{
    Angle, Area, CuttingSpeed, Density, Duration, ElasticModulus, FeedPerRev, FeedPerStroke, FeedPerTooth,
    FeedRate, Force, Hardness, Length, Mass, MassMoment, Money, MoneyRate, Power, RemovalRate, Roughness,
    SawingRate, SpecificForce, SpecificRemovalRate, SpecificVolume, SpindleSpeed, StrokeRate, Torque, Volume,
};
pub use measure::{Kind, Measure, Quantity, System, Unit, Units, significant};
pub use range::{Caution, Fraction, Limit, Range};
pub use text::{QuantityError, parse, parse_module, parse_money, parse_range};
pub use working::{Formula, NoWorkings, Record, Step, Term, Workings};
