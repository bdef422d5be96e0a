//! Time of cylindrical grinding between centres or in a chuck.

use crate::quantity::{Duration, FeedPerRev, FeedRate, Formula, Length, SpindleSpeed};

/// A cylinder ground by strokes along it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TraverseCut {
    /// Strokes that take off stock.
    pub passes: u32,
    /// Strokes without infeed at the end.
    pub spark_out_passes: u32,
    /// Length of a stroke.
    pub path: Length,
    /// Traverse for each turn of the work.
    pub traverse: FeedPerRev,
    /// Speed of the work.
    pub work_speed: SpindleSpeed,
}

/// Formula of [`traverse_time`].
pub const TRAVERSE_TIME: Formula =
    Formula { figure: "traverse grinding time", text: "t = (i + i_s) * L / (f_a * n_w)", source: "sharma" };

/// Time to grind a cylinder by strokes along it.
///
/// t = (i + i_s) * L / (f_a * n_w)
///
/// # Symbols
/// t time. i strokes with infeed. i_s spark-out strokes. L length of a stroke. f_a traverse for each turn of the work. n_w speed
/// of the work.
/// # Range
/// Infeed at each end of the stroke; the turn-round of the table is not in it. f_a from about 0.4 of the wheel's width for
/// finishing to 0.9 for roughing.
/// # Source
/// \[sharma\]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::{TraverseCut, traverse_time};
/// use wearland::quantity::{FeedPerRev, Length, SpindleSpeed};
/// let time = traverse_time(TraverseCut {
///     passes: 10,
///     spark_out_passes: 0,
///     path: Length::mm(200.0),
///     traverse: FeedPerRev::mm_per_rev(25.0),
///     work_speed: SpindleSpeed::rpm(125.649),
/// });
/// assert!((time.to_min() - 0.6367).abs() < 1e-4);
/// ```
#[must_use]
pub fn traverse_time(cut: TraverseCut) -> Duration {
    let strokes = f64::from(cut.passes) + f64::from(cut.spark_out_passes);
    Duration::min(strokes * cut.path.to_mm() / (cut.traverse.to_mm_per_rev() * cut.work_speed.to_rpm()))
}

/// Formula of [`plunge_stage_time`].
pub const PLUNGE_STAGE_TIME: Formula =
    Formula { figure: "plunge stage", text: "t = s / v_fr", source: "common-practice" };

/// Time of one stage of plunge grinding, outside or inside.
///
/// t = s / v_fr
///
/// # Symbols
/// t time. s stock of the stage, on the radius. v_fr infeed rate, on the radius.
/// # Range
/// v_fr above zero. Air gap and spark-out are not in it.
/// # Source
/// [common-practice]: path by rate. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::plunge_stage_time;
/// use wearland::quantity::{FeedRate, Length};
/// let time = plunge_stage_time(Length::mm(0.15), FeedRate::mm_per_min(1.2));
/// assert!((time.to_s() - 7.5).abs() < 1e-9);
/// ```
#[must_use]
pub fn plunge_stage_time(stock: Length, infeed: FeedRate) -> Duration {
    Duration::min(stock.to_mm() / infeed.to_mm_per_min())
}

/// Formula of [`spark_out_residue`].
pub const SPARK_OUT_RESIDUE: Formula = Formula {
    figure: "error left after spark-out",
    text: "e = v_fr * tau * exp(-t / tau)",
    source: "memory",
};

/// Stock still standing on the radius after spark-out.
///
/// e = v_fr * tau * exp(-t / tau)
///
/// # Symbols
/// e error on the radius. v_fr infeed rate of the last stage. tau time constant of wheel, work and machine. t spark-out time.
/// # Range
/// A system of first order that lags fully behind at the end of the last stage: that stage lasts three tau or more. tau is 0.5 to
/// 3 s on usual machines, from memory; measure it on the machine.
/// # Source
/// \[memory\]: first-order lag. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::spark_out_residue;
/// use wearland::quantity::{Duration, FeedRate};
/// let error = spark_out_residue(FeedRate::mm_per_min(0.1), Duration::s(1.5), Duration::s(3.0));
/// assert!((error.to_mm() * 1000.0 - 0.3383).abs() < 1e-4);
/// ```
#[must_use]
pub fn spark_out_residue(infeed: FeedRate, lag: Duration, time: Duration) -> Length {
    Length::mm(infeed.to_mm_per_min() / 60.0 * lag.to_s() * (-(time / lag)).exp())
}

/// Formula of [`spark_out_time`].
pub const SPARK_OUT_TIME: Formula =
    Formula { figure: "spark-out time", text: "t = tau * ln(v_fr * tau / e)", source: "memory" };

/// Spark-out time until a wanted error is left, the inverse of [`spark_out_residue`].
///
/// t = tau * ln(v_fr * tau / e), nothing if the lag is within the error already
///
/// # Symbols
/// t spark-out time. tau time constant. v_fr infeed rate of the last stage. e error on the radius.
/// # Range
/// As for the error left.
/// # Source
/// \[memory\]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::spark_out_time;
/// use wearland::quantity::{Duration, FeedRate, Length};
/// let time = spark_out_time(FeedRate::mm_per_min(0.1), Duration::s(1.5), Length::mm(0.0003383));
/// assert!((time.to_s() - 3.0).abs() < 1e-3);
/// ```
#[must_use]
pub fn spark_out_time(infeed: FeedRate, lag: Duration, error: Length) -> Duration {
    let behind = Length::mm(infeed.to_mm_per_min() / 60.0 * lag.to_s());
    if behind <= error { Duration::ZERO } else { lag * (behind / error).ln() }
}
