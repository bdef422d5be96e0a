//! Power by the handbook's unit-power method: a constant of the work material, corrected for feed and wear.

use crate::quantity::{FeedPerRev, Formula, Power, RemovalRate, SpecificForce};

/// Formula of [`power_constant`].
pub const POWER_CONSTANT: Formula = Formula {
    figure: "power constant",
    text: "1 hp for 1 in3/min = 2730.3 N/mm2",
    source: "machinerys-handbook-31",
};

/// Power constant K_p of a work material, as the specific cutting force it stands for.
///
/// 1 hp for 1 in3/min = 2730.3 N/mm2
///
/// # Symbols
/// K_p power in hp to remove 1 in3 in a minute.
/// # Range
/// Sharp tool, feed 0.012 in/rev. Plain carbon steel 100 to 120 HB 0.66, 200 to 220 HB 0.85, 300 to 320 HB 1.03.
/// # Source
/// [machinerys-handbook-31], page 1147, which prints both units. Worked examples: tests/published/unit_power.toml.
/// # Example
/// ```
/// use wearland::cutting::unit_power::power_constant;
/// assert!((power_constant(0.63).to_n_per_mm2() - 1720.1).abs() < 0.1);
/// ```
#[must_use]
pub fn power_constant(horsepower: f64) -> SpecificForce {
    let cubic_inch = RemovalRate::inch3_per_min(1.0);
    SpecificForce::n_per_mm2(Power::hp(horsepower).to_kw() * 60_000.0 / cubic_inch.to_cm3_per_min())
}

/// Formula of [`feed_factor`].
pub const FEED_FACTOR: Formula =
    Formula { figure: "feed factor", text: "C = (0.012 in / f)^0.2", source: "machinerys-handbook-31" };

/// Factor for a feed other than 0.012 in/rev.
///
/// C = (0.012 in / f)^0.2
///
/// # Symbols
/// C factor. f feed per revolution; in milling per tooth.
/// # Range
/// f 0.001 to 0.04 in. The handbook has a table; this power keeps within 3 % of it.
/// # Source
/// [machinerys-handbook-31], table remembered. Worked examples: tests/published/unit_power.toml.
/// # Example
/// ```
/// use wearland::cutting::unit_power::feed_factor;
/// use wearland::quantity::FeedPerRev;
/// assert!((feed_factor(FeedPerRev::inch_per_rev(0.020)) - 0.903).abs() < 1e-3);
/// ```
#[must_use]
pub fn feed_factor(feed: FeedPerRev) -> f64 {
    (0.012 / feed.to_inch_per_rev()).powf(0.2)
}

/// Formula of [`unit_power`].
pub const UNIT_POWER: Formula =
    Formula { figure: "cutting power", text: "P_c = K_p * C * Q * W", source: "machinerys-handbook-31" };

/// Power at the cut by the unit-power method.
///
/// P_c = K_p * C * Q * W
///
/// # Symbols
/// P_c power at the cut. K_p power constant. C feed factor. Q removal rate. W factor for wear: sharp 1, finish turning
/// 1.1, usual turning 1.3, heavy 1.6 to 2, milling 1.1 to 1.25, drilling 1.3.
/// # Range
/// As for K_p and C.
/// # Source
/// [machinerys-handbook-31]. Worked examples: tests/published/unit_power.toml.
/// # Example
/// ```
/// use wearland::cutting::unit_power::{power_constant, unit_power};
/// use wearland::quantity::RemovalRate;
/// let power = unit_power(power_constant(0.62), 0.94, RemovalRate::inch3_per_min(6.72), 1.3);
/// assert!((power.to_hp() - 5.1).abs() < 0.05);
/// ```
#[must_use]
pub fn unit_power(constant: SpecificForce, feed_factor: f64, rate: RemovalRate, wear: f64) -> Power {
    Power::kw(rate.to_cm3_per_min() * constant.to_n_per_mm2() * feed_factor * wear / 60_000.0)
}
