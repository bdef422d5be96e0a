//! Centreless grinding with through-feed.

use std::f64::consts::PI;

use crate::quantity::{Angle, Duration, FeedRate, Formula, Length, SpindleSpeed};

/// Formula of [`through_feed`].
pub const THROUGH_FEED: Formula =
    Formula { figure: "through-feed", text: "v_fa = pi * d_r * n_r * sin(alpha)", source: "common-practice" };

/// Speed at which pieces pass between the wheels.
///
/// v_fa = pi * d_r * n_r * sin(alpha)
///
/// # Symbols
/// v_fa through-feed. d_r diameter, n_r speed of the regulating wheel. alpha its tilt.
/// # Range
/// No slip between work and regulating wheel; alpha usually 1 to 6 degrees.
/// # Source
/// [common-practice]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::through_feed;
/// use wearland::quantity::{Angle, Length, SpindleSpeed};
/// let feed = through_feed(Length::mm(300.0), SpindleSpeed::rpm(30.0), Angle::deg(3.0));
/// assert!((feed.to_mm_per_min() - 1479.76).abs() < 0.01);
/// ```
#[must_use]
pub fn through_feed(wheel: Length, speed: SpindleSpeed, tilt: Angle) -> FeedRate {
    FeedRate::mm_per_min(PI * wheel.to_mm() * speed.to_rpm() * tilt.to_rad().sin())
}

/// Formula of [`centreless_time`].
pub const CENTRELESS_TIME: Formula =
    Formula { figure: "centreless time", text: "t = (l + g) / v_fa", source: "common-practice" };

/// Time of a piece and pass when pieces follow one another.
///
/// t = (l + g) / v_fa
///
/// # Symbols
/// t time. l length of the piece. g gap to the next piece, 0 end to end; a piece that passes alone has the width of the wheel as
/// its gap. v_fa through-feed.
/// # Range
/// v_fa above zero.
/// # Source
/// [common-practice]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::centreless_time;
/// use wearland::quantity::{FeedRate, Length};
/// let time = centreless_time(Length::mm(50.0), Length::mm(10.0), FeedRate::mm_per_min(1200.0));
/// assert!((time.to_s() - 3.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn centreless_time(length: Length, gap: Length, rate: FeedRate) -> Duration {
    Duration::min((length + gap).to_mm() / rate.to_mm_per_min())
}

/// Formula of [`centreless_work_speed`].
pub const CENTRELESS_WORK_SPEED: Formula =
    Formula { figure: "work speed", text: "n_w = n_r * d_r * cos(alpha) / d_w", source: "common-practice" };

/// Speed at which the regulating wheel turns the work.
///
/// n_w = n_r * d_r * cos(alpha) / d_w
///
/// # Symbols
/// n_w speed of the work. n_r speed, d_r diameter of the regulating wheel. alpha its tilt. d_w diameter of the work.
/// # Range
/// No slip.
/// # Source
/// [common-practice]. Worked examples: tests/published/grinding.toml.
/// # Example
/// ```
/// use wearland::cutting::grinding::centreless_work_speed;
/// use wearland::quantity::{Angle, Length, SpindleSpeed};
/// let (speed, tilt) = (SpindleSpeed::rpm(30.0), Angle::deg(3.0));
/// let work = centreless_work_speed(speed, Length::mm(300.0), Length::mm(20.0), tilt);
/// assert!((work.to_rpm() - 449.38).abs() < 0.01);
/// ```
#[must_use]
pub fn centreless_work_speed(speed: SpindleSpeed, wheel: Length, work: Length, tilt: Angle) -> SpindleSpeed {
    speed * (wheel / work * tilt.to_rad().cos())
}
