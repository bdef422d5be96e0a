//! Inscribed circle, edge length and inch code of an insert.

use super::corner::Corner;

/// Inscribed circles of the inch series, mm.
const CIRCLES: [f64; 11] = [3.969, 4.763, 5.556, 6.35, 7.938, 9.525, 12.7, 15.875, 19.05, 25.4, 31.75];

/// Corner radii of the inch series, 1/64 in.
const CORNERS: [f64; 9] = [0.5, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0];

/// Codes of trigon inserts, which follow from no simple formula, with their circles.
const TRIGONS: [(u32, f64); 8] =
    [(2, 3.969), (3, 4.763), (4, 6.35), (5, 7.938), (6, 9.525), (8, 12.7), (10, 15.875), (13, 19.05)];

/// Edge length of a shape about an inscribed circle, mm; `None` where the circle does not tell it.
pub(super) fn edge_length(shape: char, angle: f64, circle: f64) -> Option<f64> {
    Some(match shape {
        'C' | 'D' | 'E' | 'F' | 'M' | 'V' => circle / angle.to_radians().sin(),
        'T' => circle * 3.0_f64.sqrt(),
        'S' | 'R' => circle,
        'H' => circle * 30.0_f64.to_radians().tan(),
        'P' => circle * 36.0_f64.to_radians().tan(),
        'O' => circle * 22.5_f64.to_radians().tan(),
        _ => return None,
    })
}

/// Inscribed circle of a size code, mm; `None` where the code alone does not tell it: no circle fits, or several do.
pub(super) fn inscribed_circle(shape: (char, f64), code: u32, corner: &Corner) -> Option<f64> {
    let (letter, angle) = shape;
    if letter == 'R' && matches!(corner, Corner::RoundMetric) {
        return Some(f64::from(code));
    }
    if letter == 'W' {
        return TRIGONS.iter().find(|(known, _)| *known == code).map(|(_, circle)| *circle);
    }
    // From memory: the smallest rhombus is coded 03 though its edge is 4.03 mm long, which leaves 04 to the next.
    match (letter, code) {
        ('C', 3) => return Some(3.969),
        ('C', 4) => return Some(4.763),
        _ => {}
    }
    // Whole millimetres of the edge, decimals dropped; 10.999 counts as 11.
    let mut fitting = CIRCLES.into_iter().filter(|circle| {
        edge_length(letter, angle, *circle)
            .is_some_and(|length| ((length + 0.005).floor() - f64::from(code)).abs() < 0.5)
    });
    let circle = fitting.next();
    circle.filter(|_| fitting.next().is_none())
}

/// Inch code: circle in 1/8 in, thickness in 1/16 in, corner in 1/64 in; circles under 1/4 in and their thickness
/// count in 1/32 in. `None` where the corner is none of the inch series.
pub(super) fn inch_code(circle: f64, thickness: f64, corner: f64) -> Option<String> {
    let small = circle < 6.349;
    let circle = circle / 25.4 * if small { 32.0 } else { 8.0 };
    let thickness = thickness / 25.4 * if small { 32.0 } else { 16.0 };
    let sixty_fourths = corner / 25.4 * 64.0;
    let of_series = CORNERS.into_iter().find(|known| (known - sixty_fourths).abs() < 0.08)?;
    Some(format!("{}{}{}", half(circle), half(thickness), half(of_series)))
}

/// To the nearest half, without an idle zero.
fn half(value: f64) -> String {
    let rounded = (value * 2.0).round() / 2.0;
    if rounded.fract() == 0.0 { format!("{rounded:.0}") } else { format!("{rounded:.1}") }
}
