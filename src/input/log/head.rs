//! The head line: which column holds what, in which unit.

use super::cells::{Cell, Row};
use crate::diag::{Code, Diagnostic, Diagnostics, Span, nearest};
use crate::input::read::short;
use crate::quantity::{Kind, Unit};

/// A column a log may have.
#[derive(Debug)]
pub(super) struct Column {
    /// Its name without unit.
    pub(super) name: &'static str,
    /// What it may measure; empty for texts and counts.
    pub(super) kinds: &'static [&'static Kind],
}

/// The columns of one kind of log.
#[derive(Debug)]
pub(super) struct Layout {
    /// Named in messages: `tool log`.
    pub(super) what: &'static str,
    /// All that are known.
    pub(super) columns: &'static [Column],
    /// Of each group exactly one must be there.
    pub(super) needed: &'static [&'static [&'static str]],
}

/// A column found in the head line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    /// Which of the layout.
    pub(super) name: &'static str,
    /// Its unit, if the head gives it.
    pub(super) unit: Option<&'static Unit>,
    span: Span,
}

/// The head line as understood. `None` are columns that are passed over.
#[derive(Debug)]
pub(super) struct Head {
    columns: Vec<Option<Found>>,
    span: Span,
}

impl Head {
    /// Reads the head line; its mistakes are reported, and what is right in it is kept.
    pub(super) fn new(row: &Row<'_>, layout: &Layout, diagnostics: &mut Diagnostics) -> Self {
        let mut head = Self { columns: Vec::new(), span: row.span };
        let mut strangers = Vec::new();
        for cell in &row.cells[..named_count(row)] {
            let found = layout.find(&cell.text).map(|(column, unit)| Found {
                name: column.name,
                unit,
                span: cell.span,
            });
            match found {
                Some(found) => head.check_twice(found, diagnostics),
                None if is_passed_over(&cell.text) => {}
                None => strangers.push(cell),
            }
            head.columns.push(found);
        }
        let mut missing: Vec<&[&str]> = Vec::new();
        for group in layout.needed {
            let mut given = group.iter().filter_map(|name| head.column(name));
            match (given.next(), given.next()) {
                (None, _) => missing.push(group),
                (Some(first), Some(second)) => diagnostics.push(
                    shape(format!("`{}` and `{}` exclude each other", first.name, second.name), second.span)
                        .also(first.span, "this is given"),
                ),
                (Some(_), None) => {}
            }
        }
        head.report(layout, &strangers, missing, diagnostics);
        head
    }

    fn check_twice(&self, found: Found, diagnostics: &mut Diagnostics) {
        if let Some(first) = self.column(found.name) {
            diagnostics.push(
                shape(format!("column `{}` is given twice", found.name), found.span)
                    .also(first.span, "first here")
                    .help("take one of them out, or call it `x_...`"),
            );
        }
    }

    /// Columns that mean nothing, and those that are not there. A misspelt column near a missing one is one mistake.
    fn report(
        &self,
        layout: &Layout,
        strangers: &[&Cell<'_>],
        mut missing: Vec<&[&'static str]>,
        diagnostics: &mut Diagnostics,
    ) {
        for cell in strangers {
            if cell.text.is_empty() {
                diagnostics.push(
                    shape("a column has no name", cell.span)
                        .help("name it `note` or `x_...` if it is to be passed over"),
                );
                continue;
            }
            let near = |names: &[&str]| {
                let spellings = layout.spellings(names);
                nearest(&cell.text, spellings.iter().map(String::as_str))
            };
            let wanted = match missing.iter().position(|group| near(group).is_some()) {
                Some(at) => near(missing.remove(at)),
                None => near(&layout.columns.iter().map(|column| column.name).collect::<Vec<_>>()),
            };
            let unknown =
                shape(format!("unknown column `{}` in this {}", short(&cell.text), layout.what), cell.span);
            diagnostics.push(unknown.help(match wanted {
                Some(name) => format!("did you mean `{name}`? Known here: {}", layout.list()),
                None => format!("call it `note` or `x_...` to pass it over. Known here: {}", layout.list()),
            }));
        }
        for group in missing {
            let names: Vec<String> = group.iter().map(|name| layout.example(name)).collect();
            let names = names.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(" or ");
            diagnostics.push(
                shape(format!("missing column {names} in this {}", layout.what), self.span)
                    .help(format!("known here: {}", layout.list())),
            );
        }
    }

    /// A column by its name; of two the first.
    pub(super) fn column(&self, name: &str) -> Option<Found> {
        self.columns.iter().flatten().find(|found| found.name == name).copied()
    }

    /// Where it stands in each row.
    pub(super) fn place(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|found| found.is_some_and(|found| found.name == name))
    }

    /// Whether a row has a cell for each column; idle separators at its end do no harm.
    pub(super) fn fits(&self, row: &Row<'_>) -> Result<(), Box<Diagnostic>> {
        let (wanted, found) = (self.columns.len(), row.cells.len());
        let idle = row.cells.get(wanted..).is_some_and(|rest| rest.iter().all(|cell| cell.text.is_empty()));
        if idle {
            return Ok(());
        }
        let message = format!("the row has {found} cells, the head line {wanted}");
        let wrong = shape(message, row.span).also(self.span, "the head line");
        Err(Box::new(wrong.help(if wanted < found {
            "write the decimal sign as a point, or separate the cells by `;`"
        } else {
            "leave a cell empty if nothing is known, but keep its separator"
        })))
    }

    /// The whole line.
    pub(super) fn span(&self) -> Span {
        self.span
    }
}

impl Layout {
    /// The column that a head cell names, `speed` or `speed_m_per_min`.
    fn find(&self, head: &str) -> Option<(&'static Column, Option<&'static Unit>)> {
        self.columns.iter().find_map(|column| {
            let rest = head.strip_prefix(column.name)?;
            if rest.is_empty() {
                return Some((column, None));
            }
            let key = rest.strip_prefix('_')?;
            let unit = units(column).find(|unit| unit_key(unit) == Some(key))?;
            Some((column, Some(unit)))
        })
    }

    /// Every way to write some columns in the head.
    fn spellings(&self, names: &[&str]) -> Vec<String> {
        let columns = self.columns.iter().filter(|column| names.contains(&column.name));
        columns
            .flat_map(|column| {
                let keys = units(column).filter_map(unit_key);
                let with_unit = keys.map(|key| format!("{}_{key}", column.name));
                std::iter::once(column.name.to_owned()).chain(with_unit).collect::<Vec<_>>()
            })
            .collect()
    }

    /// A column as it may be written, with a unit if it has one.
    fn example(&self, name: &str) -> String {
        let column = self.columns.iter().find(|column| column.name == name);
        match column.and_then(|column| units(column).find_map(unit_key)) {
            Some(key) => format!("{name}_{key}"),
            None => name.to_owned(),
        }
    }

    fn list(&self) -> String {
        let names: Vec<String> =
            self.columns.iter().map(|column| format!("`{}`", self.example(column.name))).collect();
        names.join(", ")
    }
}

fn units(column: &Column) -> impl Iterator<Item = &'static Unit> + use<> {
    column.kinds.iter().flat_map(|kind| kind.units)
}

/// The unit at the end of a column's name: its key, or for units without one its symbol where that is a plain word.
fn unit_key(unit: &'static Unit) -> Option<&'static str> {
    let plain = !unit.symbol.is_empty() && unit.symbol.bytes().all(|byte| byte.is_ascii_lowercase());
    if unit.key.is_empty() { plain.then_some(unit.symbol) } else { Some(unit.key) }
}

/// Number of head cells without idle separators at the end.
fn named_count(row: &Row<'_>) -> usize {
    row.cells.iter().rposition(|cell| !cell.text.is_empty()).map_or(0, |last| last + 1)
}

fn is_passed_over(name: &str) -> bool {
    name.starts_with("x_") || name.starts_with("note")
}

fn shape(message: impl Into<String>, span: Span) -> Diagnostic {
    Diagnostic::new(Code::LogShape, message).at(span, "")
}

#[cfg(test)]
mod tests {
    use super::{Column, Head, Layout};
    use crate::diag::{Diagnostics, FileId};
    use crate::input::log::cells::Rows;
    use crate::quantity::{CuttingSpeed, Duration, FeedPerRev, FeedPerTooth, Length, Quantity};

    const LAYOUT: Layout = Layout {
        what: "test log",
        columns: &[
            Column { name: "outcome", kinds: &[] },
            Column { name: "time", kinds: &[Duration::KIND] },
            Column { name: "cut_time", kinds: &[Duration::KIND] },
            Column { name: "speed", kinds: &[CuttingSpeed::KIND] },
            Column { name: "feed", kinds: &[FeedPerRev::KIND, FeedPerTooth::KIND] },
            Column { name: "wear", kinds: &[Length::KIND] },
        ],
        needed: &[&["outcome"], &["time", "cut_time"], &["speed"]],
    };

    fn head(text: &str) -> (Head, Vec<String>) {
        let mut diagnostics = Diagnostics::default();
        let row = Rows::new(FileId(0), text).next().unwrap().unwrap();
        let head = Head::new(&row, &LAYOUT, &mut diagnostics);
        let said = |d: &crate::diag::Diagnostic| {
            format!("{} | {}", d.message, d.help.as_deref().unwrap_or_default())
        };
        (head, diagnostics.sorted().into_iter().map(said).collect())
    }

    #[test]
    fn every_unit_may_end_a_name() {
        for unit in ["m_per_min", "ft_per_min", "sfm", "fpm"] {
            let (head, said) =
                head(&format!("outcome,time_h,speed_{unit},x_1,notes,feed_mm_per_tooth,wear_um,"));
            assert!(said.is_empty(), "{said:?}");
            assert_eq!((head.place("speed"), head.place("wear")), (Some(2), Some(6)));
            assert_eq!(head.column("wear").unwrap().unit.unwrap().symbol, "um");
            assert_eq!(head.column("feed").unwrap().unit.unwrap().symbol, "mm/tooth");
        }
        let (bare, said) = head("speed,time,outcome");
        assert!(said.is_empty() && bare.column("speed").unwrap().unit.is_none());
    }

    #[test]
    fn a_misspelt_column_is_one_mistake() {
        let (_, said) = head("outcme,time_min,speed_m_min");
        assert_eq!(said.len(), 2, "{said:?}");
        assert!(said[0].contains("did you mean `outcome`? Known here: `outcome`, `time_s`"), "{said:?}");
        assert!(said[1].contains("did you mean `speed_m_per_min`?"), "{said:?}");
        let (_, said) = head("outcome,time_min,quality,,wear_mm");
        assert_eq!(said.len(), 3, "{said:?}");
        assert!(said[0].starts_with("missing column `speed_m_per_min`"), "{said:?}");
        assert!(said[1].contains("call it `note` or `x_...`") && said[2].starts_with("a column has no name"));
    }

    #[test]
    fn twice_or_two_ways() {
        let (_, said) = head("outcome,speed_sfm,speed_m_per_min,time_s,cut_time_s");
        assert_eq!(said.len(), 2, "{said:?}");
        assert!(said[0].starts_with("column `speed` is given twice"), "{said:?}");
        assert!(said[1].starts_with("`time` and `cut_time` exclude each other"), "{said:?}");
    }
}
