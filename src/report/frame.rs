//! A chart worked out for drawing: reach of its axes, points and marks as parts of the way along them.

use super::reach::{Reach, Wanted, drawable};
use super::{Axis, Chart, Holds, Series};
use crate::quantity::Units;

/// A point as parts of the way along the two axes, 0 to 1.
pub(super) type Place = (f64, f64);

/// A chart ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Frame {
    /// From left to right.
    pub(super) x: Reach,
    /// From bottom to top.
    pub(super) y: Reach,
    /// For each series its runs of joined points: a point that is left out breaks the line.
    pub(super) runs: Vec<Vec<Vec<Place>>>,
    /// Marks along the first axis.
    pub(super) marks: Vec<Drawn>,
    /// Points with numbers that have no place on the axes.
    pub(super) left_out: usize,
}

/// A mark ready to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Drawn {
    /// Part of the way along the first axis.
    pub(super) at: f64,
    /// Name and place in words.
    pub(super) text: String,
}

/// About the most steps between ticks of the two axes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Steps {
    /// From left to right.
    pub(super) x: u8,
    /// From bottom to top.
    pub(super) y: u8,
}

impl Frame {
    /// A chart worked out; nothing if it has no point to draw.
    pub(super) fn new(chart: &Chart, units: &Units, steps: Steps) -> Option<Self> {
        let (x, y) = (chart.x(), chart.y());
        let number =
            |axis: &Axis, cell| axis.number(cell, units).filter(|value| drawable(*value, axis.scale));
        let runs: Vec<Vec<Vec<Place>>> = chart
            .series()
            .iter()
            .map(|series| runs(series.points.iter().map(|(at, value)| number(x, at).zip(number(y, value)))))
            .collect();
        let marks: Vec<(f64, String)> = chart
            .marks()
            .iter()
            .filter_map(|mark| number(x, &mark.at).map(|at| (at, chart.mark_text(mark, units))))
            .collect();
        let points = || runs.iter().flatten().flatten();
        points().next()?;
        let across = points().map(|point| point.0).chain(marks.iter().map(|mark| mark.0));
        let x = reach(x, across, steps.x);
        let y = reach(y, points().map(|point| point.1), steps.y);
        let drawn: usize = points().count();
        Some(Self {
            left_out: chart.series().iter().map(|series| with_numbers(chart, series, units)).sum::<usize>()
                - drawn,
            runs: placed(runs, &x, &y),
            marks: marks.into_iter().map(|(at, text)| Drawn { at: x.place(at), text }).collect(),
            x,
            y,
        })
    }

    /// What the drawing does not show, if anything.
    pub(super) fn shortfall(&self) -> Option<String> {
        match self.left_out {
            0 => None,
            1 => Some("1 point has no place on these axes".to_owned()),
            count => Some(format!("{count} points have no place on these axes")),
        }
    }
}

/// Points of a series that have a number on both axes.
fn with_numbers(chart: &Chart, series: &Series, units: &Units) -> usize {
    let known = |axis: &Axis, cell| axis.number(cell, units).is_some();
    series.points.iter().filter(|(x, y)| known(chart.x(), x) && known(chart.y(), y)).count()
}

/// Points that follow each other without a gap.
fn runs(points: impl Iterator<Item = Option<Place>>) -> Vec<Vec<Place>> {
    let mut runs = vec![Vec::new()];
    for point in points {
        match (point, runs.last_mut()) {
            (Some(point), Some(run)) => run.push(point),
            _ => runs.push(Vec::new()),
        }
    }
    runs.retain(|run| !run.is_empty());
    runs
}

fn placed(mut runs: Vec<Vec<Vec<Place>>>, x: &Reach, y: &Reach) -> Vec<Vec<Vec<Place>>> {
    for point in runs.iter_mut().flatten().flatten() {
        *point = (x.place(point.0), y.place(point.1));
    }
    runs
}

fn reach(axis: &Axis, values: impl Iterator<Item = f64>, steps: u8) -> Reach {
    let (low, high) = values
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
    let whole = matches!(axis.column.holds(), Holds::Count(_));
    Reach::new(axis.scale, Wanted { low, high, whole, steps })
}

#[cfg(test)]
mod tests {
    use super::{Frame, Steps};
    use crate::quantity::{Length, System, Units};
    use crate::report::{Axis, Cell, Chart, Column, Holds, Series, Shape};

    fn ratio(key: &'static str) -> Column {
        Column::new(key, key, Holds::Ratio)
    }

    const STEPS: Steps = Steps { x: 5, y: 5 };

    #[test]
    fn a_point_left_out_breaks_the_line_and_is_counted_if_it_has_numbers() {
        let mut chart = Chart::new("c", "C", Axis::log(ratio("x")), Axis::linear(ratio("y")));
        let mut series = Series::new("s", Shape::Line);
        for (x, y) in [(1.0, 0.0), (10.0, 1.0), (-1.0, 2.0), (100.0, f64::NAN), (100.0, 1.0)] {
            series.point(x, y);
        }
        series.point(5.0, Cell::Missing);
        chart.add_series(series);
        chart.add_mark("far", 1000.0);
        chart.add_mark("nowhere", 0.0);
        let frame = Frame::new(&chart, &Units::default(), STEPS).unwrap();
        let third = 1.0 / 3.0;
        let expected = [vec![(0.0, 0.0), (third, 1.0)], vec![(2.0 * third, 1.0)]];
        for (run, wanted) in frame.runs[0].iter().zip(&expected) {
            for (point, wanted) in run.iter().zip(wanted) {
                approx::assert_relative_eq!(point.0, wanted.0, epsilon = 1e-12);
                approx::assert_relative_eq!(point.1, wanted.1, epsilon = 1e-12);
            }
        }
        assert_eq!(frame.runs[0].iter().map(Vec::len).collect::<Vec<_>>(), [2, 1]);
        assert_eq!(frame.shortfall().unwrap(), "1 point has no place on these axes");
        assert_eq!(frame.marks.len(), 1);
        approx::assert_relative_eq!(frame.marks[0].at, 1.0);
    }

    #[test]
    fn a_chart_without_points_is_not_drawn() {
        let mut chart = Chart::new("c", "C", Axis::linear(ratio("x")), Axis::linear(ratio("y")));
        chart.add_mark("alone", 1.0);
        let mut series = Series::new("s", Shape::Line);
        series.point(1.0, f64::NAN);
        chart.add_series(series);
        assert_eq!(Frame::new(&chart, &Units::default(), STEPS), None);
    }

    #[test]
    fn ticks_are_round_in_the_unit_of_the_report() {
        let length = |key| Axis::linear(Column::quantity::<Length>(key, key));
        let mut chart = Chart::new("c", "C", length("x"), length("y"));
        let mut series = Series::new("s", Shape::Line);
        series.point(Length::inch(0.0), Length::inch(1.0));
        series.point(Length::inch(10.0), Length::inch(2.0));
        chart.add_series(series);
        let last = |system| {
            let units = Units { system, currency: "EUR".into() };
            Frame::new(&chart, &units, STEPS).unwrap().x.ticks.last().unwrap().label.clone()
        };
        assert_eq!(last(System::Inch), "10");
        assert_eq!(last(System::Metric), "300");
    }
}
