//! The positions of an insert designation in words.

use super::letters::{BY_SIZE, Shape};
use crate::quantity::significant;

/// A shape.
pub(super) fn shape_meaning(shape: &Shape) -> String {
    if shape.angle > 0.0 {
        format!("{}, included angle {} deg", shape.name, shape.angle)
    } else {
        shape.name.to_owned()
    }
}

/// A normal clearance in degrees.
pub(super) fn clearance_meaning(clearance: Option<f64>) -> String {
    match clearance {
        None => "special".to_owned(),
        Some(0.0) => "no clearance: both faces can cut".to_owned(),
        Some(angle) => format!("{angle} deg: one face cuts"),
    }
}

/// A tolerance class for this size.
pub(super) fn tolerance_meaning(
    class: &(char, [f64; 2], [f64; 2], f64),
    shape: &Shape,
    circle: Option<f64>,
) -> String {
    let (letter, corner, inscribed, thickness) = class;
    let of_size = circle.and_then(|circle| BY_SIZE.iter().find(|(size, ..)| (size - circle).abs() < 0.01));
    let pointed = (1.0..60.0).contains(&shape.angle);
    let (corner, inscribed) = match (letter, of_size) {
        // The corner height of pointed shapes has figures of its own, which are not held.
        ('M' | 'N', Some((_, [_, d], _))) | ('U', Some((_, _, [_, d]))) if pointed => (*corner, [*d, *d]),
        ('M' | 'N', Some((_, [m, d], _))) | ('U', Some((_, _, [m, d]))) => ([*m, *m], [*d, *d]),
        ('J' | 'K' | 'L', Some((_, [_, d], _))) => (*corner, [*d, *d]),
        _ => (*corner, *inscribed),
    };
    let span = |[low, high]: [f64; 2]| {
        if (high - low).abs() < 1e-9 { significant(low, 3) } else { format!("{low} to {high}") }
    };
    format!(
        "+/- mm: corner height m {}, inscribed circle {}, thickness {thickness}",
        span(corner),
        span(inscribed)
    )
}

/// A size.
pub(super) fn size_meaning(shape: &Shape, circle: Option<f64>, edge: f64) -> String {
    match circle {
        Some(circle) => {
            format!("inscribed circle IC {} mm, edge {} mm", significant(circle, 5), significant(edge, 4))
        }
        None if matches!(shape.letter, 'A' | 'B' | 'K' | 'L') => format!("edge {edge} mm"),
        None => format!("edge {edge} mm; no single inscribed circle of the inch series has this code"),
    }
}
