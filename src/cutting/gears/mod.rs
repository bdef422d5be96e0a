//! Cylindrical gears beside hobbing: sizes of the blank and the tooth, and the times of shaping, shaving and grinding.

mod blank;
mod grinding;
mod pitch;
mod shaping;
mod shaving;

pub use blank::{
    BLANK_DIAMETER, ROOT_DIAMETER, TOOTH_METRES, ToothDepth, WHOLE_DEPTH, blank_diameter, root_diameter,
    tooth_metres, whole_depth,
};
pub use grinding::{
    GENERATING_GRINDING_TIME, GRINDING_WORK_SPEED, PROFILE_GRINDING_TIME, ProfileGrinding,
    generating_grinding_time, grinding_work_speed, profile_grinding_time,
};
pub use pitch::{
    AXIAL_PITCH, LEAD, MODULE_OF_PITCH, TRANSVERSE_MODULE, TRANSVERSE_PRESSURE_ANGLE, axial_pitch, lead,
    module_of_pitch, transverse_module, transverse_pitch, transverse_pressure_angle,
};
pub use shaping::{SHAPING_STROKES, SHAPING_TIME, ShapingCut, shaping_strokes, shaping_time};
pub use shaving::{
    PLUNGE_SHAVING_TIME, PlungeShaving, SHAVING_SLIDE, SHAVING_TIME, ShavingCut, plunge_shaving_time,
    shaving_slide, shaving_time,
};
