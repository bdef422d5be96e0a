//! Grinding: time of plunge, traverse and centreless work, spark-out, wheel load and dressing, power.

mod centreless;
mod cylindrical;
mod power;
mod wheel;

pub use centreless::{
    CENTRELESS_TIME, CENTRELESS_WORK_SPEED, THROUGH_FEED, centreless_time, centreless_work_speed,
    through_feed,
};
pub use cylindrical::{
    PLUNGE_STAGE_TIME, SPARK_OUT_RESIDUE, SPARK_OUT_TIME, TRAVERSE_TIME, TraverseCut, plunge_stage_time,
    spark_out_residue, spark_out_time, traverse_time,
};
pub use power::{GRINDING_FORCE, GRINDING_POWER, grinding_force, grinding_power};
pub use wheel::{
    EQUIVALENT_CHIP_THICKNESS, PLUNGE_REMOVAL_RATE, SPECIFIC_VOLUME, TRAVERSE_REMOVAL_RATE,
    TRAVERSE_SPECIFIC_VOLUME, equivalent_chip_thickness, pieces_per_dressing, plunge_removal_rate,
    specific_volume, traverse_removal_rate, traverse_specific_volume,
};
