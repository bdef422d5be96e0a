//! A chart: two axes that are columns, series of points over them, marks at single places along the first.

use super::column::Shown;
use super::number::fixed;
use super::{Cell, Column, Table};
use crate::quantity::Units;

/// How numbers lie along an axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Scale {
    /// Equal steps for equal differences.
    #[default]
    Linear,
    /// Equal steps for equal ratios; what is not above zero has no place.
    Log,
}

/// An axis: a column of numbers, which brings key, heading and unit, and the scale they are drawn to.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What is drawn along the axis.
    pub column: Column,
    /// How it is drawn.
    pub scale: Scale,
}

impl Axis {
    /// An axis of equal steps.
    #[must_use]
    pub fn linear(column: Column) -> Self {
        Self { column, scale: Scale::Linear }
    }

    /// An axis of equal ratios.
    #[must_use]
    pub fn log(column: Column) -> Self {
        Self { column, scale: Scale::Log }
    }

    /// Heading with the unit, which is said once: `Cost, EUR`.
    pub(super) fn title(&self, units: &Units) -> String {
        let (heading, unit) = (self.column.heading(), self.column.unit_text(units));
        let said = heading.to_lowercase().ends_with(&unit.to_lowercase());
        if said { heading.to_owned() } else { format!("{heading}, {unit}") }
    }

    /// A cell as a number in the unit of the report, if it is one.
    pub(super) fn number(&self, cell: &Cell, units: &Units) -> Option<f64> {
        match self.column.shown(cell, units) {
            #[expect(clippy::cast_precision_loss, reason = "a place on paper is less exact still")]
            Shown::Whole(count) => Some(count as f64),
            Shown::Real(value, _) => Some(value),
            Shown::Missing | Shown::Text(_) => None,
        }
    }

    /// A cell as words with its unit: `44 pieces`.
    fn words(&self, cell: &Cell, units: &Units) -> String {
        let number = match self.column.shown(cell, units) {
            Shown::Whole(count) => count.to_string(),
            Shown::Real(value, decimals) => fixed(value, decimals),
            Shown::Missing | Shown::Text(_) => return "–".to_owned(),
        };
        format!("{number} {}", self.column.unit_text(units)).trim_end().to_owned()
    }
}

/// How the points of a series are drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Straight from each point to the next.
    Line,
    /// Each point by itself.
    Points,
    /// Level from each point to the place of the next, then straight up or down to it.
    Steps,
}

/// Points that belong together, in the order in which they are joined.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Its name in the legend and in the data.
    pub name: String,
    /// How it is drawn.
    pub shape: Shape,
    /// Places along the two axes.
    pub points: Vec<(Cell, Cell)>,
}

impl Series {
    /// A series without points.
    #[must_use]
    pub fn new(name: impl Into<String>, shape: Shape) -> Self {
        Self { name: name.into(), shape, points: Vec::new() }
    }

    /// Adds a point at the end.
    pub fn point(&mut self, x: impl Into<Cell>, y: impl Into<Cell>) {
        self.points.push((x.into(), y.into()));
    }
}

/// A line across the chart at one place of the first axis, such as a point of change.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Its name in the legend and in the data.
    pub name: String,
    /// Its place along the first axis.
    pub at: Cell,
}

/// A chart. For other programs it is a table of its points.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Name in CSV and JSON: `cost_per_piece`.
    pub key: &'static str,
    /// Heading where it is drawn.
    pub heading: String,
    /// A line under the drawing.
    pub remark: Option<String>,
    x: Axis,
    y: Axis,
    series: Vec<Series>,
    marks: Vec<Mark>,
}

impl Chart {
    /// A chart without series over two axes of numbers; words and times of the calendar make no axis.
    #[must_use]
    pub fn new(key: &'static str, heading: impl Into<String>, x: Axis, y: Axis) -> Self {
        debug_assert!(!x.column.reads() && !y.column.reads(), "an axis of chart `{key}` holds words");
        Self { key, heading: heading.into(), remark: None, x, y, series: Vec::new(), marks: Vec::new() }
    }

    /// With a line under the drawing.
    #[must_use]
    pub fn remark(mut self, remark: impl Into<String>) -> Self {
        self.remark = Some(remark.into());
        self
    }

    /// Adds a series.
    ///
    /// A point that is not of what the axes hold is a mistake of the caller and stops a debug build; a release build
    /// takes it as missing.
    pub fn add_series(&mut self, mut series: Series) {
        for (x, y) in &mut series.points {
            fit(self.key, &self.x, x);
            fit(self.key, &self.y, y);
        }
        self.series.push(series);
    }

    /// Adds a mark; its place is held to the first axis like a point.
    pub fn add_mark(&mut self, name: impl Into<String>, at: impl Into<Cell>) {
        let mut at = at.into();
        fit(self.key, &self.x, &mut at);
        self.marks.push(Mark { name: name.into(), at });
    }

    /// The axis from left to right.
    #[must_use]
    pub fn x(&self) -> &Axis {
        &self.x
    }

    /// The axis from bottom to top.
    #[must_use]
    pub fn y(&self) -> &Axis {
        &self.y
    }

    /// The series in the order in which they were added.
    #[must_use]
    pub fn series(&self) -> &[Series] {
        &self.series
    }

    /// The marks in the order in which they were added.
    #[must_use]
    pub fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// Its points as a table for other programs: `series`, then the two axes with their units.
    ///
    /// A point without a number on both axes is left out; what a log axis cannot show is there. A mark is a row of its
    /// own, its name under `series` and nothing on the second axis, so that only marks lack a number there.
    #[must_use]
    pub fn table(&self) -> Table {
        let units = Units::default();
        let mut table = Table::new(self.key, self.heading.clone())
            .column(Column::text("series", "Series"))
            .column(self.x.column.clone())
            .column(self.y.column.clone());
        for series in &self.series {
            for (x, y) in &series.points {
                if self.x.number(x, &units).is_some() && self.y.number(y, &units).is_some() {
                    table.row(vec![series.name.as_str().into(), x.clone(), y.clone()]);
                }
            }
        }
        for mark in self.marks.iter().filter(|mark| self.x.number(&mark.at, &units).is_some()) {
            table.row(vec![mark.name.as_str().into(), mark.at.clone(), Cell::Missing]);
        }
        table
    }

    /// A mark as words: its name and its place.
    pub(super) fn mark_text(&self, mark: &Mark, units: &Units) -> String {
        format!("{}: {}", mark.name, self.x.words(&mark.at, units))
    }
}

/// Makes a cell missing that an axis does not take.
fn fit(key: &str, axis: &Axis, cell: &mut Cell) {
    let fits = axis.column.takes(cell);
    debug_assert!(fits, "axis `{}` of chart `{key}` does not take {cell:?}", axis.column.key());
    if !fits {
        *cell = Cell::Missing;
    }
}

#[cfg(test)]
mod tests {
    use super::{Axis, Chart, Series, Shape};
    use crate::quantity::{Duration, Length, Money, System, Units};
    use crate::report::{Cell, Column, Document, write_csv, write_json};

    fn costs() -> Chart {
        let pieces = Axis::log(Column::count("pieces", "Pieces", "pieces"));
        let cost = Axis::linear(Column::quantity::<Money>("cost", "Cost"));
        let mut chart = Chart::new("costs", "Cost per piece", pieces, cost);
        let mut lathe = Series::new("lathe", Shape::Line);
        lathe.point(0_u32, Money::of(9.5));
        lathe.point(10_u32, Money::of(f64::INFINITY));
        lathe.point(100_u32, Money::of(2.5));
        lathe.point(Cell::Missing, Money::of(2.0));
        chart.add_series(lathe);
        chart.add_mark("change", 44_u32);
        chart.add_mark("never", Cell::Missing);
        chart
    }

    #[test]
    fn a_chart_is_a_table_for_other_programs() {
        let mut document = Document::new("Quote");
        document.push(costs());
        let units = Units { system: System::Metric, currency: "EUR".into() };
        let expected = "series,pieces,cost_eur\nlathe,0,9.5\nlathe,100,2.5\nchange,44,\n";
        assert_eq!(write_csv(&document, &units, Some("costs")).unwrap(), expected);
        let json: serde_json::Value = serde_json::from_str(&write_json(&document, &units)).unwrap();
        let rows = json["tables"]["costs"].as_array().unwrap();
        assert_eq!(rows.len(), 3);
        assert_eq!(rows[2], serde_json::json!({"series": "change", "pieces": 44, "cost_eur": null}));
        assert_eq!(document.only("costs").unwrap(), document);
        assert_eq!(document.only("cost").unwrap_err().known, ["costs"]);
    }

    #[test]
    fn titles_and_marks_say_their_unit_once_and_in_the_system_of_the_report() {
        let inch = Units { system: System::Inch, currency: "USD".into() };
        let length = Axis::linear(Column::quantity::<Length>("wear", "Wear"));
        assert_eq!(length.title(&Units::default()), "Wear, mm");
        assert_eq!(length.title(&inch), "Wear, in");
        assert_eq!(costs().x().title(&inch), "Pieces");
        assert_eq!(costs().y().title(&inch), "Cost, USD");
        assert_eq!(costs().mark_text(&costs().marks()[0], &inch), "change: 44 pieces");
        assert_eq!(Axis::linear(Column::new("n", "n", crate::report::Holds::Ratio)).title(&inch), "n");
    }

    #[test]
    #[cfg_attr(debug_assertions, should_panic(expected = "axis `cost` of chart `costs` does not take"))]
    fn a_time_is_no_cost() {
        let mut chart = costs();
        let mut late = Series::new("late", Shape::Points);
        late.point(3_u32, Duration::s(5.0));
        chart.add_series(late);
        assert_eq!(chart.series()[1].points[0].1, Cell::Missing);
    }
}
