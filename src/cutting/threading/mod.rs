//! Single-point threading: profile, infeed of each pass, time.

mod depth;
mod infeed;
mod time;
mod tolerance;
mod volume;

pub use depth::{
    INTERNAL_MINOR_DIAMETER, PITCH_OF_THREADS, THREAD_DEPTH_EXTERNAL, THREAD_DEPTH_INTERNAL,
    THREAD_PITCH_DIAMETER, THREAD_ROOT_DIAMETER, internal_minor_diameter, pitch_of_threads,
    thread_depth_external, thread_depth_internal, thread_pitch_diameter, thread_root_diameter,
};
pub use infeed::{
    PROPOSED_PASS_COUNT, THREAD_CHIP_AREAS, THREAD_PASSES, THREAD_PASSES_WITH_LEAST_LAST,
    proposed_pass_count, thread_chip_areas, thread_passes, thread_passes_with_least_last,
};
pub use time::{
    FASTEST_THREADING, THREAD_FEED_RATE, THREAD_RUN_IN, THREAD_RUN_OUT, THREADING_TIME, ThreadCut,
    fastest_threading, thread_feed_rate, thread_run_in, thread_run_out, threading_time,
};
pub use tolerance::{
    MAJOR_TOLERANCE, PITCH_DIAMETER_TOLERANCE, THREAD_ALLOWANCE, major_tolerance, pitch_diameter_tolerance,
    thread_allowance,
};
pub use volume::{
    EXTERNAL_THREAD_VOLUME, INTERNAL_THREAD_VOLUME, external_thread_volume, internal_thread_volume,
};
