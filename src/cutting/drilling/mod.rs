//! Making holes: the point, one feed, pecks, deep holes, tapping, force and torque.

mod deep_hole;
mod feed;
mod handbook;
mod lips;
mod material_factor;
mod peck;
mod point;
mod tap;

pub use deep_hole::{DEEP_HOLE, DeepHole, deep_hole};
pub use feed::{
    COUNTERBORING_TIME, DRILLING_REMOVAL_RATE, DRILLING_TIME, REAMING_PATH, counterboring_time,
    drilling_removal_rate, drilling_time, reaming_path,
};
pub use handbook::{
    CHISEL_FACTORS, ChiselFactors, HANDBOOK_THRUST, HANDBOOK_TORQUE, HandbookDrill, chisel_factors,
    handbook_thrust, handbook_torque,
};
pub use lips::{
    DRILLING_CHIP_THICKNESS, DRILLING_FEED_FORCE, DRILLING_TORQUE, drilling_chip_thickness,
    drilling_feed_force, drilling_torque,
};
pub use material_factor::{
    HARDNESS_TORQUE, MATERIAL_POWER, MATERIAL_THRUST, MATERIAL_TORQUE, hardness_torque, material_power,
    material_thrust, material_torque,
};
pub use peck::{
    PECK_COUNT, PECK_FEED_PATH, PECK_RAPID_PATH, PECK_TIME, PeckCycle, Retract, peck_count, peck_feed_path,
    peck_rapid_path, peck_time,
};
pub use point::{
    COUNTERSINK_DEPTH, MARK_DEPTH, POINT_ALLOWANCE, countersink_depth, mark_depth, point_allowance,
};
pub use tap::{FORMING_TAP_DRILL, TAP_DRILL, TAPPING_TIME, forming_tap_drill, tap_drill, tapping_time};
