//! What a piece takes of an edge, and how many pieces an edge makes.

use crate::quantity::Formula;

/// [`pieces_per_edge`].
pub const PIECES_PER_EDGE: Formula =
    Formula { figure: "pieces per edge", text: "N = floor(1 / w)", source: "groover" };

/// Share of a life that one piece takes.
pub const WEAR_SHARE: Formula =
    Formula { figure: "share of a life", text: "w = sum over passes of t_i / T_i", source: "groover" };

/// Share of a dressing interval that one piece takes.
pub const WHEEL_SHARE: Formula = Formula {
    figure: "share of a dressing interval",
    text: "w = V'_w / V'_w,max",
    source: "common-practice",
};

/// Pieces a hob edge makes, before rounding down.
pub const HOB_EDGE_PIECES: Formula = Formula {
    figure: "pieces per sharpening",
    text: "p = K * (k * V_0 / V)^(1/n) * (f_0 / f)^(a/n) * (V / V_0) * (f / f_0) * N_z * cos(beta) / (z * b)",
    source: "hob-working-conditions",
};

/// Whole pieces one edge makes: never rounded up.
///
/// N = floor(T / t_c)
///
/// # Symbols
/// T life; t_c time in cut for a piece. The count is given from the share of a life that one piece takes, t_c / T.
/// # Range
/// Zero means that an edge does not last one piece.
/// # Source
/// \[groover\]
/// # Example
/// ```
/// use wearland::tooling::pieces_per_edge;
/// assert_eq!(pieces_per_edge(2.3 / 15.0), 6);
/// assert_eq!(pieces_per_edge(0.25), 4); // exactly four: the edge is used up by the fourth piece
/// assert_eq!(pieces_per_edge(1.2), 0);
/// ```
#[must_use]
pub fn pieces_per_edge(share: f64) -> u32 {
    if share <= 0.0 {
        return u32::MAX;
    }
    let pieces = (1.0 / share * (1.0 + 1e-9)).floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the range of u32"
    )]
    let whole = pieces.clamp(0.0, f64::from(u32::MAX)) as u32;
    whole
}
