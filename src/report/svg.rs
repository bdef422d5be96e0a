//! The charts of a document as one SVG file: no script, no fonts of its own, nothing from elsewhere.

use super::escape::{cut, plain};
use super::frame::{Frame, Place, Steps};
use super::ink::{Style, to_tenth, xml};
use super::plot::corners;
use super::terminal::push_wrapped;
use super::{Chart, Document, Series, Shape};
use crate::quantity::Units;
use std::fmt::Write;
use thiserror::Error;

/// A report without a chart has no SVG.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("no chart in this report: `fit` has some, and `wear` with --item and --op")]
pub struct NoCharts;

/// Width of the drawing.
const WIDTH: f64 = 800.0;
/// White space at the edges.
const EDGE: f64 = 20.0;
/// Room at the right for the names of the series.
const NAMES: f64 = 200.0;
/// Least height of the field of points.
const FIELD: f64 = 280.0;
/// From one line of text to the next.
const LINE: f64 = 17.0;
/// About the width of a digit.
const DIGIT: f64 = 7.0;
/// Signs in a full line.
const FULL_LINE: usize = 105;
/// Signs in the name of a series.
const NAME: usize = 24;
/// Signs in the name of a mark.
const MARK: usize = 44;
/// Steps between ticks.
const STEPS: Steps = Steps { x: 7, y: 6 };

/// Writes the charts of a document as one SVG file, one under the other.
///
/// Lines differ in colour and dashes, points in colour and form. The bytes are the same in every run.
///
/// # Errors
/// [`NoCharts`] if there is none.
pub fn write_svg(document: &Document, units: &Units) -> Result<String, NoCharts> {
    let (mut body, mut list) = (String::new(), Vec::new());
    let mut top = EDGE + 2.0 * LINE;
    for chart in document.charts() {
        list.push(described(chart, units));
        let (drawing, height) = drawing(chart, units);
        // Writing to a `String` cannot fail, here and below.
        let _ = write!(
            body,
            "<g transform=\"translate(0 {})\">\n<title>{}</title>\n{drawing}</g>\n",
            to_tenth(top),
            xml(&chart.heading)
        );
        top += height + LINE;
    }
    if list.is_empty() {
        return Err(NoCharts);
    }
    let (title, wide, high) = (xml(&document.title), to_tenth(WIDTH), to_tenth(top));
    let mut out = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" \
         viewBox=\"0 0 {wide} {high}\" width=\"{wide}\" height=\"{high}\" font-family=\"sans-serif\" \
         font-size=\"12\" fill=\"#222222\">\n<title>{title}</title>\n<desc>{}</desc>\n\
         <rect width=\"{wide}\" height=\"{high}\" fill=\"#ffffff\"/>\n",
        list.join(" ")
    );
    out.push_str(&text((EDGE, EDGE + LINE), "start", "18", &cut(&document.title, 70)));
    out.push_str(&body);
    out.push_str("</svg>\n");
    Ok(out)
}

/// A chart in a sentence, for those who cannot see it.
fn described(chart: &Chart, units: &Units) -> String {
    let names: Vec<_> = chart.series().iter().map(|series| series.name.as_str()).collect();
    let marks = chart.marks().iter().map(|mark| format!("; {}", chart.mark_text(mark, units)));
    xml(&format!(
        "{}: {} over {}; {}{}.",
        chart.heading,
        chart.y().title(units),
        chart.x().title(units),
        if names.is_empty() { "no series".to_owned() } else { names.join(", ") },
        marks.collect::<String>()
    ))
}

/// The field of points on the paper.
struct Field {
    left: f64,
    top: f64,
    width: f64,
    height: f64,
}

impl Field {
    fn x(&self, part: f64) -> f64 {
        self.left + part * self.width
    }

    fn y(&self, part: f64) -> f64 {
        self.top + (1.0 - part) * self.height
    }

    fn place(&self, (x, y): Place) -> Place {
        (self.x(x), self.y(y))
    }
}

/// A chart and how high it is.
fn drawing(chart: &Chart, units: &Units) -> (String, f64) {
    let mut out = String::new();
    let mut below = push_lines(&mut out, &chart.heading, LINE, "15");
    if let Some(frame) = Frame::new(chart, units, STEPS) {
        let digits = frame.y.ticks.iter().map(|tick| tick.label.len()).max().unwrap_or(0);
        let left = EDGE + DIGIT * length(digits) + 8.0;
        let field = Field {
            left,
            top: below + LINE * (1.0 + length(frame.marks.len())),
            width: WIDTH - EDGE - NAMES - left,
            height: FIELD.max(LINE * length(chart.series().len())),
        };
        out.push_str(&text((EDGE, below + 4.0), "start", "12", &cut(&chart.y().title(units), 80)));
        push_grid(&mut out, &frame, &field);
        push_marks(&mut out, &frame, &field);
        push_series(&mut out, chart, &frame, &field);
        push_names(&mut out, chart, &frame, &field);
        below = field.y(0.0) + 2.0 * LINE + 4.0;
        out.push_str(&text((field.x(1.0), below), "end", "12", &cut(&chart.x().title(units), 70)));
        below += 1.5 * LINE;
        if let Some(shortfall) = frame.shortfall() {
            below = push_lines(&mut out, &shortfall, below, "12");
        }
    } else {
        below = push_lines(&mut out, "none", below, "12");
    }
    if let Some(remark) = &chart.remark {
        below = push_lines(&mut out, remark, below, "12");
    }
    (out, below)
}

#[expect(clippy::cast_precision_loss, reason = "counts of what is drawn are small")]
fn length(count: usize) -> f64 {
    count as f64
}

/// One line of text.
fn text((x, y): Place, anchor: &str, size: &str, words: &str) -> String {
    let (x, y, words) = (to_tenth(x), to_tenth(y), xml(words));
    format!("<text x=\"{x}\" y=\"{y}\" text-anchor=\"{anchor}\" font-size=\"{size}\">{words}</text>\n")
}

/// Text over as many lines as it takes; gives the height of the line after it.
fn push_lines(out: &mut String, words: &str, from: f64, size: &str) -> f64 {
    let mut wrapped = String::new();
    push_wrapped(&mut wrapped, "", &plain(words), FULL_LINE);
    let mut below = from;
    for line in wrapped.lines() {
        out.push_str(&text((EDGE, below), "start", size, &cut(line, FULL_LINE)));
        below += LINE;
    }
    below
}

fn straight(from: Place, to: Place, look: &str) -> String {
    let [x1, y1, x2, y2] = [from.0, from.1, to.0, to.1].map(to_tenth);
    format!("<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\" {look}/>\n")
}

/// Hairlines with their numbers, the two axes darker.
fn push_grid(out: &mut String, frame: &Frame, field: &Field) {
    const HAIR: &str = "stroke=\"#d8dadd\" stroke-width=\"0.7\"";
    const AXIS: &str = "stroke=\"#222222\" stroke-width=\"1\"";
    for tick in &frame.y.ticks {
        let y = field.y(tick.at);
        out.push_str(&straight((field.x(0.0), y), (field.x(1.0), y), HAIR));
        out.push_str(&text((field.x(0.0) - 6.0, y + 4.0), "end", "12", &tick.label));
    }
    for tick in &frame.x.ticks {
        let x = field.x(tick.at);
        out.push_str(&straight((x, field.y(0.0)), (x, field.y(1.0)), HAIR));
        out.push_str(&text((x, field.y(0.0) + LINE), "middle", "12", &tick.label));
    }
    out.push_str(&straight(field.place((0.0, 0.0)), field.place((1.0, 0.0)), AXIS));
    out.push_str(&straight(field.place((0.0, 0.0)), field.place((0.0, 1.0)), AXIS));
}

/// Marks from foot to name, each name on a line of its own above the field.
fn push_marks(out: &mut String, frame: &Frame, field: &Field) {
    for (index, mark) in frame.marks.iter().enumerate() {
        let (x, y) = (field.x(mark.at), field.top - 8.0 - LINE * length(index));
        let look = "stroke=\"#222222\" stroke-width=\"1\" stroke-dasharray=\"1 3\"";
        out.push_str(&straight((x, field.y(0.0)), (x, y - 9.0), look));
        let (anchor, aside) = if mark.at < 0.5 { ("start", 4.0) } else { ("end", -4.0) };
        out.push_str(&text((x + aside, y), anchor, "12", &cut(&mark.text, MARK)));
    }
}

fn push_series(out: &mut String, chart: &Chart, frame: &Frame, field: &Field) {
    let series = chart.series().iter().zip(&frame.runs).enumerate();
    // The first lies on top, as in text.
    for (index, (series, runs)) in series.collect::<Vec<_>>().into_iter().rev() {
        let style = Style::of_series(index);
        let _ = write!(out, "<g>\n<title>{}</title>\n", xml(&series.name));
        for run in runs {
            let places: Vec<_> =
                corners(series.shape, run).into_iter().map(|place| field.place(place)).collect();
            if series.shape == Shape::Points || places.len() == 1 {
                out.extend(places.into_iter().map(|place| style.point(place)));
            } else {
                out.push_str(&style.line(&places));
            }
        }
        out.push_str("</g>\n");
    }
}

/// Names of the series at the right, each with a piece of its line and near where it ends.
fn push_names(out: &mut String, chart: &Chart, frame: &Frame, field: &Field) {
    let end = |runs: &Vec<Vec<Place>>| runs.last().and_then(|run| run.last()).map_or(0.0, |place| place.1);
    let mut names: Vec<(f64, usize, &Series)> = chart
        .series()
        .iter()
        .zip(&frame.runs)
        .enumerate()
        .map(|(index, (series, runs))| (field.y(end(runs)), index, series))
        .collect();
    names.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let mut least = field.top;
    for name in &mut names {
        name.0 = name.0.max(least);
        least = name.0 + LINE;
    }
    let mut most = field.y(0.0);
    for name in names.iter_mut().rev() {
        name.0 = name.0.min(most);
        most = name.0 - LINE;
    }
    let left = field.x(1.0) + 10.0;
    for (y, index, series) in names {
        let style = Style::of_series(index);
        out.push_str(&match series.shape {
            Shape::Points => style.point((left + 14.0, y)),
            Shape::Line | Shape::Steps => style.line(&[(left, y), (left + 28.0, y)]),
        });
        let none = if frame.runs[index].is_empty() { ": none" } else { "" };
        let name = format!("{}{none}", cut(&series.name, NAME));
        out.push_str(&text((left + 34.0, y + 4.0), "start", "12", &name));
    }
}

#[cfg(test)]
mod tests {
    use super::{NoCharts, write_svg};
    use crate::quantity::{Length, Money, System, Units};
    use crate::report::{Axis, Chart, Column, Document, Notes, Series, Shape};

    fn sample() -> Document {
        let pieces = Axis::log(Column::count("pieces", "Pieces", "pieces"));
        let cost = Axis::linear(Column::quantity::<Money>("cost", "Cost"));
        let mut chart = Chart::new("costs", "Cost & \"care\"", pieces, cost).remark("the <demo>");
        for (name, shape) in
            [("lathe <script>", Shape::Line), ("held", Shape::Steps), ("seen", Shape::Points)]
        {
            let mut series = Series::new(name, shape);
            for pieces in [0_u32, 1, 10, 100, 1000] {
                series.point(pieces, Money::of(2.0 + 100.0 / f64::from(pieces + 9)));
            }
            chart.add_series(series);
        }
        chart.add_series(Series::new("later", Shape::Line));
        chart.add_mark("change\u{1b}]", 44_u32);
        let length = Axis::linear(Column::quantity::<Length>("wear", "Wear"));
        let mut wear = Chart::new("wear", "Wear", length.clone(), length.clone());
        let mut edge = Series::new("edge", Shape::Line);
        edge.point(Length::inch(0.0), Length::inch(0.0));
        edge.point(Length::inch(10.0), Length::inch(1.0));
        wear.add_series(edge);
        let mut document = Document::new("Quote <1>");
        document.push(Notes::new("cautions", "Cautions", vec!["not drawn".into()]));
        document.push(chart);
        document.push(wear);
        document.push(Chart::new("empty", "Empty", length.clone(), length));
        document
    }

    fn units(system: System) -> Units {
        Units { system, currency: "EUR".into() }
    }

    /// Names of the elements in the order of their start; every one is closed, and no text has markup of its own.
    fn elements(svg: &str) -> Vec<String> {
        let body = svg.strip_prefix("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n").unwrap();
        let (mut open, mut seen) = (Vec::new(), Vec::new());
        for part in body.split('<').skip(1) {
            let (tag, text) = part.split_once('>').unwrap();
            assert!(!text.contains('>') && !text.chars().any(|sign| sign != '\n' && sign.is_control()));
            for entity in text.split('&').skip(1) {
                let name = entity.split(';').next().unwrap();
                assert!(["amp", "lt", "gt", "quot", "#39"].contains(&name), "&{name}");
            }
            assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
            if let Some(name) = tag.strip_prefix('/') {
                assert_eq!(open.pop().as_deref(), Some(name));
            } else {
                let name = tag.split([' ', '/']).next().unwrap().to_owned();
                if !tag.ends_with('/') {
                    open.push(name.clone());
                }
                seen.push(name);
            }
        }
        assert!(open.is_empty(), "{open:?}");
        seen
    }

    #[test]
    fn the_drawing_is_well_formed_and_safe() {
        let svg = write_svg(&sample(), &units(System::Metric)).unwrap();
        let elements = elements(&svg);
        assert_eq!(elements[..4], ["svg", "title", "desc", "rect"]);
        let count = |name: &str| elements.iter().filter(|element| *element == name).count();
        // Two lines of the first chart and one of the second, and a piece beside each of four names.
        assert_eq!((count("polyline"), count("path"), count("script")), (7, 5, 0));
        for part in
            ["Quote &lt;1&gt;", "Cost &amp; &quot;care&quot;", "lathe &lt;script&gt;", "the &lt;demo&gt;"]
        {
            assert!(svg.contains(part), "{part}");
        }
        assert!(svg.contains(">change\\u{1b}]: 44 pieces</text>"), "{svg}");
        assert!(svg.contains(">later: none</text>") && svg.contains(">none</text>"), "{svg}");
        assert!(svg.contains(">3 points have no place on these axes</text>"), "{svg}");
        assert!(!svg.contains("NaN") && !svg.contains("inf") && svg.matches("http").count() == 1);
    }

    #[test]
    fn the_same_document_gives_the_same_bytes_and_inches_other_ones() {
        let metric = write_svg(&sample(), &units(System::Metric)).unwrap();
        assert_eq!(metric, write_svg(&sample(), &units(System::Metric)).unwrap());
        let inch = write_svg(&sample(), &units(System::Inch)).unwrap();
        assert!(metric.contains(">Wear, mm</text>") && metric.contains(">250</text>"), "{metric}");
        assert!(inch.contains(">Wear, in</text>") && !inch.contains(">250</text>"), "{inch}");
    }

    #[test]
    fn all_lines_are_on_the_paper() {
        let svg = write_svg(&sample(), &units(System::Metric)).unwrap();
        for points in svg.split("points=\"").skip(1).map(|rest| rest.split('"').next().unwrap()) {
            for place in points.split(' ') {
                let (x, y) = place.split_once(',').unwrap();
                let (x, y): (f64, f64) = (x.parse().unwrap(), y.parse().unwrap());
                assert!((0.0..=super::WIDTH).contains(&x) && (0.0..=400.0).contains(&y), "{place}");
            }
        }
    }

    #[test]
    fn without_charts_there_is_no_drawing() {
        assert_eq!(write_svg(&Document::new("Plan"), &Units::default()), Err(NoCharts));
    }
}
