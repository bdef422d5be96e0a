//! Surface finish that feed and the shape of the edge leave in turning and milling.

mod arc;
mod corner;
mod marks;

pub use arc::{
    FEED_FOR_ROUGHNESS, MEAN_ROUGHNESS, MEAN_ROUGHNESS_OF_ARC, PEAK_TO_VALLEY, PEAK_TO_VALLEY_SHORT,
    feed_for_roughness, mean_roughness, mean_roughness_of_arc, peak_to_valley, peak_to_valley_short,
};
pub use corner::{
    CORNER_AND_EDGE, LEAST_CHIP_THICKNESS, SHARP_CORNER, WIPER_ROUGHNESS, corner_and_edge,
    least_chip_thickness, sharp_corner, wiper_roughness,
};
pub use marks::{FEED_MARKS, FEED_MARKS_SHORT, feed_marks, feed_marks_short};
