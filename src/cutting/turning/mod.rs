//! Turning, boring, facing and grooving: speed, feed, passes, shapes and time.

mod equivalent_chip;
mod facing;
mod groove;
mod path;
mod profile;
mod rolling;
mod speed;
mod stages;
mod taper;

pub use equivalent_chip::{CornerAndEdge, TURNING_EQUIVALENT_CHIP, turning_equivalent_chip};
pub use facing::{FACING_TIME, FacingCut, PARTING_TIME, PartingCut, facing_time, parting_time};
pub use groove::{FORM_TIME, FormCut, PLUNGE_COUNT, RING_VOLUME, form_time, plunge_count, ring_volume};
pub use path::{
    DWELL_TIME, PASS_COUNT, TRAVEL_TIME, TURNING_REMOVAL_RATE, TURNING_TIME, dwell_time, pass_count,
    travel_time, turning_removal_rate, turning_time,
};
pub use profile::{
    PROFILE_VOLUME, ProfileRoughing, ProfileStep, RoughPass, finishing_contour, profile_passes,
    profile_volume,
};
pub use rolling::{
    BURNISHING_TIME, KNURL_BLANK, KNURLING_TIME, burnishing_time, knurl_blank, knurl_teeth, knurling_time,
};
pub use speed::{CUTTING_SPEED, FEED_RATE, SPINDLE_SPEED, cutting_speed, feed_rate, spindle_speed};
pub use stages::{PassPlan, pass_plan};
pub use taper::{
    CONE_PATH, FRUSTUM_VOLUME, TAILSTOCK_OFFSET, TAPER_HALF_ANGLE, TAPER_TIME, TaperCut, cone_path,
    frustum_volume, tailstock_offset, taper_half_angle, taper_time,
};
