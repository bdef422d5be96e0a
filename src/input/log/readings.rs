//! Wear readings: how far an edge was worn after each time in cut.

use super::head::{Column, Layout};
use super::rows::{Fields, Notation, read_rows};
use super::setting::{COOLANT, DEPTH, FEED, MACHINE, MATERIAL, ReadSetting, SPEED, Setting, TOOL};
use crate::diag::{Code, Diagnostic, Diagnostics, FileId, Span};
use crate::input::read::{self, Bounds, quantity, short};
use crate::quantity::{Duration, Length, Quantity};
use std::collections::BTreeMap;

/// One look at an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WearReading {
    /// Time in cut until then.
    pub time: Duration,
    /// Width of the wear land.
    pub wear: Length,
    /// Line of the log.
    pub line: u32,
    /// The row.
    pub span: Span,
}

/// All looks at one edge, by time.
#[derive(Debug, Clone, PartialEq)]
pub struct WearTest {
    /// Name of the edge or test.
    pub edge: String,
    /// How it was used.
    pub setting: Setting,
    /// Its readings, by time.
    pub readings: Vec<WearReading>,
}

pub(super) const LAYOUT: Layout = Layout {
    what: "log of wear readings",
    columns: &[
        Column { name: "edge", kinds: &[] },
        Column { name: "time", kinds: &[Duration::KIND] },
        Column { name: "wear", kinds: &[Length::KIND] },
        SPEED,
        FEED,
        DEPTH,
        TOOL,
        MATERIAL,
        COOLANT,
        MACHINE,
    ],
    needed: &[&["edge"], &["time"], &["wear"]],
};

struct Line {
    edge: String,
    setting: ReadSetting,
    reading: WearReading,
}

/// Reads the wear tests of a log, in the order of their first rows.
pub(super) fn readings(
    text: (FileId, &str),
    diagnostics: &mut Diagnostics,
) -> (Option<Vec<WearTest>>, Notation) {
    let mut tests = Tests::default();
    let (whole, notation) = read_rows(text, &LAYOUT, diagnostics, |fields| {
        let line = line(fields)?;
        tests.take(line, fields.diagnostics());
        Some(())
    });
    let tests = tests.by_time(diagnostics);
    (whole.map(|_| tests).filter(|_| !diagnostics.has_errors()), notation)
}

fn line(fields: &mut Fields<'_, '_>) -> Option<Line> {
    for name in ["edge", "time", "wear"] {
        fields.require(name);
    }
    let edge = fields.text("edge", read::text);
    let time = fields.quantity("time", quantity(Bounds::NotNegative));
    let wear = fields.quantity("wear", quantity(Bounds::NotNegative));
    let setting = ReadSetting::new(fields);
    let (time, wear) = (time?.value, wear?.value);
    let reading = WearReading { time, wear, line: fields.line(), span: fields.span() };
    Some(Line { edge: edge?.value, setting, reading })
}

/// Edges in the order of their first rows.
#[derive(Default)]
struct Tests {
    places: BTreeMap<String, usize>,
    edges: Vec<(String, ReadSetting, Vec<WearReading>)>,
}

impl Tests {
    fn take(&mut self, line: Line, diagnostics: &mut Diagnostics) {
        let Line { edge, setting, reading } = line;
        match self.places.get(&edge).and_then(|place| self.edges.get_mut(*place)) {
            Some((name, known, readings)) => {
                known.join(setting, name, diagnostics);
                readings.push(reading);
            }
            None => {
                self.places.insert(edge.clone(), self.edges.len());
                self.edges.push((edge, setting, vec![reading]));
            }
        }
    }

    fn by_time(self, diagnostics: &mut Diagnostics) -> Vec<WearTest> {
        let mut tests = Vec::new();
        for (edge, setting, mut readings) in self.edges {
            readings.sort_by(|a, b| a.time.total_cmp(&b.time));
            for pair in readings.windows(2).filter(|pair| pair[0].time == pair[1].time) {
                let message = format!("edge `{}` is read twice at the same time in cut", short(&edge));
                diagnostics.push(
                    Diagnostic::new(Code::GivenTwice, message)
                        .at(pair[1].span, "here again")
                        .also(pair[0].span, "first here"),
                );
            }
            tests.push(WearTest { edge, setting: setting.setting(), readings });
        }
        tests
    }
}
