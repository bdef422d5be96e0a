//! What the letters of ISO 1832 stand for. Read in charts of insert makers; the standard itself was not at hand.

/// A shape: letter, included angle in degrees, in words, corners a side.
pub(super) struct Shape {
    pub(super) letter: char,
    pub(super) angle: f64,
    pub(super) name: &'static str,
    /// `None` for a round insert, which its user turns as often as it lasts.
    pub(super) corners: Option<u32>,
}

const fn shape(letter: char, angle: f64, name: &'static str, corners: Option<u32>) -> Shape {
    Shape { letter, angle, name, corners }
}

/// Position 1.
pub(super) const SHAPES: [Shape; 17] = [
    shape('A', 85.0, "parallelogram", Some(2)),
    shape('B', 82.0, "parallelogram", Some(2)),
    shape('C', 80.0, "rhombus", Some(2)),
    shape('D', 55.0, "rhombus", Some(2)),
    shape('E', 75.0, "rhombus", Some(2)),
    shape('F', 50.0, "rhombus", Some(2)),
    shape('H', 120.0, "hexagon", Some(6)),
    shape('K', 55.0, "parallelogram", Some(2)),
    shape('L', 90.0, "rectangle", Some(2)),
    shape('M', 86.0, "rhombus", Some(2)),
    shape('O', 135.0, "octagon", Some(8)),
    shape('P', 108.0, "pentagon", Some(5)),
    shape('R', 0.0, "round", None),
    shape('S', 90.0, "square", Some(4)),
    shape('T', 60.0, "triangle", Some(3)),
    shape('V', 35.0, "rhombus", Some(2)),
    shape('W', 80.0, "trigon", Some(3)),
];

/// Position 2, and the wiper clearance of milling inserts: normal clearance in degrees.
pub(super) const CLEARANCES: [(char, f64); 9] = [
    ('A', 3.0),
    ('B', 5.0),
    ('C', 7.0),
    ('D', 15.0),
    ('E', 20.0),
    ('F', 25.0),
    ('G', 30.0),
    ('N', 0.0),
    ('P', 11.0),
];

/// Position 3: letter and tolerance, plus or minus mm, of corner height m, inscribed circle d and thickness s; where m or
/// d depend on the size, from and to.
pub(super) const TOLERANCES: [(char, [f64; 2], [f64; 2], f64); 12] = [
    ('A', [0.005, 0.005], [0.025, 0.025], 0.025),
    ('C', [0.013, 0.013], [0.025, 0.025], 0.025),
    ('E', [0.025, 0.025], [0.025, 0.025], 0.025),
    ('F', [0.005, 0.005], [0.013, 0.013], 0.025),
    ('G', [0.025, 0.025], [0.025, 0.025], 0.13),
    ('H', [0.013, 0.013], [0.013, 0.013], 0.025),
    ('J', [0.005, 0.005], [0.05, 0.15], 0.025),
    ('K', [0.013, 0.013], [0.05, 0.15], 0.025),
    ('L', [0.025, 0.025], [0.05, 0.15], 0.025),
    ('M', [0.08, 0.20], [0.05, 0.15], 0.13),
    ('N', [0.08, 0.20], [0.05, 0.15], 0.025),
    ('U', [0.13, 0.38], [0.08, 0.25], 0.13),
];

/// Tolerance of m and d of classes M and N, and of U, by inscribed circle.
pub(super) const BY_SIZE: [(f64, [f64; 2], [f64; 2]); 6] = [
    (6.35, [0.08, 0.05], [0.13, 0.08]),
    (9.525, [0.08, 0.05], [0.13, 0.08]),
    (12.7, [0.13, 0.08], [0.20, 0.13]),
    (15.875, [0.15, 0.10], [0.27, 0.18]),
    (19.05, [0.15, 0.10], [0.27, 0.18]),
    (25.4, [0.18, 0.13], [0.38, 0.25]),
];

/// How many faces cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Faces {
    /// One.
    One,
    /// Both.
    Both,
}

/// Position 4: letter, faces that can cut, in words.
pub(super) const TYPES: [(char, Faces, &str); 15] = [
    ('A', Faces::Both, "cylindrical hole, flat faces"),
    ('B', Faces::One, "hole countersunk 70 to 90 deg on one side, flat"),
    ('C', Faces::Both, "hole countersunk 70 to 90 deg on both sides, flat"),
    ('F', Faces::Both, "no hole, chip breaker on both faces"),
    ('G', Faces::Both, "cylindrical hole, chip breaker on both faces"),
    ('H', Faces::One, "hole countersunk 70 to 90 deg on one side, chip breaker on one face"),
    ('J', Faces::Both, "hole countersunk 70 to 90 deg on both sides, chip breaker on both faces"),
    ('M', Faces::One, "cylindrical hole, chip breaker on one face"),
    ('N', Faces::Both, "no hole, flat faces"),
    ('Q', Faces::Both, "hole countersunk 40 to 60 deg on both sides, flat"),
    ('R', Faces::One, "no hole, chip breaker on one face"),
    ('T', Faces::One, "hole countersunk 40 to 60 deg on one side, chip breaker on one face"),
    ('U', Faces::Both, "hole countersunk 40 to 60 deg on both sides, chip breaker on both faces"),
    ('W', Faces::One, "hole countersunk 40 to 60 deg on one side, flat"),
    ('X', Faces::One, "special"),
];

/// Position 6: code and thickness in mm.
pub(super) const THICKNESSES: [(&str, f64); 11] = [
    ("01", 1.59),
    ("T1", 1.98),
    ("02", 2.38),
    ("T2", 2.78),
    ("03", 3.18),
    ("T3", 3.97),
    ("04", 4.76),
    ("05", 5.56),
    ("06", 6.35),
    ("07", 7.94),
    ("09", 9.52),
];

/// Position 7 of milling inserts, first letter: edge angle in degrees.
pub(super) const EDGE_ANGLES: [(char, f64); 6] =
    [('A', 45.0), ('D', 60.0), ('E', 75.0), ('F', 85.0), ('G', 87.0), ('P', 90.0)];

/// Position 8: condition of the cutting edge.
pub(super) const EDGE_FORMS: [(char, &str); 6] = [
    ('F', "sharp"),
    ('E', "rounded"),
    ('T', "chamfered"),
    ('S', "chamfered and rounded"),
    ('K', "double chamfer"),
    ('P', "double chamfer, rounded"),
];

/// Position 9: hand.
pub(super) const HANDS: [(char, &str); 3] =
    [('R', "right hand"), ('L', "left hand"), ('N', "neutral, both hands")];
