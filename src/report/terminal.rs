//! A document as text to be read: rules and white space, numbers to the right, units under the headings.

use super::column::Shown;
use super::escape::{cut, plain, text_width};
use super::number::fixed;
use super::plot::push_chart;
use super::{Cell, Column, Document, Holds, Notes, Section, Table};
use crate::quantity::Units;
use comfy_table::{
    CellAlignment, ColumnConstraint, ContentArrangement, ContentLineStyle, LineStyle, TableStyle, Width,
};

/// Names up to so many columns are never broken.
const NAME_AT_MOST: u16 = 24;

/// Columns a text in a table may take up.
const TEXT_LIMIT: usize = 60;
/// Columns below which a column of words is not squeezed.
const WORDS_AT_LEAST: u16 = 12;
/// Blocks of a full bar.
const BLOCKS: u8 = 10;
/// Columns of white space between columns of a table.
const GAP: u16 = 2;

/// Writes a document as text for a terminal so many columns wide.
///
/// Columns of words wrap to keep a table within the width; numbers are never broken, so a table of many numbers
/// may be wider.
#[must_use]
pub fn write_text(document: &Document, units: &Units, width: usize) -> String {
    let mut out = String::new();
    if document.files().next().is_none() {
        let title = plain(&document.title);
        push_wrapped(&mut out, "", &title, width);
        out.push_str(&"═".repeat(text_width(&title).min(width)));
        out.push('\n');
    }
    for section in &document.sections {
        match section {
            Section::Table(table) if table.faces.in_text() => push_table(&mut out, table, units, width),
            Section::Chart(chart) => push_chart(&mut out, chart, units, width),
            Section::Notes(notes) if !notes.lines.is_empty() => push_notes(&mut out, notes, width),
            Section::File(file) => {
                for line in &file.lines {
                    out.push_str(&plain(line));
                    out.push('\n');
                }
            }
            Section::Table(_) | Section::Notes(_) => {}
        }
    }
    out
}

fn push_notes(out: &mut String, notes: &Notes, width: usize) {
    out.push('\n');
    push_wrapped(out, "", &plain(&notes.heading), width);
    for line in &notes.lines {
        push_wrapped(out, "· ", &plain(line), width);
    }
}

fn push_table(out: &mut String, table: &Table, units: &Units, width: usize) {
    out.push('\n');
    push_wrapped(out, "", &plain(&table.heading), width);
    if table.rows().is_empty() {
        out.push_str("none\n");
    } else {
        let grid = grid(table, units, width);
        out.push_str(&"─".repeat(grid.lines().map(text_width).max().unwrap_or(0)));
        out.push('\n');
        out.push_str(&grid);
        out.push('\n');
    }
    if let Some(remark) = &table.remark {
        push_wrapped(out, "", &plain(remark), width);
    }
}

fn grid(table: &Table, units: &Units, width: usize) -> String {
    let style = TableStyle::new()
        .header_lines(ContentLineStyle::none())
        .header_separator(LineStyle::none().fill('╌'))
        .content_lines(ContentLineStyle::none());
    let mut grid = comfy_table::Table::new();
    grid.load_style(style)
        .set_content_arrangement(ContentArrangement::Dynamic)
        .set_width(u16::try_from(width).unwrap_or(u16::MAX))
        .set_header(table.columns().iter().map(|column| head(column, units)));
    for row in table.rows() {
        grid.add_row(row.iter().zip(table.columns()).map(|(cell, column)| entry(cell, column, units)));
    }
    let widths = grid.column_max_content_widths();
    for (index, column) in table.columns().iter().enumerate() {
        let last = index + 1 == table.columns().len();
        let words = matches!(column.holds(), Holds::Text | Holds::Prose);
        if let Some(shown) = grid.column_mut(index) {
            shown.set_padding((0, if last { 0 } else { GAP }));
            shown.set_cell_alignment(if column.reads() { CellAlignment::Left } else { CellAlignment::Right });
            let name = column.holds() == Holds::Text && widths[index] <= NAME_AT_MOST + GAP;
            shown.set_constraint(if words && !name {
                ColumnConstraint::LowerBoundary(Width::Fixed(widths[index].min(WORDS_AT_LEAST)))
            } else {
                ColumnConstraint::ContentWidth
            });
        }
    }
    grid.trim_fmt()
}

/// Heading of a column with the unit on its second line.
fn head(column: &Column, units: &Units) -> String {
    let (heading, unit) = (cut(column.heading(), TEXT_LIMIT), cut(&column.unit_text(units), TEXT_LIMIT));
    // A heading that ends in its unit says it once.
    if unit.is_empty() || heading.ends_with(&unit) { heading } else { format!("{heading}\n{unit}") }
}

fn entry(cell: &Cell, column: &Column, units: &Units) -> String {
    match column.shown(cell, units) {
        Shown::Missing => "–".to_owned(),
        Shown::Text(text) if column.holds() == Holds::Prose => plain(text),
        Shown::Text(text) => cut(text, TEXT_LIMIT),
        Shown::Whole(count) => count.to_string(),
        Shown::Real(percent, decimals) if column.holds() == Holds::Bar => {
            format!("{} {:>5}", bar(percent), fixed(percent, decimals))
        }
        Shown::Real(value, decimals) => fixed(value, decimals),
    }
}

/// A bar of blocks. It is empty only at nothing and full only at the whole; a plus marks more than the whole.
fn bar(percent: f64) -> String {
    let reached = |block: &u8| percent >= 100.0 * (f64::from(*block) - 0.5) / f64::from(BLOCKS);
    let part = (1..BLOCKS).filter(reached).count().max(usize::from(percent > 0.0));
    let full = part + usize::from(percent >= 99.95);
    let over = if percent >= 100.05 { '+' } else { ' ' };
    format!("{}{}{over}", "█".repeat(full), "░".repeat(usize::from(BLOCKS) - full))
}

/// Adds a text in lines of the width at most, broken at blanks, with a mark before the first.
pub(super) fn push_wrapped(out: &mut String, mark: &str, text: &str, width: usize) {
    let indent = text_width(mark);
    out.push_str(mark);
    let mut used = indent;
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let wide = text_width(word);
        if used > indent && used + 1 + wide > width {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            used = indent;
        }
        if used > indent {
            out.push(' ');
            used += 1;
        }
        out.push_str(word);
        used += wide;
    }
    out.push('\n');
}

#[cfg(test)]
mod tests {
    use super::{bar, text_width, write_text};
    use crate::quantity::{CuttingSpeed, Duration, Units};
    use crate::report::{Cell, Column, Document, Faces, Holds, Notes, Table};

    fn sample() -> Document {
        let mut table = Table::new("cuts", "Cutting data")
            .column(Column::text("cut", "Cut"))
            .column(Column::quantity::<CuttingSpeed>("speed", "v_c"))
            .column(Column::quantity::<Duration>("life", "Life").in_unit("min"))
            .column(Column::new("load", "Load", Holds::Bar));
        table.row(vec![
            "face".into(),
            CuttingSpeed::m_per_min(180.0).into(),
            Duration::min(15.0).into(),
            Cell::share(0.724),
        ]);
        table.row(vec!["bore\u{1b}[2J".into(), Cell::Missing, Cell::Missing, Cell::Missing]);
        let mut document = Document::new("Plan");
        document.push(table);
        document.push(Table::new("raw", "Raw").faces(Faces::DataOnly));
        document.push(Notes::new("cautions", "Cautions", vec!["speed is above the range of the law".into()]));
        document
    }

    #[test]
    fn a_report_is_rules_and_white_space() {
        let expected = "\
Plan
════

Cutting data
─────────────────────────────────────────────
Cut              v_c  Life               Load
               m/min   min                  %
╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌╌
face           180.0  15.0  ███████░░░   72.4
bore\\u{1b}[2J      –     –                  –

Cautions
· speed is above the range of the law
";
        assert_eq!(write_text(&sample(), &Units::default(), 80), expected);
    }

    #[test]
    fn prose_wraps_and_names_and_numbers_do_not() {
        let mut table = Table::new("cuts", "Cuts")
            .column(Column::prose("cut", "Cut"))
            .column(Column::quantity::<CuttingSpeed>("speed", "v_c"))
            .remark("speeds of the first pass");
        table.row(vec!["rough face then chamfer".into(), CuttingSpeed::m_per_min(180.0).into()]);
        let mut document = Document::new("Plan");
        document.push(table);
        let text = write_text(&document, &Units::default(), 22);
        assert!(text.contains("\nrough face then  180.0\nchamfer\n"), "{text}");
        assert!(text.ends_with("\nspeeds of the first\npass\n"), "{text}");
        assert!(text.lines().all(|line| text_width(line) <= 22), "{text}");
    }

    #[test]
    fn bars_are_honest_at_their_ends() {
        assert_eq!(bar(0.0), "░░░░░░░░░░ ");
        assert_eq!(bar(0.2), "█░░░░░░░░░ ");
        assert_eq!(bar(72.4), "███████░░░ ");
        assert_eq!(bar(99.4), "█████████░ ");
        assert_eq!(bar(100.0), "██████████ ");
        assert_eq!(bar(131.0), "██████████+");
    }
}
