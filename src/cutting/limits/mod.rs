//! What a machine, a chuck, a bar, a tool and a process allow: the figures a cut is held against.
//!
//! Planning estimates. None of them is a safety release: what a chuck, a wheel or a bar feeder is marked with comes first.

mod capability;
mod deflection;
mod drive;
mod general_tolerance;
mod holding;
mod least_chip;
mod tolerance;
mod whirl;

pub use capability::{Capability, Process, capability, roughness_range};
pub use deflection::{
    BoringBar, DEFLECTION, LONGEST_OVERHANG, SLENDERNESS, Support, deflection, longest_overhang, slenderness,
};
pub use drive::{
    AVAILABLE_POWER, AVAILABLE_TORQUE, BASE_SPEED, COMPONENT_FORCE, FEED_FORCE_SHARE, available_power,
    available_torque, base_speed, component_force,
};
pub use general_tolerance::{ToleranceClass, general_tolerance};
pub use holding::{
    Clamping, GRIP_LEFT, GRIP_NEEDED, HeldCut, INITIAL_GRIP, JAW_FORCE, JawGrip, PERMISSIBLE_SPEED,
    grip_left, grip_needed, initial_grip, jaw_force, permissible_speed,
};
pub use least_chip::{
    CORNER_SHARE, EDGE_SHARE, LEAST_CHIP, LEAST_DEPTH, least_chip, least_depth, usual_edge_radius,
};
pub use tolerance::{
    Grade, STANDARD_TOLERANCE, TOLERANCE_UNIT, WORKED_TOLERANCE, grade_within, standard_tolerance,
    tolerance_unit, worked_tolerance,
};
pub use whirl::{
    BAR_LENGTH, CRITICAL_SPEED, Ends, GUIDED_SHARE, RoundBar, WHIRL_SPEED, critical_speed, longest_bar,
    whirl_speed,
};
