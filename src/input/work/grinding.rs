//! Grinding.

use super::super::read::{self, Bounds};
use super::super::tree::Table;
use super::super::{Fields, Spanned};
use super::{diameters, length, length_or};
use crate::cycle::{CentrelessWork, GrindingWork, PlungeStage, Side, TraverseStage};
use crate::diag::{Code, Diagnostic};
use crate::quantity::{Angle, CuttingSpeed, Duration, FeedPerRev, FeedRate, Length, Range, SpindleSpeed};

/// Keys of this family.
pub(super) const KINDS: [&str; 2] = ["grind", "centreless"];

/// How the wheel meets the work.
#[derive(Clone, Copy)]
enum Method {
    Plunge,
    Traverse,
}

const METHODS: [(&str, Method); 2] = [("plunge", Method::Plunge), ("traverse", Method::Traverse)];

/// Sum of the stages against the stock: a slip of the pen is larger.
const SLACK: f64 = 1e-6;

pub(super) fn work(kind: &str, fields: &mut Fields<'_, '_>) -> Option<GrindingWork> {
    if kind == "centreless" {
        return centreless(fields).map(GrindingWork::Centreless);
    }
    let method = fields.required("method", read::choice(&METHODS));
    let side = side(fields);
    let diameters = diameters(fields, side);
    let work_speed = fields.required("work_speed", read::quantity::<CuttingSpeed>(Bounds::Positive));
    let stages = fields.required("stages", read::list(read::table));
    match method?.value {
        Method::Plunge => {
            let width = length(fields, "width");
            let spark_out = fields.optional("spark_out", read::quantity::<Duration>(Bounds::NotNegative));
            let stages = stages?;
            let read = each(&stages, fields, plunge_stage)?;
            let diameters = diameters?;
            whole(diameters, read.iter().map(|stage| stage.stock).sum(), &stages, fields)?;
            Some(GrindingWork::Plunge {
                diameters,
                width: width?,
                work_speed: work_speed?.value,
                stages: read,
                spark_out: spark_out.map_or(Duration::ZERO, |time| time.value),
            })
        }
        Method::Traverse => {
            let along = length(fields, "length");
            let still = fields.optional("spark_out_passes", read::count_or_zero);
            let overrun = length_or(fields, "overrun", Length::ZERO);
            let stages = stages?;
            let read = each(&stages, fields, traverse_stage)?;
            let diameters = diameters?;
            whole(diameters, read.iter().map(|stage| stage.stock).sum(), &stages, fields)?;
            Some(GrindingWork::Traverse {
                diameters,
                length: along?,
                work_speed: work_speed?.value,
                stages: read,
                spark_out_passes: still.map_or(0, |passes| passes.value),
                overrun,
            })
        }
    }
}

/// Inside, where the diameter grows.
fn side(fields: &Fields<'_, '_>) -> Side {
    let peek = |key| fields.peek(key, read::quantity::<Length>(Bounds::NotNegative));
    match (peek("from"), peek("to")) {
        (Some(from), Some(to)) if from < to => Side::Inside,
        _ => Side::Outside,
    }
}

fn each<T>(
    stages: &Spanned<Vec<Spanned<&Table>>>,
    fields: &mut Fields<'_, '_>,
    read: impl Fn(&mut Fields<'_, '_>) -> Option<T>,
) -> Option<Vec<T>> {
    let mut made = Vec::new();
    for stage in &stages.value {
        let mut inner = Fields::new(stage.value, "stage", fields.diagnostics());
        let stage = read(&mut inner);
        inner.finish();
        made.push(stage);
    }
    made.into_iter().collect()
}

fn plunge_stage(fields: &mut Fields<'_, '_>) -> Option<PlungeStage> {
    let stock = length(fields, "stock");
    let infeed = fields.required("infeed", read::quantity::<FeedRate>(Bounds::Positive));
    Some(PlungeStage { stock: stock?, infeed: infeed?.value })
}

fn traverse_stage(fields: &mut Fields<'_, '_>) -> Option<TraverseStage> {
    let stock = length(fields, "stock");
    let infeed = length(fields, "infeed_per_pass");
    let traverse = fields.required("traverse", read::quantity::<FeedPerRev>(Bounds::Positive));
    Some(TraverseStage { stock: stock?, infeed: infeed?, traverse: traverse?.value })
}

/// The stages must take off the stock, no more and no less.
fn whole(
    diameters: Range<Length>,
    sum: Length,
    stages: &Spanned<Vec<Spanned<&Table>>>,
    fields: &mut Fields<'_, '_>,
) -> Option<()> {
    let stock = ((diameters.high - diameters.low) / 2.0).to_mm();
    if (sum.to_mm() - stock).abs() <= SLACK {
        return Some(());
    }
    fields.diagnostics().push(
        Diagnostic::new(
            Code::Geometry,
            format!("these stages take off {:.4} mm of {stock:.4} mm", sum.to_mm()),
        )
        .at(stages.span, "expected the stock between `from` and `to`")
        .help("`stock` is on the radius: half the difference of the diameters"),
    );
    None
}

fn centreless(fields: &mut Fields<'_, '_>) -> Option<CentrelessWork> {
    let diameter = length(fields, "diameter");
    let along = length(fields, "length");
    let stock = fields.required("stock", read::quantity::<Length>(Bounds::Positive));
    let regulating_diameter = length(fields, "regulating_diameter");
    let speed = fields.required("regulating_speed", read::quantity::<SpindleSpeed>(Bounds::Positive));
    let tilt = fields.required("regulating_angle", read::quantity::<Angle>(Bounds::Positive));
    let gap = length_or(fields, "gap", Length::ZERO);
    let passes = fields.optional("passes", read::count).map_or(1, |passes| passes.value);
    let (diameter, stock, tilt) = (diameter?, stock?, tilt?);
    if stock.value * 2.0 >= diameter {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "this stock leaves nothing of the piece")
                .at(stock.span, "expected less than half of `diameter`")
                .help("`stock` is on the radius"),
        );
        return None;
    }
    if tilt.value > Angle::deg(45.0) {
        fields.diagnostics().push(
            Diagnostic::new(Code::Geometry, "no regulating wheel is tilted so far")
                .at(tilt.span, "expected at most 45 deg; usual are 1 to 6 deg"),
        );
        return None;
    }
    Some(CentrelessWork {
        diameter,
        length: along?,
        stock: stock.value,
        regulating_diameter: regulating_diameter?,
        regulating_speed: speed?.value,
        regulating_angle: tilt.value,
        gap,
        passes,
    })
}
