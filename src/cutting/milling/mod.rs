//! Milling: feed, engagement, chip thickness, travel, pockets and keyways, threads, balancing, scallops.

mod balance;
mod chip;
mod engagement;
mod feed;
mod pocket;
mod scallop;
mod thread;
mod travel;

pub use balance::{
    BALANCE_MASS, BALANCE_MOMENT, BALANCE_PATH, BalanceArc, balance_cut, balance_mass, balance_moment,
    balance_path,
};
pub use chip::{
    MAX_CHIP_THICKNESS, MAX_CHIP_THICKNESS_ENGAGED, MEAN_CHIP_THICKNESS, MEAN_CHIP_THICKNESS_ENGAGED,
    MEAN_CHIP_THICKNESS_SHORT, MeanChip, max_chip_thickness, max_chip_thickness_engaged, mean_chip_thickness,
    mean_chip_thickness_engaged, mean_chip_thickness_short,
};
pub use engagement::{
    ENGAGEMENT_ANGLE_CENTRED, ENGAGEMENT_ANGLE_SIDE, Engagement, SWEPT_ANGLE, TEETH_ENGAGED,
    engagement_angle_centred, engagement_angle_side, swept_angle, teeth_engaged,
};
pub use feed::{
    FEED_FOR_CHIP_THICKNESS, FEED_PER_TOOTH, MILLING_REMOVAL_RATE, TABLE_FEED, THINNING_FACTOR,
    feed_for_chip_thickness, feed_per_tooth, milling_removal_rate, table_feed, thinning_factor,
};
pub use pocket::{
    CLEARING_PATH, HELIX_PATH, KEYWAY_PATH, KeywayEnds, PLUNGE_SHARE, Pocket, RAMP_PATH, WALL_PATH,
    clearing_path, helix_path, keyway_path, ramp_path, wall_path,
};
pub use scallop::{STEP_OVER_FOR_SCALLOP, step_over_for_scallop};
pub use thread::{
    CENTRE_FEED_RATE, CENTRE_PATH_DIAMETER, HELIX_TURN, LEAD_ARC, ThreadSide, centre_feed_rate,
    centre_path_diameter, helix_turn, lead_arc, thread_mill_turns,
};
pub use travel::{
    CleanUp, FACE_APPROACH, FACE_TRAVEL, FLAT_APPROACH, FLAT_LENGTH, SIDE_APPROACH, SIDE_TRAVEL,
    face_approach, face_travel, flat_approach, flat_length, side_approach, side_travel,
};
