//! A chart as text: one sign for each series, numbers at the left and beneath, a legend below.

use super::escape::{plain, text_width};
use super::frame::{Frame, Place, Steps};
use super::terminal::push_wrapped;
use super::{Chart, Shape};
use crate::quantity::Units;

/// Rows of the field of points.
const ROWS: usize = 14;
/// Fewest and most columns of a plot with its numbers; a wider one would be flat.
const COLUMNS: (usize, usize) = (40, 100);
/// Columns that a number along the foot may take up with the white space around it.
const ROOM: usize = 12;
/// Signs of the series, used again after the last.
const SIGNS: [char; 8] = ['*', 'o', '+', 'x', '#', '@', '%', '='];
/// Sign of marks.
const MARK: char = '|';

/// Adds a chart under its heading.
pub(super) fn push_chart(out: &mut String, chart: &Chart, units: &Units, width: usize) {
    out.push('\n');
    push_wrapped(out, "", &plain(&chart.heading), width);
    let total = width.clamp(COLUMNS.0, COLUMNS.1);
    let steps = Steps { x: u8::try_from(total / ROOM).unwrap_or(u8::MAX).max(4), y: 5 };
    match Frame::new(chart, units, steps) {
        None => out.push_str("none\n"),
        Some(frame) => {
            out.push_str(&"─".repeat(total));
            out.push('\n');
            push_wrapped(out, "", &plain(&chart.y().title(units)), width);
            let margin = frame.y.ticks.iter().map(|tick| text_width(&tick.label)).max().unwrap_or(0);
            let columns = total - margin - 2;
            push_field(out, &frame, &field(chart, &frame, columns), margin);
            push_foot(out, &frame, columns, margin);
            let title = plain(&chart.x().title(units));
            out.push_str(&" ".repeat(total.saturating_sub(text_width(&title))));
            push_wrapped(out, "", &title, width);
            push_legend(out, chart, &frame, width);
        }
    }
    if let Some(remark) = &chart.remark {
        push_wrapped(out, "", &plain(remark), width);
    }
}

/// The signs row by row from the top. Where series meet, the earlier one shows; marks lie beneath.
fn field(chart: &Chart, frame: &Frame, columns: usize) -> Vec<Vec<char>> {
    let mut field = vec![vec![' '; columns]; ROWS];
    for mark in &frame.marks {
        let column = nearest(mark.at, columns);
        for row in &mut field {
            row[column] = MARK;
        }
    }
    let series = chart.series().iter().zip(&frame.runs).zip(SIGNS.into_iter().cycle());
    for ((series, runs), sign) in series.collect::<Vec<_>>().into_iter().rev() {
        for run in runs {
            let corners = corners(series.shape, run);
            let spots: Vec<_> = corners
                .into_iter()
                .map(|(x, y)| (nearest(x, columns), ROWS - 1 - nearest(y, ROWS)))
                .collect();
            for &(column, row) in &spots {
                field[row][column] = sign;
            }
            if series.shape != Shape::Points {
                for pair in spots.windows(2) {
                    join(&mut field, pair[0], pair[1], sign);
                }
            }
        }
    }
    field
}

/// The points a shape goes through.
pub(super) fn corners(shape: Shape, run: &[Place]) -> Vec<Place> {
    if shape != Shape::Steps {
        return run.to_vec();
    }
    let mut corners: Vec<Place> = run.first().copied().into_iter().collect();
    for pair in run.windows(2) {
        corners.push((pair[1].0, pair[0].1));
        corners.push(pair[1]);
    }
    corners
}

/// Index among so many places of a part of the way.
fn nearest(part: f64, places: usize) -> usize {
    let last = places.saturating_sub(1);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        clippy::cast_precision_loss,
        reason = "the part is from 0 to 1 and there are few places"
    )]
    let index = (part * last as f64).round() as usize;
    index.min(last)
}

/// Signs on the straight way between two spots, one in each column or row it crosses.
fn join(field: &mut [Vec<char>], from: (usize, usize), to: (usize, usize), sign: char) {
    let steps = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1));
    for step in 1..steps {
        let column = between(from.0, to.0, step, steps);
        let row = between(from.1, to.1, step, steps);
        field[row][column] = sign;
    }
}

/// The whole number nearest to a part of the way from one to another, halves away from the first.
fn between(from: usize, to: usize, step: usize, steps: usize) -> usize {
    let way = (2 * from.abs_diff(to) * step + steps) / (2 * steps);
    if from <= to { from + way } else { from - way }
}

fn push_field(out: &mut String, frame: &Frame, field: &[Vec<char>], margin: usize) {
    for (index, row) in field.iter().enumerate() {
        let tick = frame.y.ticks.iter().find(|tick| ROWS - 1 - nearest(tick.at, ROWS) == index);
        let (label, axis) = tick.map_or(("", '│'), |tick| (tick.label.as_str(), '┤'));
        let signs: String = row.iter().collect();
        out.push_str(format!("{label:>margin$} {axis}{signs}").trim_end());
        out.push('\n');
    }
}

/// The axis at the foot and the numbers beneath it; one that would run into the last is left out.
fn push_foot(out: &mut String, frame: &Frame, columns: usize, margin: usize) {
    let mut axis = vec!['─'; columns];
    let mut numbers = String::new();
    let left = margin + 2;
    for tick in &frame.x.ticks {
        let column = nearest(tick.at, columns);
        axis[column] = '┬';
        let wide = text_width(&tick.label);
        let start = (left + column).saturating_sub(wide / 2).min(left + columns - wide.min(columns));
        let used = text_width(&numbers);
        if used == 0 || used + 2 <= start {
            numbers.push_str(&" ".repeat(start.saturating_sub(used)));
            numbers.push_str(&tick.label);
        }
    }
    out.push_str(&" ".repeat(margin + 1));
    out.push('└');
    out.extend(axis);
    out.push('\n');
    out.push_str(&numbers);
    out.push('\n');
}

fn push_legend(out: &mut String, chart: &Chart, frame: &Frame, width: usize) {
    for ((series, runs), sign) in chart.series().iter().zip(&frame.runs).zip(SIGNS.into_iter().cycle()) {
        let name = plain(&series.name);
        let name = if runs.is_empty() { format!("{name}: none") } else { name };
        push_wrapped(out, &format!("{sign} "), &name, width);
    }
    for mark in &frame.marks {
        push_wrapped(out, &format!("{MARK} "), &plain(&mark.text), width);
    }
    if let Some(shortfall) = frame.shortfall() {
        push_wrapped(out, "", &shortfall, width);
    }
}

#[cfg(test)]
mod tests {
    use super::{between, push_chart};
    use crate::quantity::{Length, System, Units};
    use crate::report::{Axis, Chart, Column, Holds, Series, Shape};

    fn sample() -> Chart {
        let pieces = Axis::linear(Column::count("pieces", "Pieces", "pieces"));
        let ratio = Axis::linear(Column::new("load", "Load", Holds::Ratio));
        let mut chart = Chart::new("loads", "Load\u{1b}", pieces, ratio).remark("of the demo");
        let mut line = Series::new("rising", Shape::Line);
        line.point(0_u32, 0.0);
        line.point(10_u32, 10.0);
        let mut steps = Series::new("held", Shape::Steps);
        steps.point(0_u32, 10.0);
        steps.point(5_u32, 8.0);
        steps.point(10_u32, 8.0);
        let mut points = Series::new("seen", Shape::Points);
        points.point(2_u32, 0.0);
        points.point(8_u32, 2.0);
        for series in [line, steps, points] {
            chart.add_series(series);
        }
        chart.add_mark("change", 4_u32);
        chart
    }

    #[test]
    fn a_small_chart_is_drawn_sign_by_sign() {
        let mut out = String::new();
        push_chart(&mut out, &sample(), &Units::default(), 40);
        let expected = "
Load\\u{1b}
────────────────────────────────────────
Load
10 ┤ooooooooooooooooooo               **
   │              |   o            ***
   │              |   o          **
 8 ┤              |   oooooooo***ooooooo
   │              |        ***
 6 ┤              |      **
   │              |   ***
   │              |***
 4 ┤             **
   │          *** |
 2 ┤       ***    |             +
   │     **       |
   │  ***         |
 0 ┤**     +      |
   └┬─────────────────┬────────────────┬
    0                 5               10
                                  Pieces
* rising
o held
+ seen
| change: 4 pieces
of the demo
";
        assert_eq!(out, expected, "\n{out}");
    }

    #[test]
    fn an_empty_chart_says_none_and_an_empty_series_too() {
        let mut chart = sample();
        chart.add_series(Series::new("later", Shape::Line));
        let mut out = String::new();
        push_chart(&mut out, &chart, &Units::default(), 60);
        assert!(out.contains("\nx later: none\n"), "{out}");
        let empty = Chart::new("loads", "Loads", chart.x().clone(), chart.y().clone()).remark("of the demo");
        let mut out = String::new();
        push_chart(&mut out, &empty, &Units::default(), 60);
        assert_eq!(out, "\nLoads\nnone\nof the demo\n");
    }

    #[test]
    fn axes_are_in_the_units_of_the_report() {
        let length = Axis::log(Column::quantity::<Length>("wear", "Wear"));
        let mut chart = Chart::new("wear", "Wear", length.clone(), length);
        let mut series = Series::new("edge", Shape::Points);
        series.point(Length::inch(1.0), Length::inch(1.0));
        series.point(Length::inch(100.0), Length::inch(-1.0));
        chart.add_series(series);
        let text = |system| {
            let mut out = String::new();
            push_chart(&mut out, &chart, &Units { system, currency: "EUR".into() }, 60);
            out
        };
        assert!(text(System::Inch).contains("\nWear, in\n  2 ┤"), "{}", text(System::Inch));
        assert!(text(System::Metric).contains("\nWear, mm\n50 ┤"), "{}", text(System::Metric));
        assert!(text(System::Inch).ends_with("* edge\n1 point has no place on these axes\n"));
    }

    #[test]
    fn the_way_between_two_spots_has_no_gap() {
        assert_eq!((1..5).map(|step| between(0, 5, step, 5)).collect::<Vec<_>>(), [1, 2, 3, 4]);
        assert_eq!((1..4).map(|step| between(2, 0, step, 4)).collect::<Vec<_>>(), [1, 1, 0]);
    }
}
