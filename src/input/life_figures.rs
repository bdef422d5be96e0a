//! The single figures of a life table: feeds, lives, constants, wear curves.

use super::read::{self, Bounds, Reading};
use super::{Node, Value};
use crate::diag::{Code, Diagnostic};
use crate::quantity::{
    Duration, FeedPerRev, FeedPerStroke, FeedPerTooth, Length, QuantityError, Range, SpecificVolume, parse,
};
use crate::tooling::{ColdingConstants, ReferenceLife, WearCurve, colding_exponent};

/// A feed for each revolution or each tooth, as the length of one advance.
pub(super) fn advance(node: &Node) -> Reading<Length> {
    let by_tooth = matches!(&node.value, Value::Text(text) if text.contains("tooth") || text.contains("ipt"));
    if by_tooth {
        let feed = read::quantity::<FeedPerTooth>(Bounds::Positive)(node)?;
        return Ok(Length::mm(feed.to_mm_per_tooth()));
    }
    if matches!(&node.value, Value::Text(text) if text.contains("stroke")) {
        let feed = read::quantity::<FeedPerStroke>(Bounds::Positive)(node)?;
        return Ok(Length::mm(feed.to_mm_per_stroke()));
    }
    let feed = read::quantity::<FeedPerRev>(Bounds::Positive)(node)?;
    Ok(Length::mm(feed.to_mm_per_rev()))
}

/// Feeds for each revolution, tooth or stroke, as lengths of one advance.
pub(super) fn advances(node: &Node) -> Reading<Range<Length>> {
    let names = |word: &str| matches!(&node.value, Value::Text(text) if text.contains(word));
    let (low, high) = if names("tooth") || names("ipt") {
        let feeds = read::range::<FeedPerTooth>(Bounds::Positive)(node)?;
        (feeds.low.to_mm_per_tooth(), feeds.high.to_mm_per_tooth())
    } else if names("stroke") {
        let feeds = read::range::<FeedPerStroke>(Bounds::Positive)(node)?;
        (feeds.low.to_mm_per_stroke(), feeds.high.to_mm_per_stroke())
    } else {
        let feeds = read::range::<FeedPerRev>(Bounds::Positive)(node)?;
        (feeds.low.to_mm_per_rev(), feeds.high.to_mm_per_rev())
    };
    Ok(Range { low: Length::mm(low), high: Length::mm(high) })
}

/// Minutes in cut, metres, `600 holes of 25 mm`, or a volume for each millimetre of wheel width.
pub(super) fn reference_life(node: &Node) -> Reading<ReferenceLife> {
    let Value::Text(text) = &node.value else {
        return read::quantity::<Duration>(Bounds::Positive)(node).map(ReferenceLife::Time);
    };
    if let Some((count, depth)) = text.split_once(" holes of ") {
        return holes(node, count, depth);
    }
    if parse::<SpecificVolume>(text).is_ok() {
        return read::quantity::<SpecificVolume>(Bounds::Positive)(node).map(ReferenceLife::Volume);
    }
    if !matches!(parse::<Length>(text), Err(QuantityError::UnknownUnit { .. })) {
        return read::quantity::<Length>(Bounds::Positive)(node).map(ReferenceLife::Path);
    }
    read::quantity::<Duration>(Bounds::Positive)(node).map(ReferenceLife::Time)
}

fn holes(node: &Node, count: &str, depth: &str) -> Reading<ReferenceLife> {
    let Some(holes) = count.trim().parse::<u32>().ok().filter(|holes| *holes > 0) else {
        let message = format!("expected a whole number of holes above zero, found `{}`", count.trim());
        return Err(vec![wrong(Code::NotAQuantity, node, message)]);
    };
    let depth = Node { value: Value::Text(depth.to_owned()), span: node.span };
    let depth = read::quantity::<Length>(Bounds::Positive)(&depth)?;
    Ok(ReferenceLife::Holes { holes, depth })
}

/// Thinnest and thickest chip for which the exponent must make sense, mm.
const CHIPS: [Length; 2] = [Length::mm(0.01), Length::mm(1.0)];

/// K, H, M, N0 and L, in this order.
pub(super) fn colding(node: &Node) -> Reading<ColdingConstants> {
    let numbers: Vec<f64> =
        read::list(read::number(Bounds::Any))(node)?.into_iter().map(|is| is.value).collect();
    let [k, h, m, n0, l] = numbers[..] else {
        let message = format!("expected the five constants K, H, M, N0, L, found {}", numbers.len());
        return Err(vec![wrong(Code::WrongKind, node, message)]);
    };
    let constants = ColdingConstants { k, h, m, n0, l };
    if m <= 0.0 {
        return Err(vec![wrong(Code::OutOfRange, node, format!("expected M above zero, found {m}"))]);
    }
    let exponents = CHIPS.map(|chip| colding_exponent(&constants, chip));
    if exponents.iter().all(|n| (0.05..=1.0).contains(n)) {
        return Ok(constants);
    }
    let message = format!(
        "the exponent N0 - L ln h_e runs from {:.3} to {:.3} between chips of 0.01 mm and 1 mm; expected 0.05 to 1",
        exponents[0], exponents[1]
    );
    Err(vec![wrong(Code::OutOfRange, node, message)])
}

/// Points of share of life and share of wear.
pub(super) fn curve(node: &Node) -> Reading<WearCurve> {
    let pair = read::list(read::list(read::number(Bounds::Positive)))(node)?;
    let mut points = Vec::with_capacity(pair.len());
    for point in pair {
        let [age, wear] = &point.value[..] else {
            let message = "expected pairs such as [0.2, 0.3]: share of the life, share of the wear";
            return Err(vec![Diagnostic::new(Code::WrongKind, message).at(point.span, "no pair")]);
        };
        points.push((age.value, wear.value));
    }
    WearCurve::new(points).map_err(|error| vec![wrong(Code::OutOfRange, node, error.to_string())])
}

fn wrong(code: Code, node: &Node, message: impl Into<String>) -> Diagnostic {
    Diagnostic::new(code, message).at(node.span, "")
}

#[cfg(test)]
mod tests {
    use super::{advances, colding, curve, reference_life};
    use crate::diag::Code;
    use crate::input::fields::sample::{code, node};
    use crate::quantity::Length;
    use crate::tooling::ReferenceLife;

    #[test]
    fn a_life_is_a_time_a_path_holes_or_a_volume() {
        let holes = ReferenceLife::Holes { holes: 600, depth: Length::mm(25.0) };
        assert_eq!(reference_life(&node("\"600 holes of 25 mm\"")), Ok(holes));
        assert_eq!(holes.path(), Some(Length::m(15.0)));
        assert!(matches!(reference_life(&node("\"15 min\"")), Ok(ReferenceLife::Time(_))));
        assert!(matches!(reference_life(&node("\"20 m\"")), Ok(ReferenceLife::Path(_))));
        assert!(matches!(reference_life(&node("\"3000 mm3/mm\"")), Ok(ReferenceLife::Volume(_))));
        for bad in ["\"0 holes of 25 mm\"", "\"many holes of 25 mm\"", "\"9 holes of 25\"", "600"] {
            assert_eq!(code(reference_life(&node(bad))), Code::NotAQuantity, "{bad}");
        }
    }

    #[test]
    fn constants_and_curves_make_sense_or_are_refused() {
        assert!(colding(&node("[6.3, -2, 1, 0.3, 0.02]")).is_ok());
        assert_eq!(code(colding(&node("[6.3, -2, 1, 0.3]"))), Code::WrongKind);
        assert_eq!(code(colding(&node("[6.3, -2, 0, 0.3, 0.02]"))), Code::OutOfRange);
        assert_eq!(code(colding(&node("[6.3, -2, 1, 0.3, -0.1]"))), Code::OutOfRange);
        assert!(curve(&node("[[0.1, 0.35], [0.9, 0.8], [1, 1]]")).is_ok());
        assert_eq!(code(curve(&node("[[0.1, 0.35], [0.9, 0.8]]"))), Code::OutOfRange);
        assert_eq!(code(curve(&node("[[0.1], [1, 1]]"))), Code::WrongKind);
        assert!(advances(&node("\"0.1 .. 0.5 mm/rev\"")).is_ok_and(|feeds| feeds.high == Length::mm(0.5)));
        assert!(advances(&node("\"0.05 .. 0.2 mm/tooth\"")).is_ok());
    }
}
