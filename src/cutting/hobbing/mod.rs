//! Hobbing of cylindrical gears: geometry, approach, time, chips, marks on the flank, use of the hob.

mod approach;
mod chip;
mod cycle;
mod gear;
mod marks;
mod time;
mod wear;

pub use approach::{
    APPROACH, CRUDE_APPROACH, OVERRUN, SHORT_APPROACH, SPUR_APPROACH, approach, crude_approach, overrun,
    short_approach, spur_approach,
};
pub use chip::{FEED_FOR_TIP_CHIP, TIP_CHIP_THICKNESS, TipChip, feed_for_tip_chip, tip_chip_thickness};
pub use cycle::{
    HOB_SPEED_AT_TABLE, RADIAL_INFEED_TIME, RadialInfeed, STACK_FACE, TIME_OF_CUTS, hob_speed_at_table,
    radial_infeed_time, stack_face, time_of_cuts,
};
pub use gear::{
    Gear, HOB_LEAD_ANGLE, Hand, Hob, PITCH_DIAMETER, SWIVEL_ANGLE, TIP_DIAMETER, hob_lead_angle,
    pitch_diameter, swivel_angle, tip_diameter,
};
pub use marks::{
    FEED_FOR_MARK_DEPTH, FEED_MARK_DEPTH, GENERATING_DEVIATION, feed_for_mark_depth, feed_mark_depth,
    generating_deviation,
};
pub use time::{
    ACTIVE_TEETH, HOBBING_TIME, HobbingCut, PIECES_PER_SHARPENING, TABLE_SPEED, active_teeth, hobbing_time,
    pieces_per_sharpening, table_speed,
};
pub use wear::{
    HOB_AXIAL_PITCH, HOB_COST_PER_PIECE, HOB_LEAD, HOB_TOOTH_USE, HobCost, PROFILE_GENERATING_LENGTH,
    SHIFTABLE_LENGTH, hob_axial_pitch, hob_cost_per_piece, hob_lead, hob_tooth_use,
    profile_generating_length, sharpenings, shift_positions, shiftable_length,
};
