//! Hobbing of cylindrical gears without profile shift: geometry, approach, time, life of the hob.

mod approach;
mod gear;
mod time;

pub use approach::{
    APPROACH, CRUDE_APPROACH, OVERRUN, SHORT_APPROACH, SPUR_APPROACH, approach, crude_approach, overrun,
    short_approach, spur_approach,
};
pub use gear::{
    Gear, HOB_LEAD_ANGLE, Hand, Hob, PITCH_DIAMETER, SWIVEL_ANGLE, TIP_DIAMETER, hob_lead_angle,
    pitch_diameter, swivel_angle, tip_diameter,
};
pub use time::{
    ACTIVE_TEETH, HOBBING_TIME, HobbingCut, PIECES_PER_SHARPENING, TABLE_SPEED, active_teeth, hobbing_time,
    pieces_per_sharpening, table_speed,
};
