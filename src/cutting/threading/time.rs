//! Time and speed of threading, and the room it needs at both ends.

use crate::cutting::turning::{feed_rate, travel_time};
use crate::quantity::{Duration, FeedPerRev, FeedRate, Formula, Length, SpindleSpeed};

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

/// Formula of [`fastest_threading`].
pub const FASTEST_THREADING: Formula =
    Formula { figure: "spindle speed the axis can follow", text: "n = v_f / P", source: "iso-3002" };

/// Greatest spindle speed at which an axis can still follow a thread.
///
/// n = v_f / P
///
/// # Symbols
/// n spindle speed. v_f greatest feed rate of the axis. P pitch, or lead.
/// # Range
/// P above zero.
/// # Source
/// [iso-3002]: the feed rate of a thread turned round. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::fastest_threading;
/// use wearland::quantity::{FeedRate, Length};
/// let speed = fastest_threading(Length::mm(2.5), FeedRate::m_per_min(5.0));
/// assert!((speed.to_rpm() - 2000.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn fastest_threading(pitch: Length, axis: FeedRate) -> SpindleSpeed {
    SpindleSpeed::rpm(axis.to_mm_per_min() / pitch.to_mm())
}

/// Threads lag behind the spindle by the time constant of the axis, 1/30 s here: P n / 60 / 30.
const LAG: f64 = 1800.0;

/// Formula of [`thread_run_out`].
pub const THREAD_RUN_OUT: Formula =
    Formula { figure: "run-out for the lag of the axis", text: "l_2 = P * n / 1800", source: "memory" };

/// Length at the end of a thread that the lag of the axis spoils.
///
/// l_2 = P * n / 1800
///
/// # Symbols
/// l_2 run-out in mm. P lead in mm. n spindle speed in 1/min.
/// # Range
/// Axis with a time constant of 33 ms; drives of today are quicker.
/// # Source
/// \[memory\]: manuals of numerical controls. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_run_out;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let length = thread_run_out(Length::mm(1.0), SpindleSpeed::rpm(350.0));
/// assert!((length.to_mm() - 0.1944).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_run_out(pitch: Length, speed: SpindleSpeed) -> Length {
    pitch * (speed.to_rpm() / LAG)
}

/// Formula of [`thread_run_in`].
pub const THREAD_RUN_IN: Formula = Formula {
    figure: "run-in for the lag of the axis",
    text: "l_1 = P * n / 1800 * (-1 - ln(a))",
    source: "memory",
};

/// Length before a thread in which the axis comes to its rate, up to a share of error of the lead.
///
/// l_1 = P * n / 1800 * (-1 - ln(a))
///
/// # Symbols
/// l_1 run-in in mm. P lead in mm. n spindle speed in 1/min. a allowed error of the lead as a share.
/// # Range
/// a below 1/e, and as for the run-out; above, no run-in is needed.
/// # Source
/// \[memory\]: manuals of numerical controls. Worked examples: tests/published/thread_form.toml.
/// # Example
/// ```
/// use wearland::cutting::threading::thread_run_in;
/// use wearland::quantity::{Length, SpindleSpeed};
/// let length = thread_run_in(Length::mm(1.0), SpindleSpeed::rpm(350.0), 0.01);
/// assert!((length.to_mm() - 0.7010).abs() < 1e-4);
/// ```
#[must_use]
pub fn thread_run_in(pitch: Length, speed: SpindleSpeed, lead_error: f64) -> Length {
    (thread_run_out(pitch, speed) * (-1.0 - lead_error.ln())).larger(Length::ZERO)
}
