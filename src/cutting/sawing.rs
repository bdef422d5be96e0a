//! Sawing bars: time of a section, speed of the band.

use crate::quantity::{Area, CuttingSpeed, Duration, Formula, Length, SawingRate};

/// Formula of [`sawing_time`].
pub const SAWING_TIME: Formula = Formula { figure: "sawing time", text: "t = A / Q_A", source: "derived" };

/// Time to saw through a section.
///
/// t = A / Q_A
///
/// # Symbols
/// t time in the cut. A area of the section. Q_A area sawn in a time.
/// # Range
/// Q_A above zero. Published rates differ two- to threefold: a figure of the shop's own is better than any table.
/// # Source
/// \[derived\]. Worked examples: tests/published/sawing.toml.
/// # Example
/// ```
/// use wearland::cutting::sawing::sawing_time;
/// use wearland::quantity::{Area, SawingRate};
/// let time = sawing_time(Area::inch2(12.1737), SawingRate::inch2_per_min(21.0));
/// assert!((time.to_min() - 0.5797).abs() < 1e-4);
/// ```
#[must_use]
pub fn sawing_time(section: Area, rate: SawingRate) -> Duration {
    Duration::min(section.to_mm2() / 100.0 / rate.to_cm2_per_min())
}

/// Size of the stock in inches, band speed over that for 4 in.
const SIZES: [(f64, f64); 5] = [(0.25, 1.15), (0.75, 1.12), (1.25, 1.10), (4.0, 1.0), (8.0, 0.88)];

/// Formula of [`band_speed`].
pub const BAND_SPEED: Formula = Formula {
    figure: "band speed",
    text: "v = v_4 * c, c by size in in: 0.25: 1.15; 0.75: 1.12; 1.25: 1.10; 4: 1; 8: 0.88; straight between",
    source: "machinerys-handbook-31",
};

/// Band speed for a size of stock, from the speed listed for stock of 4 in.
///
/// v = v_4 * c, with c by size: 0.25 in 1.15, 0.75 in 1.12, 1.25 in 1.10, 4 in 1, 8 in 0.88, straight between
///
/// # Symbols
/// v band speed. v_4 band speed listed for stock of 4 in, bimetal band, with fluid. c factor for the size.
/// # Range
/// 0.25 in to 8 in; outside, the nearest row. Dry takes 30 to 50 % off, a carbon steel band 50 %.
/// # Source
/// [machinerys-handbook-31], page 1245. Worked examples: tests/published/sawing.toml.
/// # Example
/// ```
/// use wearland::cutting::sawing::band_speed;
/// use wearland::quantity::{CuttingSpeed, Length};
/// let speed = band_speed(CuttingSpeed::ft_per_min(200.0), Length::inch(8.0));
/// assert!((speed.to_ft_per_min() - 176.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn band_speed(listed: CuttingSpeed, size: Length) -> CuttingSpeed {
    let at = size.to_inch().clamp(SIZES[0].0, SIZES[SIZES.len() - 1].0);
    for pair in SIZES.windows(2) {
        let [(low, low_share), (high, high_share)] = [pair[0], pair[1]];
        if at <= high {
            return listed * (low_share + (at - low) / (high - low) * (high_share - low_share));
        }
    }
    listed * SIZES[SIZES.len() - 1].1
}
