//! `code`: what does this error code mean, and what would be right?

use super::failure::{Answer, Failure};
use crate::diag::Code;
use crate::report::{Column, Document, Notes, Table};

/// All codes, or the explanation of one.
///
/// # Errors
/// [`Failure::Usage`] for a code that does not exist.
pub fn code(wanted: Option<&str>) -> Result<Answer, Failure> {
    let document = match wanted {
        None => all(),
        Some(text) => one(text.parse().map_err(|error| Failure::Usage(format!("{error}")))?),
    };
    Ok(Answer::plain(document))
}

fn all() -> Document {
    let mut table = Table::new("codes", "Codes of mistakes (E) and warnings (W)")
        .column(Column::text("code", "code"))
        .column(Column::text("title", "says"));
    for code in Code::all() {
        table.row(vec![code.as_str().into(), code.title().into()]);
    }
    let mut document = Document::new("Codes");
    document.push(table);
    document
}

fn one(code: Code) -> Document {
    let explanation = code.explanation();
    let mut document = Document::new(format!("{}: {}", code.as_str(), explanation.title));
    let lines = |text: &str| text.lines().map(str::to_owned).collect::<Vec<_>>();
    document.push(Notes::new("what", "What", lines(explanation.what)));
    document.push(Notes::new("why", "Why", lines(explanation.why)));
    document.push(Notes::new("wrong", "Wrong", lines(explanation.wrong)));
    document.push(Notes::new("right", "Right", lines(explanation.right)));
    document
}
