//! From where to where an axis runs, and its ticks: steps of 1, 2 and 5, decades along a log axis.

use super::Scale;
use super::number::fixed;

/// Rounding errors that do not move a tick, in steps.
const SLACK: f64 = 1e-9;
/// Least difference, measured by the larger end, that an axis spreads out.
const FINEST: f64 = 1e-12;
/// Numbers beyond have no place on a drawing; smaller ones are zero there.
const BEYOND: f64 = 1e100;

/// The numbers an axis runs through, its ends on ticks.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Reach {
    scale: Scale,
    low: f64,
    high: f64,
    /// From low to high.
    pub(super) ticks: Vec<Tick>,
}

/// A place with a number on it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tick {
    /// Part of the way along the axis, 0 to 1.
    pub(super) at: f64,
    /// The number.
    pub(super) label: String,
}

/// What an axis is to show.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted {
    /// The smallest number, drawable on the scale.
    pub(super) low: f64,
    /// The largest number, drawable on the scale.
    pub(super) high: f64,
    /// Parts of one thing are no ticks.
    pub(super) whole: bool,
    /// About the most steps between ticks, 4 or more.
    pub(super) steps: u8,
}

/// Whether a number has a place on a scale.
pub(super) fn drawable(value: f64, scale: Scale) -> bool {
    match scale {
        Scale::Linear => value.abs() <= BEYOND,
        Scale::Log => (1.0 / BEYOND..=BEYOND).contains(&value),
    }
}

impl Reach {
    /// A reach that shows all that is wanted.
    pub(super) fn new(scale: Scale, wanted: Wanted) -> Self {
        match scale {
            Scale::Linear => Self::linear(wanted),
            Scale::Log => Self::log(wanted),
        }
    }

    /// Part of the way along the axis, 0 to 1.
    pub(super) fn place(&self, value: f64) -> f64 {
        let part = match self.scale {
            Scale::Linear => (value - self.low) / (self.high - self.low),
            Scale::Log => (value / self.low).ln() / (self.high / self.low).ln(),
        };
        part.clamp(0.0, 1.0)
    }

    fn linear(wanted: Wanted) -> Self {
        let (low, high) = widened(wanted.low, wanted.high);
        let rung = rung_at_least((high - low) / f64::from(wanted.steps));
        let rung = if wanted.whole { rung.max(0) } else { rung };
        let step = rung_value(rung);
        let (first, last) = ((low / step + SLACK).floor(), (high / step - SLACK).ceil());
        let largest = first.abs().max(last.abs()) * step;
        let values = std::iter::successors(Some(first), |index| Some(index + 1.0))
            .take_while(|index| *index <= last)
            .map(|index| index * step);
        let labelled = values.map(|value| (value, linear_label(value, rung.div_euclid(3), largest)));
        Self::ticked(Scale::Linear, (first * step, last * step), labelled.collect())
    }

    fn log(wanted: Wanted) -> Self {
        let (mut first, mut last) = (rung_at_most(wanted.low), rung_at_least(wanted.high));
        if first >= last {
            (first, last) = (first - 1, first + 1);
        }
        let decades = (first..=last).filter(|rung| rung % 3 == 0).count();
        let steps = usize::from(wanted.steps);
        let shown: Vec<i32> = if (first..=last).count() <= steps + 2 {
            (first..=last).collect()
        } else {
            let stride = decades.div_ceil(steps + 1).max(1);
            (first..=last).filter(|rung| rung % 3 == 0).step_by(stride).collect()
        };
        let ends = (rung_value(first), rung_value(last));
        let labelled = shown.into_iter().map(|rung| (rung_value(rung), log_label(rung)));
        Self::ticked(Scale::Log, ends, labelled.collect())
    }

    fn ticked(scale: Scale, (low, high): (f64, f64), labelled: Vec<(f64, String)>) -> Self {
        let mut reach = Self { scale, low, high, ticks: Vec::new() };
        let ticks = labelled.into_iter().map(|(value, label)| Tick { at: reach.place(value), label });
        reach.ticks = ticks.collect();
        reach
    }
}

/// Ends that are apart, from zero if that is no further than the numbers reach.
fn widened(low: f64, high: f64) -> (f64, f64) {
    let (low, high) = if 0.0 < low && low <= high / 2.0 {
        (0.0, high)
    } else if high < 0.0 && low / 2.0 <= high {
        (low, 0.0)
    } else {
        (low, high)
    };
    let largest = low.abs().max(high.abs());
    if largest < 1.0 / BEYOND {
        (0.0, 1.0)
    } else if high - low > FINEST * largest {
        (low, high)
    } else {
        (low.min(0.0), high.max(0.0))
    }
}

/// Exponent of ten of a number above zero, exactly.
fn exponent(value: f64) -> i32 {
    let scientific = format!("{value:e}");
    scientific.split_once('e').and_then(|(_, exponent)| exponent.parse().ok()).unwrap_or(0)
}

fn rung_digit(rung: i32) -> i32 {
    match rung.rem_euclid(3) {
        0 => 1,
        1 => 2,
        _ => 5,
    }
}

/// The rungs ... 0.5, 1, 2, 5, 10 ... counted from 1, which is rung 0.
fn rung_value(rung: i32) -> f64 {
    // Read as decimals, so that every machine has the same bits; such a text is always a number.
    format!("{}e{}", rung_digit(rung), rung.div_euclid(3)).parse().unwrap_or(1.0)
}

/// The last rung that is not above a number.
fn rung_at_most(value: f64) -> i32 {
    let first = 3 * exponent(value);
    (first..=first + 3).rev().find(|rung| rung_value(*rung) <= value * (1.0 + SLACK)).unwrap_or(first)
}

/// The first rung that is not below a number.
fn rung_at_least(value: f64) -> i32 {
    let first = 3 * exponent(value);
    (first..=first + 3).find(|rung| value * (1.0 - SLACK) <= rung_value(*rung)).unwrap_or(first + 3)
}

/// A multiple of a step whose exponent is known, on an axis up to the largest number.
fn linear_label(value: f64, step_exponent: i32, largest: f64) -> String {
    let decimals = usize::try_from(-step_exponent).unwrap_or(0);
    if decimals <= 6 && largest < 1e9 {
        fixed(value, decimals)
    } else if value == 0.0 {
        "0".to_owned()
    } else {
        let digits = usize::try_from(exponent(value.abs()) - step_exponent).unwrap_or(0);
        format!("{value:.digits$e}")
    }
}

fn log_label(rung: i32) -> String {
    let exponent = rung.div_euclid(3);
    if (-4..7).contains(&exponent) {
        fixed(rung_value(rung), usize::try_from(-exponent).unwrap_or(0))
    } else {
        format!("{}e{exponent}", rung_digit(rung))
    }
}

#[cfg(test)]
mod tests {
    use super::{Reach, Scale, Wanted, drawable};

    fn labels(scale: Scale, low: f64, high: f64) -> String {
        let reach = Reach::new(scale, Wanted { low, high, whole: false, steps: 5 });
        assert!(reach.place(low) <= reach.place(high));
        assert!(reach.ticks.windows(2).all(|pair| pair[0].at < pair[1].at));
        reach.ticks.iter().map(|tick| tick.label.as_str()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn linear_ticks_are_steps_of_one_two_and_five() {
        for (low, high, expected) in [
            (0.0, 10.0, "0 2 4 6 8 10"),
            (0.0, 0.5, "0.0 0.1 0.2 0.3 0.4 0.5"),
            (3.0, 23.0, "0 5 10 15 20 25"),
            (101.0, 109.0, "100 102 104 106 108 110"),
            (-0.3, 0.7, "-0.4 -0.2 0.0 0.2 0.4 0.6 0.8"),
            (-9.0, -2.0, "-10 -8 -6 -4 -2 0"),
            (7.0, 7.0, "0 2 4 6 8"),
            (0.0, 0.0, "0.0 0.2 0.4 0.6 0.8 1.0"),
            (0.0, 2e12, "0 5e11 1.0e12 1.5e12 2.0e12"),
            (0.0, 4e-9, "0 1e-9 2e-9 3e-9 4e-9"),
            (1e15, 1e15 + 0.125, "0 2e14 4e14 6e14 8e14 1.0e15"),
        ] {
            assert_eq!(labels(Scale::Linear, low, high), expected, "{low} to {high}");
        }
    }

    #[test]
    fn things_that_are_counted_have_no_parts() {
        let reach = Reach::new(Scale::Linear, Wanted { low: 0.0, high: 2.0, whole: true, steps: 5 });
        assert_eq!(reach.ticks.iter().map(|tick| tick.label.as_str()).collect::<Vec<_>>(), ["0", "1", "2"]);
    }

    #[test]
    fn log_ticks_are_decades_or_their_steps() {
        for (low, high, expected) in [
            (1.0, 1000.0, "1 10 100 1000"),
            (3.0, 40.0, "2 5 10 20 50"),
            (0.002, 7000.0, "0.01 1 100 10000"),
            (0.02, 0.04, "0.02 0.05"),
            (100.0, 100.0, "50 100 200"),
            (1e-9, 2e9, "1e-9 1e-5 0.1 1000 1e7"),
        ] {
            assert_eq!(labels(Scale::Log, low, high), expected, "{low} to {high}");
        }
    }

    #[test]
    fn places_follow_the_scale() {
        let place = |scale, value| {
            Reach::new(scale, Wanted { low: 1.0, high: 100.0, whole: false, steps: 5 }).place(value)
        };
        approx::assert_relative_eq!(place(Scale::Linear, 10.0), 0.1);
        approx::assert_relative_eq!(place(Scale::Log, 10.0), 0.5);
    }

    #[test]
    fn what_cannot_be_drawn_is_known() {
        assert!(drawable(-3.0, Scale::Linear) && drawable(3.0, Scale::Log));
        for value in [0.0, -3.0, f64::INFINITY, f64::NAN] {
            assert!(!drawable(value, Scale::Log), "{value}");
        }
        assert!(!drawable(f64::MAX, Scale::Linear) && !drawable(f64::NAN, Scale::Linear));
    }
}
