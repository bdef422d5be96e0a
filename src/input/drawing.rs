//! What a drawing shows of a turned part: `[part.NAME.drawing]`.

use super::read::{self, Bounds};
use super::tree::Table;
use super::work::pitch;
use super::{Fields, Spanned};
use crate::cycle::{
    Asked, Drawing, DrawnBore, DrawnGroove, DrawnHole, DrawnStep, DrawnThread, End, Feature, Side,
};
use crate::diag::{Code, Diagnostic, Diagnostics, Severity, Span};
use crate::quantity::{Length, Roughness};

/// Where the features of a drawing are written.
#[derive(Debug, Clone, PartialEq)]
pub struct DrawingPlaces {
    /// The table.
    pub header: Span,
    /// Its steps.
    pub steps: Vec<Span>,
    /// Its bores.
    pub bores: Vec<Span>,
    /// Its threads.
    pub threads: Vec<Span>,
    /// Its grooves.
    pub grooves: Vec<Span>,
    /// Its cross holes.
    pub cross_holes: Vec<Span>,
}

impl DrawingPlaces {
    /// Where a feature is written.
    #[must_use]
    pub fn of(&self, feature: Feature) -> Span {
        let (list, id) = match feature {
            Feature::Ends => return self.header,
            Feature::Step(id) => (&self.steps, id),
            Feature::Bore(id) => (&self.bores, id),
            Feature::Thread(id) => (&self.threads, id),
            Feature::Groove(id) => (&self.grooves, id),
            Feature::CrossHole(id) => (&self.cross_holes, id),
        };
        list.get(id).copied().unwrap_or(self.header)
    }
}

/// Reads a drawing; `length` is that of the part, `stock` the diameter of its bar.
pub(super) fn drawing(
    table: &Spanned<&Table>,
    part: (Option<&Spanned<Length>>, Option<Length>),
    diagnostics: &mut Diagnostics,
) -> Option<(Drawing, DrawingPlaces)> {
    let before = diagnostics.count(Severity::Error);
    let mut fields = Fields::new(table.value, "drawing", diagnostics);
    let header = fields.span();
    let (steps, step_places) = each(&mut fields, ("steps", "step"), step);
    let (bores, bore_places) = each(&mut fields, ("bores", "bore"), bore);
    let (threads, thread_places) = each(&mut fields, ("threads", "thread"), thread);
    let (grooves, groove_places) = each(&mut fields, ("grooves", "groove"), groove);
    let (cross_holes, hole_places) = each(&mut fields, ("cross_holes", "cross hole"), hole);
    if steps.is_empty() && !fields.has("steps") {
        let missing =
            Diagnostic::new(Code::MissingKey, "a drawing needs its `steps`").at(header, "no `steps`");
        fields.diagnostics().push(missing);
    }
    fields.finish();
    let drawing = Drawing { steps, bores, threads, grooves, cross_holes };
    let places = DrawingPlaces {
        header,
        steps: step_places,
        bores: bore_places,
        threads: thread_places,
        grooves: groove_places,
        cross_holes: hole_places,
    };
    if diagnostics.count(Severity::Error) == before {
        outline(&drawing, &places, part, diagnostics);
        inside(&drawing, &places, diagnostics);
    }
    (diagnostics.count(Severity::Error) == before).then_some((drawing, places))
}

/// The features of one kind and their places.
fn each<T>(
    fields: &mut Fields<'_, '_>,
    named: (&'static str, &'static str),
    read: impl Fn(&mut Fields<'_, '_>) -> Option<T>,
) -> (Vec<T>, Vec<Span>) {
    let (mut list, mut places) = (Vec::new(), Vec::new());
    let tables = fields.optional(named.0, read::list(read::table)).map_or_else(Vec::new, |list| list.value);
    for table in tables {
        let mut inner = Fields::new(table.value, named.1, fields.diagnostics());
        let feature = read(&mut inner);
        inner.finish();
        list.extend(feature);
        places.push(table.span);
    }
    (list, places)
}

fn length(fields: &mut Fields<'_, '_>, key: &'static str) -> Option<Length> {
    fields.required(key, read::quantity::<Length>(Bounds::Positive)).map(|length| length.value)
}

fn asked(fields: &mut Fields<'_, '_>) -> Asked {
    let roughness = fields.optional("roughness", read::quantity::<Roughness>(Bounds::Positive));
    let grade = fields.optional("tolerance", read::grade);
    Asked {
        roughness: roughness.map(|roughness| roughness.value),
        grade: grade.map(|grade| grade.value),
        size: None,
    }
}

fn end(fields: &mut Fields<'_, '_>) -> End {
    fields.optional("from", read::choice(&End::NAMES)).map_or(End::Front, |end| end.value)
}

fn step(fields: &mut Fields<'_, '_>) -> Option<DrawnStep> {
    let diameter = length(fields, "diameter");
    let end = fields.optional("end", read::quantity::<Length>(Bounds::Positive)).map(|end| end.value);
    let along = length(fields, "length");
    let asked = asked(fields);
    Some(DrawnStep { diameter: diameter?, end, length: along?, asked })
}

fn bore(fields: &mut Fields<'_, '_>) -> Option<DrawnBore> {
    let diameter = length(fields, "diameter");
    let depth = length(fields, "depth");
    let from = end(fields);
    let asked = asked(fields);
    Some(DrawnBore { diameter: diameter?, depth: depth?, from, asked })
}

fn thread(fields: &mut Fields<'_, '_>) -> Option<DrawnThread> {
    let internal = fields.optional("internal", read::flag).is_some_and(|internal| internal.value);
    let diameter = length(fields, "diameter");
    let pitch = fields.required("pitch", pitch).map(|pitch| pitch.value);
    let along = length(fields, "length");
    let at = fields.optional("at", read::quantity::<Length>(Bounds::NotNegative));
    let from = end(fields);
    Some(DrawnThread {
        side: if internal { Side::Inside } else { Side::Outside },
        diameter: diameter?,
        pitch: pitch?,
        length: along?,
        at: at.map_or(Length::ZERO, |at| at.value),
        from,
    })
}

fn groove(fields: &mut Fields<'_, '_>) -> Option<DrawnGroove> {
    let diameter = length(fields, "diameter");
    let width = length(fields, "width");
    let at = fields.required("at", read::quantity::<Length>(Bounds::NotNegative));
    Some(DrawnGroove { diameter: diameter?, width: width?, at: at?.value })
}

fn hole(fields: &mut Fields<'_, '_>) -> Option<DrawnHole> {
    let diameter = length(fields, "diameter");
    let depth = length(fields, "depth");
    let count = fields.optional("holes", read::count).map_or(1, |count| count.value);
    let asked = asked(fields);
    Some(DrawnHole { diameter: diameter?, depth: depth?, count, asked })
}

/// The outline must be as long as the part and lie inside the bar.
fn outline(
    drawing: &Drawing,
    places: &DrawingPlaces,
    part: (Option<&Spanned<Length>>, Option<Length>),
    diagnostics: &mut Diagnostics,
) {
    if let Some(length) = part.0
        && (drawing.length().to_mm() - length.value.to_mm()).abs() > 1e-6
    {
        let message = format!("the steps are {} mm long together", drawing.length().to_mm());
        diagnostics.push(
            Diagnostic::new(Code::Geometry, message)
                .at(places.header, format!("expected the {} mm of the part", length.value.to_mm()))
                .also(length.span, "the part"),
        );
    }
    for (step, place) in drawing.steps.iter().zip(&places.steps) {
        if part.1.is_some_and(|stock| step.high() > stock) {
            diagnostics.push(
                Diagnostic::new(Code::Geometry, "this step is thicker than the bar")
                    .at(*place, "its diameter is more than the `size` of the bar"),
            );
        }
    }
}

/// Bores, threads, grooves and cross holes must lie in the outline.
fn inside(drawing: &Drawing, places: &DrawingPlaces, diagnostics: &mut Diagnostics) {
    let whole = drawing.length();
    let mut wrong = |place: Span, message: &str, label: &str| {
        diagnostics.push(Diagnostic::new(Code::Geometry, message).at(place, label));
    };
    for (bore, place) in drawing.bores.iter().zip(&places.bores) {
        let ends = match bore.from {
            End::Front => drawing.steps.first(),
            End::Back => drawing.steps.last(),
        };
        if bore.depth.to_mm() > whole.to_mm() + 1e-6 {
            wrong(*place, "this bore is deeper than the part is long", "its `depth`");
        } else if ends.is_some_and(|step| bore.diameter >= step.low()) {
            wrong(
                *place,
                "this bore leaves no wall at its end",
                "its `diameter` is that of the step or more",
            );
        }
    }
    for (groove, place) in drawing.grooves.iter().zip(&places.grooves) {
        let step = drawing
            .step_at(groove.at)
            .filter(|step| drawing.step_at(groove.at + groove.width - Length::mm(1e-6)) == Some(*step));
        match step {
            None => wrong(*place, "this groove does not lie in one step", "`at` and `width`"),
            Some(step) if groove.diameter >= drawing.steps[step].low() => {
                wrong(*place, "this groove is no deeper than its step", "its `diameter`");
            }
            Some(_) => {}
        }
    }
    for (thread, place) in drawing.threads.iter().zip(&places.threads) {
        if thread.side == Side::Inside {
            continue;
        }
        let step = drawing
            .step_at(thread.at)
            .filter(|step| drawing.step_at(thread.at + thread.length - Length::mm(1e-6)) == Some(*step));
        match step {
            None => wrong(*place, "this thread does not lie in one step", "`at` and `length`"),
            Some(step) if (drawing.steps[step].diameter.to_mm() - thread.diameter.to_mm()).abs() > 1e-6 => {
                wrong(*place, "this thread and its step differ in diameter", "its `diameter`");
            }
            Some(_) => {}
        }
    }
    let thickest = drawing.thickest();
    for (hole, place) in drawing.cross_holes.iter().zip(&places.cross_holes) {
        if hole.depth > thickest {
            wrong(*place, "this cross hole is deeper than the part is thick", "its `depth`");
        }
    }
}
