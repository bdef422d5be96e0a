//! The place at which a figure changes sign.

/// Halves a bracket above zero, on a logarithmic scale, down to the last digits. `above` says whether the place is passed.
pub(in crate::tooling) fn root(bracket: (f64, f64), above: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (bracket.0.ln(), bracket.1.ln());
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if middle <= low || high <= middle {
            break;
        }
        if above(middle.exp()) {
            high = middle;
        } else {
            low = middle;
        }
    }
    (0.5 * (low + high)).exp()
}
