//! Double-flank roll test of gears: limits of a grade, the grade reached, deviations of a trace, share of rejects.

mod limit;
mod reject;
mod trace;

pub use limit::{
    COMPOSITE_LIMIT, Composite, GRADES, composite_limit, grade_of_gear, grade_reached, worse_grade,
};
pub use reject::{REJECT_SHARE, joint_reject_share, reject_share};
pub use trace::{tooth_deviation, total_deviation};
