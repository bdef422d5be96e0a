//! What a misspelt word may have meant.

use strsim::jaro_winkler;

/// How alike two words must be, 0 to 1, before one is offered for the other.
const ALIKE: f64 = 0.8;

/// The candidate most like a word, if any is like it; of equals the first. Capitals do not matter.
///
/// # Example
/// ```
/// use wearland::diag::nearest;
/// assert_eq!(nearest("cutting_sped", ["feed", "cutting_speed"]), Some("cutting_speed".to_owned()));
/// assert_eq!(nearest("colour", ["feed", "depth"]), None);
/// ```
#[must_use]
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<String> {
    let word = word.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    for candidate in candidates {
        let likeness = jaro_winkler(&word, &candidate.to_lowercase());
        if ALIKE <= likeness && best.is_none_or(|(most, _)| most < likeness) {
            best = Some((likeness, candidate));
        }
    }
    best.map(|(_, candidate)| candidate.to_owned())
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn capitals_and_order() {
        assert_eq!(nearest("c45", ["11SMn30", "C45"]), Some("C45".to_owned()));
        assert_eq!(nearest("lathe-3", ["lathe-1", "lathe-2"]), Some("lathe-1".to_owned()));
        assert_eq!(nearest("", ["lathe"]), None);
    }
}
