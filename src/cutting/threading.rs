//! Single-point threading: depth, infeed of each pass, time.

use crate::quantity::{Duration, FeedPerRev, FeedRate, Formula, Length, SpindleSpeed};

use super::turning::{feed_rate, travel_time};

/// Height of the sharp 60 degree triangle for each unit of pitch, sqrt(3) / 2.
const TRIANGLE: f64 = 0.866_025_403_784_438_6;

/// Formula of [`thread_depth_external`].
pub const THREAD_DEPTH_EXTERNAL: Formula =
    Formula { figure: "depth of external thread", text: "h_3 = 17/24 * sqrt(3)/2 * P", source: "iso-68-1" };

/// Depth of an external 60 degree thread with a rounded root, metric or unified.
///
/// h_3 = 17/24 * H = 0.613435 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// h_3 depth on the radius. H height of the sharp triangle. P pitch; for threads per inch N, 1 in / N.
/// # Range
/// Basic profile, no allowance. A partial-profile insert with a smaller corner goes deeper.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_depth_external;
/// use wearland::quantity::Length;
/// assert!((thread_depth_external(Length::mm(1.5)).to_mm() - 0.9202).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_depth_external(pitch: Length) -> Length {
    pitch * (17.0 / 24.0 * TRIANGLE)
}

/// Formula of [`thread_depth_internal`].
pub const THREAD_DEPTH_INTERNAL: Formula =
    Formula { figure: "depth of internal thread", text: "H_1 = 5/8 * sqrt(3)/2 * P", source: "iso-68-1" };

/// Depth of an internal 60 degree thread, metric or unified.
///
/// H_1 = 5/8 * H = 0.541266 * P, with H = sqrt(3)/2 * P
///
/// # Symbols
/// H_1 depth on the radius. H height of the sharp triangle. P pitch; for threads per inch N, 1 in / N.
/// # Range
/// Basic profile, no allowance.
/// # Source
/// [iso-68-1]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_depth_internal;
/// use wearland::quantity::Length;
/// assert!((thread_depth_internal(Length::inch(1.0 / 13.0)).to_inch() - 0.041636).abs() < 1e-6);
/// ```
#[must_use]
pub fn thread_depth_internal(pitch: Length) -> Length {
    pitch * (5.0 / 8.0 * TRIANGLE)
}

/// Formula of [`thread_passes`].
pub const THREAD_PASSES: Formula = Formula {
    figure: "infeed of each pass",
    text: "a_x = h * sqrt(q / (i - 1)), q = 0.3, 1, 2, 3 ..; infeed = a_x - a_(x-1)",
    source: "widia-2017",
};

/// Infeed of each threading pass, for an about constant area of chip.
///
/// a_x = h * sqrt(q / (i - 1)) with q = 0.3 in the first pass, then 1, 2, 3 ..; each infeed is a_x - a_(x-1)
///
/// # Symbols
/// a_x depth after pass x. h whole depth on the radius. i passes. q share of area.
/// # Range
/// Two passes or more; one pass takes the whole depth, none gives an empty list. The infeeds add up to h.
/// # Source
/// [widia-2017]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_passes;
/// use wearland::quantity::Length;
/// let infeeds = thread_passes(Length::mm(0.94), 6);
/// assert!((infeeds[0].to_mm() - 0.2303).abs() < 1e-4);
/// assert!((infeeds[5].to_mm() - 0.0992).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_passes(depth: Length, passes: u32) -> Vec<Length> {
    if passes == 1 {
        return vec![depth];
    }
    let last = f64::from(passes) - 1.0;
    let mut before = Length::ZERO;
    (0..passes)
        .map(|pass| {
            let share = if pass == 0 { 0.3 } else { f64::from(pass) };
            let after = depth * (share / last).sqrt();
            let infeed = after - before;
            before = after;
            infeed
        })
        .collect()
}

/// Formula of [`proposed_pass_count`].
pub const PROPOSED_PASS_COUNT: Formula = Formula {
    figure: "proposed threading passes",
    text: "i = table(P), middle of each bracket, straight lines between",
    source: "widia-2017",
};

/// Middle of each bracket of the published table: pitch in mm, passes.
const BRACKETS: [(f64, f64); 8] = [
    (0.625, 4.5),
    (0.9, 5.5),
    (1.375, 7.0),
    (1.875, 9.0),
    (2.75, 10.5),
    (3.75, 13.5),
    (5.25, 15.0),
    (8.0, 20.0),
];

/// Passes to begin with for a pitch.
///
/// i read from a table of brackets: the middle of each, straight lines between, rounded to a whole pass.
///
/// # Symbols
/// i passes. P pitch.
/// # Range
/// P 0.5 mm to 8 mm; outside, the end of the table. A proposal: work, insert and overhang may ask for more.
/// # Source
/// [widia-2017]. Brackets: tests/it/properties.rs.
/// # Example
/// ```
/// use wearland::cutting::threading::proposed_pass_count;
/// use wearland::quantity::Length;
/// assert_eq!(proposed_pass_count(Length::mm(2.0)), 9);
/// ```
#[must_use]
pub fn proposed_pass_count(pitch: Length) -> u32 {
    let pitch = pitch.to_mm();
    let (first, last) = (BRACKETS[0], BRACKETS[BRACKETS.len() - 1]);
    let between = BRACKETS.windows(2).find(|pair| pair[0].0 <= pitch && pitch < pair[1].0);
    let passes = match between {
        Some(pair) => {
            let (low, high) = (pair[0], pair[1]);
            low.1 + (high.1 - low.1) * (pitch - low.0) / (high.0 - low.0)
        }
        None if pitch < first.0 => first.1,
        None => last.1,
    };
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between the ends of the table, 4 to 20"
    )]
    let whole = passes.round() as u32;
    whole
}

/// A thread cut in several passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThreadCut {
    /// Path of one pass, run-in and run-out included.
    pub path: Length,
    /// Lead of the thread: its pitch, times its starts.
    pub pitch: Length,
    /// Passes.
    pub passes: u32,
    /// Spindle speed.
    pub speed: SpindleSpeed,
    /// Rate of the return.
    pub return_rate: FeedRate,
}

/// Formula of [`threading_time`].
pub const THREADING_TIME: Formula =
    Formula { figure: "threading time", text: "t = i * (L / (P * n) + L / v_r)", source: "sharma" };

/// Threading time, the return after each pass included.
///
/// t = i * (L / (P * n) + L / v_r)
///
/// # Symbols
/// t time. i passes. L path of one pass. P lead. n spindle speed. v_r rate of the return.
/// # Range
/// All above zero. P * n must lie within what the axis can follow.
/// # Source
/// \[sharma\] for the cutting part; the return is plain travel. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::{ThreadCut, threading_time};
/// use wearland::quantity::{FeedRate, Length, SpindleSpeed};
/// let time = threading_time(ThreadCut {
///     path: Length::mm(30.0),
///     pitch: Length::mm(1.5),
///     passes: 6,
///     speed: SpindleSpeed::rpm(1000.0),
///     return_rate: FeedRate::m_per_min(15.0),
/// });
/// assert!((time.to_s() - 6.0 * (1.2 + 0.12)).abs() < 1e-9);
/// ```
#[must_use]
pub fn threading_time(cut: ThreadCut) -> Duration {
    let lead = FeedPerRev::mm_per_rev(cut.pitch.to_mm());
    let forward = travel_time(cut.path, feed_rate(lead, cut.speed));
    (forward + travel_time(cut.path, cut.return_rate)) * f64::from(cut.passes)
}

/// Formula of [`thread_feed_rate`].
pub const THREAD_FEED_RATE: Formula =
    Formula { figure: "feed rate", text: "v_f = P * n", source: "iso-3002" };

/// Feed rate of a thread: the tool follows the pitch.
///
/// v_f = P * n
///
/// # Symbols
/// v_f feed rate. P pitch, or lead. n spindle speed.
/// # Range
/// To be held against what the axis can do.
/// # Source
/// [iso-3002]. Worked examples: tests/published/threading.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_feed_rate;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let rate = thread_feed_rate(Length::mm(0.5), SpindleSpeed::rpm(1000.0));
/// assert!((rate.to_inch_per_min() - 19.685).abs() < 1e-3);
/// ```
#[must_use]
pub fn thread_feed_rate(pitch: Length, speed: SpindleSpeed) -> FeedRate {
    feed_rate(FeedPerRev::mm_per_rev(pitch.to_mm()), speed)
}
