//! What drawings are made of: text safe for XML, numbers with fixed decimals, and a style for each series.

use super::escape::plain;

/// A text for XML: signs of the markup as entities, hidden characters spelt out.
pub(super) fn xml(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for sign in plain(text).chars() {
        match sign {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            // XML has no place for these two.
            '\u{fffe}' | '\u{ffff}' => safe.push('\u{fffd}'),
            sign => safe.push(sign),
        }
    }
    safe
}

/// A coordinate, to a tenth.
pub(super) fn to_tenth(value: f64) -> String {
    // Adding zero turns -0.0 into 0.0.
    format!("{:.1}", (value * 10.0).round() / 10.0 + 0.0)
}

/// How a series looks: colour, dashes and sign of its points all differ, so that it is known in grey print too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Style {
    color: &'static str,
    /// Dashes and gaps of the line, empty for a whole line.
    dashes: &'static str,
    sign: Sign,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sign {
    Disc,
    Square,
    Triangle,
    Diamond,
    Cross,
    Plus,
}

/// Dark enough for white paper; neighbours differ in lightness as well as in hue.
const COLORS: [&str; 6] = ["#14428b", "#c4570c", "#00635c", "#b5489a", "#5c4a00", "#5f6b7a"];
const DASHES: [&str; 6] = ["", "8 4", "2 3", "12 3 2 3", "5 2", "12 4 5 4"];
const SIGNS: [Sign; 6] = [Sign::Disc, Sign::Square, Sign::Triangle, Sign::Diamond, Sign::Cross, Sign::Plus];

impl Style {
    /// The style of a series by its place among them; the first 36 all differ.
    pub(super) fn of_series(index: usize) -> Self {
        let (place, round) = (index % COLORS.len(), index / COLORS.len());
        let shifted = (place + round) % DASHES.len();
        Self { color: COLORS[place], dashes: DASHES[shifted], sign: SIGNS[shifted] }
    }

    /// A point of the series as a path around a place.
    pub(super) fn point(self, (x, y): (f64, f64)) -> String {
        let start = |dx: f64, dy: f64| format!("M{} {}", to_tenth(x + dx), to_tenth(y + dy));
        let way = match self.sign {
            Sign::Disc => format!("{}a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0z", start(-3.5, 0.0)),
            Sign::Square => format!("{}h6v6h-6z", start(-3.0, -3.0)),
            Sign::Triangle => format!("{}l4 7h-8z", start(0.0, -4.0)),
            Sign::Diamond => format!("{}l4 4l-4 4l-4 -4z", start(0.0, -4.0)),
            Sign::Cross => format!("{}l6 6m0 -6l-6 6", start(-3.0, -3.0)),
            Sign::Plus => format!("{}h8m-4 -4v8", start(-4.0, 0.0)),
        };
        format!("<path d=\"{way}\" fill=\"{0}\" stroke=\"{0}\"/>\n", self.color)
    }

    /// A line of the series through places.
    pub(super) fn line(self, places: &[(f64, f64)]) -> String {
        let points: Vec<_> =
            places.iter().map(|(x, y)| format!("{},{}", to_tenth(*x), to_tenth(*y))).collect();
        let dashes = match self.dashes {
            "" => String::new(),
            dashes => format!(" stroke-dasharray=\"{dashes}\""),
        };
        let (points, color) = (points.join(" "), self.color);
        format!(
            "<polyline points=\"{points}\" fill=\"none\" stroke=\"{color}\" stroke-width=\"2\"{dashes}/>\n"
        )
    }
}

#[cfg(test)]
mod tests {
    use super::{COLORS, Style, to_tenth, xml};

    #[test]
    fn text_cannot_become_markup() {
        assert_eq!(
            xml("<a b=\"c\">&'\u{1b}\u{0}\u{202e}\u{ffff}"),
            r"&lt;a b=&quot;c&quot;&gt;&amp;&#39;\u{1b}\u{0}\u{202e}�"
        );
        assert_eq!(xml("Ø 20 – 5 µm"), "Ø 20 – 5 µm");
    }

    #[test]
    fn numbers_have_one_decimal_and_zero_no_sign() {
        assert_eq!([-0.04, 0.06, 12.0, -3.26].map(to_tenth), ["0.0", "0.1", "12.0", "-3.3"]);
    }

    #[test]
    fn styles_differ() {
        let styles: Vec<_> = (0..36).map(Style::of_series).collect();
        for (index, style) in styles.iter().enumerate() {
            assert!(!styles[..index].contains(style), "{style:?} comes twice");
        }
        // Not in colour alone.
        for (index, style) in styles[..6].iter().enumerate() {
            let alike = |other: &Style| other.dashes == style.dashes || other.sign == style.sign;
            assert!(!styles[..index].iter().any(alike), "{style:?}");
        }
    }

    /// Relative luminance of an sRGB colour.
    fn luminance(color: &str) -> f64 {
        let part = |from: usize| {
            let part = f64::from(u8::from_str_radix(&color[from..from + 2], 16).unwrap()) / 255.0;
            if part <= 0.040_45 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    #[test]
    fn colors_stand_out_on_white_and_neighbours_differ_in_lightness() {
        for color in COLORS {
            assert!(1.05 / (luminance(color) + 0.05) >= 4.0, "{color} is too light");
        }
        for pair in COLORS.windows(2) {
            let (one, other) = (luminance(pair[0]) + 0.05, luminance(pair[1]) + 0.05);
            assert!((one / other).max(other / one) >= 1.4, "{pair:?} are alike in grey");
        }
    }
}
