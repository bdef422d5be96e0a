//! Outlines of steps: `profile = { from = "40 mm", steps = [ { diameter = "20 mm", length = "30 mm" } ] }`.

use super::super::Fields;
use super::super::read::{self, Bounds};
use super::super::tree::Table;
use super::turning::finish;
use super::{APPROACH, length, length_or};
use crate::cutting::turning::ProfileStep;
use crate::cycle::TurningWork;
use crate::diag::{Code, Diagnostic, Diagnostics, Span};
use crate::quantity::Length;

pub(super) fn profile(fields: &mut Fields<'_, '_>) -> Option<TurningWork> {
    let stock = length(fields, "from");
    let list = fields.required("steps", read::list(read::table));
    let approach = length_or(fields, "approach", APPROACH);
    let finish = finish(fields);
    let (stock, list) = (stock?, list?);
    let tables = list.value.iter().map(|table| table.value);
    let steps: Option<Vec<_>> = tables.map(|table| step(table, stock, fields.diagnostics())).collect();
    let steps = steps?;
    if steps.iter().any(|step| step.diameter < stock || step.end < stock) {
        return Some(TurningWork::Profile { stock, steps, approach, finish });
    }
    fields.diagnostics().push(
        Diagnostic::new(Code::Geometry, "these steps leave nothing to cut")
            .at(list.span, "expected a step smaller than `from`")
            .help("`from` is the diameter of the stock; `steps` run from the free end inwards"),
    );
    None
}

fn step(table: &Table, stock: Length, diagnostics: &mut Diagnostics) -> Option<ProfileStep> {
    let mut fields = Fields::new(table, "step", diagnostics);
    let positive = read::quantity::<Length>(Bounds::Positive);
    let diameter = fields.required("diameter", &positive);
    let end = fields.optional("end", &positive);
    let length = fields.required("length", &positive);
    fields.finish();
    let (diameter, length) = (diameter?, length?);
    for size in [Some(&diameter), end.as_ref()].into_iter().flatten() {
        in_stock(size.value, size.span, stock, diagnostics)?;
    }
    let end = end.map_or(diameter.value, |end| end.value);
    Some(ProfileStep { diameter: diameter.value, end, length: length.value })
}

fn in_stock(size: Length, span: Span, stock: Length, diagnostics: &mut Diagnostics) -> Option<()> {
    if size <= stock {
        return Some(());
    }
    diagnostics.push(
        Diagnostic::new(Code::Geometry, "this step is larger than the stock")
            .at(span, "expected at most `from`")
            .help("`from` is the diameter of the stock"),
    );
    None
}
