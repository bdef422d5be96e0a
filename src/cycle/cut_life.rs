//! How long the edge of one cut lasts, and how many pieces it makes.

use super::life_range::stretched;
use super::process::Motion;
use super::setting::{CutError, Setting};
use super::work::{GearWork, Work};
use crate::cutting::hobbing::{active_teeth, pieces_per_sharpening};
use crate::cutting::turning::{CornerAndEdge, TURNING_EQUIVALENT_CHIP, turning_equivalent_chip};
use crate::quantity::{
    Caution, CuttingSpeed, Duration, FeedPerRev, FeedRate, Length, Record, SpecificVolume, Term,
};
use crate::tooling::{
    ACTUAL_LIFE, COLDING_LIFE, Colding, CutConditions, ExtendedTaylor, HOB_EDGE_PIECES, LIFE_AT_LAND,
    LifeLaw, LifeShape, PIECES_PER_EDGE, REFERENCE_PATH_LIFE, ReferenceLife, SHARE_AT_LAND, SPEED_FACTOR,
    SpeedFactors, WEAR_SHARE, WHEEL_SHARE, hardness_factor, life_at, pieces_per_edge, reference_life,
    tool_life,
};

/// The edge of a cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Minutes in cut until worn, at the first pass.
    pub life: Duration,
    /// Share of a life that one piece takes.
    pub share: f64,
    /// Whole pieces an edge makes.
    pub pieces: u32,
    /// What moves the life away from the reference cut.
    pub factors: SpeedFactors,
}

/// Works out the edge of a cut in motion, and says where the law is stretched.
pub(super) fn edge(
    at: &Setting<'_>,
    motion: &Motion,
    record: &mut impl Record,
) -> Result<(Edge, Vec<Caution>), CutError> {
    let group = at.material().group;
    let law = at.tool().life_in(group).ok_or(CutError::NoLifeData { group })?;
    let factors = factors(at, law)?;
    let k = factors.product();
    record.step(&SPEED_FACTOR, Term::Plain(k), || {
        vec![
            ("k_material", Term::Plain(factors.material)),
            ("k_hardness", Term::Plain(factors.hardness)),
            ("k_coolant", Term::Plain(factors.coolant)),
            ("k_condition", Term::Plain(factors.condition)),
        ]
    });
    let (life, share) = match (&at.cut.work, &law.shape, law.life.value) {
        (Work::Gear(GearWork::Hob(_)), LifeShape::Taylor(taylor), ReferenceLife::Path(metres)) => {
            hob_wear(at, motion, (law, taylor, k, metres), record)?
        }
        (_, _, ReferenceLife::Volume(volume)) => wheel_wear(motion, volume, record)?,
        (_, LifeShape::Colding(_), _) if motion.depth.is_none() => {
            return Err(CutError::DoesNotFit {
                why: "its life by Colding holds for cuts with a feed and a depth",
            });
        }
        _ => wear(at, motion, (law, k), record),
    };
    let (life, share) = to_own_land(at, law, (life, share), record)?;
    let pieces = pieces_per_edge(share);
    record.step(&PIECES_PER_EDGE, Term::Plain(f64::from(pieces)), || vec![("w", Term::Plain(share))]);
    Ok((Edge { life, share, pieces, factors }, stretched(at, motion, law, k)))
}

/// Life and share where the cut's edge is changed at a wear land of its own.
fn to_own_land(
    at: &Setting<'_>,
    law: &LifeLaw,
    whole: (Duration, f64),
    record: &mut impl Record,
) -> Result<(Duration, f64), CutError> {
    let Some(land) = at.cut.wear else { return Ok(whole) };
    let limit = law.wear.ok_or(CutError::NoWearLand)?;
    let life = life_at(law, whole.0, land).ok_or(CutError::NoWearLand)?;
    let age = law.curve.value.age_at(land / limit);
    let share = whole.1 / age;
    record.step(&LIFE_AT_LAND, life.into(), || {
        vec![("T", whole.0.into()), ("VB", land.into()), ("VB_0", limit.into()), ("u", Term::Plain(age))]
    });
    record.step(&SHARE_AT_LAND, Term::Plain(share), || {
        vec![("w", Term::Plain(whole.1)), ("u", Term::Plain(age))]
    });
    Ok((life, share))
}

fn factors(at: &Setting<'_>, law: &LifeLaw) -> Result<SpeedFactors, CutError> {
    let material = at.material();
    let substrate = at.tool().substrate;
    let factor_of = |key: &str| {
        at.shop
            .coolants
            .iter()
            .find(|coolant| coolant.key == key)
            .and_then(|coolant| coolant.factor(substrate, material.group))
            .map(|factor| factor.value.value)
            .ok_or(CutError::NoCoolantFactor)
    };
    // The dressing interval of a wheel is a volume ground with the coolant it is stated for; no speed is moved.
    let by_speed = !matches!(law.life.value, ReferenceLife::Volume(_));
    let coolant = match at.coolant().filter(|_| by_speed) {
        Some(coolant) => factor_of(&coolant.key)? / factor_of(&law.coolant)?,
        None => 1.0,
    };
    let hardness = match (at.part_hardness(), &material.hardness_exponent) {
        (Some(own), Some(exponent)) => hardness_factor(material.hardness.value, own, exponent.value),
        _ => 1.0,
    };
    Ok(SpeedFactors {
        material: material.speed_index.value,
        hardness,
        coolant,
        condition: at.cut.condition.as_ref().map_or(1.0, |condition| condition.speed_factor.value),
    })
}

/// Life at the first pass, and the share of a life that all passes of a piece take, each at its own speed.
fn wear(
    at: &Setting<'_>,
    motion: &Motion,
    law: (&LifeLaw, f64),
    record: &mut impl Record,
) -> (Duration, f64) {
    let (law, speed_factor) = law;
    let reference = reference_life(law.life.value, reference_feed_rate(at, motion, law));
    if let Some(path) = law.life.value.path() {
        record.step(&REFERENCE_PATH_LIFE, reference.into(), || {
            vec![("L_0", path.into()), ("v_f0", reference_feed_rate(at, motion, law).into())]
        });
    }
    // A finishing pass wears at its own feed and depth.
    let conditions = |place: usize, speed: CuttingSpeed| {
        let finish = motion.finishing.filter(|finish| place >= finish.from);
        let (advance, depth) =
            finish.map_or((motion.advance, motion.depth), |finish| (finish.advance, Some(finish.depth)));
        let chip = equivalent_chip(at, law, advance, depth);
        CutConditions { speed, feed: Some(advance), depth, chip, speed_factor }
    };
    let mut first = None;
    let mut share = 0.0;
    for (place, (speed, time)) in motion.runs.iter().enumerate() {
        let cut = conditions(place, *speed);
        let life = tool_life(law, reference, &cut);
        share += *time / life;
        if first.is_none() {
            first = Some(life);
            match &law.shape {
                LifeShape::Taylor(taylor) => record_taylor((law, taylor), reference, &cut, life, record),
                LifeShape::Colding(colding) => record_colding(at, colding, &cut, life, record),
            }
        }
    }
    record.step(&WEAR_SHARE, Term::Plain(share), || {
        let life = |place: usize, speed: CuttingSpeed| tool_life(law, reference, &conditions(place, speed));
        let terms =
            motion.runs.iter().enumerate().map(|(place, (speed, time))| {
                [("t_i", Term::from(*time)), ("T_i", life(place, *speed).into())]
            });
        terms.flatten().collect()
    });
    (first.unwrap_or(reference), share)
}

/// Equivalent chip thickness of a pass, where the law asks for it.
fn equivalent_chip(
    at: &Setting<'_>,
    law: &LifeLaw,
    advance: Length,
    depth: Option<Length>,
) -> Option<Length> {
    let LifeShape::Colding(_) = law.shape else { return None };
    Some(turning_equivalent_chip(depth?, FeedPerRev::mm_per_rev(advance.to_mm()), corner(at)))
}

fn corner(at: &Setting<'_>) -> CornerAndEdge {
    CornerAndEdge {
        radius: at.tool().geometry.corner_radius.unwrap_or(Length::ZERO),
        edge_angle: at.edge_angle(),
    }
}

fn record_colding(
    at: &Setting<'_>,
    colding: &Colding,
    cut: &CutConditions,
    life: Duration,
    record: &mut impl Record,
) {
    let (constants, chip) = (colding.constants.value, cut.chip.unwrap_or(colding.chip));
    let corner = corner(at);
    record.step(&TURNING_EQUIVALENT_CHIP, chip.into(), || {
        vec![
            ("a_p", cut.depth.unwrap_or(Length::ZERO).into()),
            ("f", cut.feed.unwrap_or(Length::ZERO).into()),
            ("r", corner.radius.into()),
            ("kappa", corner.edge_angle.into()),
        ]
    });
    record.step(&COLDING_LIFE, life.into(), || {
        vec![
            ("K", Term::Plain(constants.k)),
            ("H", Term::Plain(constants.h)),
            ("M", Term::Plain(constants.m)),
            ("N0", Term::Plain(constants.n0)),
            ("L", Term::Plain(constants.l)),
            ("V", cut.speed.into()),
            ("k", Term::Plain(cut.speed_factor)),
            ("h_e", chip.into()),
        ]
    });
}

fn record_taylor(
    law: (&LifeLaw, &ExtendedTaylor),
    reference: Duration,
    cut: &CutConditions,
    life: Duration,
    record: &mut impl Record,
) {
    let (law, taylor) = law;
    record.step(&ACTUAL_LIFE, life.into(), || {
        let mut inputs = vec![
            ("T_0", reference.into()),
            ("k", Term::Plain(cut.speed_factor)),
            ("V_0", law.speed.value.into()),
            ("V", cut.speed.into()),
            ("n", Term::Plain(taylor.n.value)),
        ];
        if let (Some(reference), Some(feed)) = (law.feed, cut.feed) {
            inputs.extend([
                ("f_0", reference.into()),
                ("f", feed.into()),
                ("a", Term::Plain(taylor.feed_exponent)),
            ]);
        }
        if let (Some(reference), Some(depth)) = (law.depth, cut.depth) {
            inputs.extend([
                ("d_0", reference.into()),
                ("d", depth.into()),
                ("b", Term::Plain(taylor.depth_exponent)),
            ]);
        }
        inputs
    });
}

/// A wheel's edge is what it grinds from dressing to dressing, whatever the speed.
fn wheel_wear(
    motion: &Motion,
    volume: SpecificVolume,
    record: &mut impl Record,
) -> Result<(Duration, f64), CutError> {
    let ground = motion.ground.ok_or(CutError::WrongTool)?;
    let share = ground.to_mm3_per_mm() / volume.to_mm3_per_mm();
    record.step(&WHEEL_SHARE, Term::Plain(share), || {
        vec![("V'_w", ground.into()), ("V'_w,max", volume.into())]
    });
    let time: Duration = motion.runs.iter().map(|(_, time)| *time).sum();
    Ok((time / share, share))
}

fn reference_feed_rate(at: &Setting<'_>, motion: &Motion, law: &LifeLaw) -> FeedRate {
    if motion.spindle_speed.is_none() {
        // Nothing turns: the edge itself moves along its path.
        return FeedRate::m_per_min(law.speed.value.to_m_per_min());
    }
    let diameter = at.tool().geometry.diameter.unwrap_or(motion.diameter);
    let turns = law.speed.value.to_m_per_min() * 1000.0 / (std::f64::consts::PI * diameter.to_mm());
    FeedRate::mm_per_min(turns * law.feed.unwrap_or(motion.advance).to_mm())
}

/// A hob's life is kept as metres of gear tooth for each of its own teeth; shifting wears them evenly.
fn hob_wear(
    at: &Setting<'_>,
    motion: &Motion,
    law: (&LifeLaw, &ExtendedTaylor, f64, Length),
    record: &mut impl Record,
) -> Result<(Duration, f64), CutError> {
    let (law, taylor, k, metres) = law;
    let gear = at.gear()?;
    let (gashes, length) = at.hob_teeth()?;
    let teeth = active_teeth(gashes, length, gear.module);
    let speed = motion.speed();
    let n = taylor.n.value;
    let (reference, exponent) = (law.feed.unwrap_or(motion.advance), taylor.feed_exponent);
    // Metres grow with speed and feed, minutes fall with them.
    let faster = (speed / law.speed.value) * (motion.advance / reference);
    let life =
        (k * (law.speed.value / speed)).powf(1.0 / n) * (reference / motion.advance).powf(exponent / n);
    let roughed = pieces_per_sharpening(metres * (life * faster), teeth, gear);
    let pieces = match (motion.runs.get(1), at.cut.work.finish()) {
        // A finishing cut goes over the same metres of tooth again, at its own speed and feed.
        (Some((speed, _)), Some(finish)) => {
            let feed = Length::mm(finish.feed.to_mm_per_rev());
            let faster = (*speed / law.speed.value) * (feed / reference);
            let life = (k * (law.speed.value / *speed)).powf(1.0 / n) * (reference / feed).powf(exponent / n);
            1.0 / (1.0 / roughed + 1.0 / pieces_per_sharpening(metres * (life * faster), teeth, gear))
        }
        _ => roughed,
    };
    record.step(&HOB_EDGE_PIECES, Term::Plain(roughed), || {
        vec![
            ("K", metres.into()),
            ("k", Term::Plain(k)),
            ("V_0", law.speed.value.into()),
            ("V", speed.into()),
            ("n", Term::Plain(n)),
            ("f_0", reference.into()),
            ("f", motion.advance.into()),
            ("a", Term::Plain(exponent)),
            ("N_z", Term::Plain(teeth)),
            ("beta", gear.helix.into()),
            ("z", Term::Plain(f64::from(gear.teeth))),
            ("b", gear.face.into()),
        ]
    });
    let all: Duration = motion.runs.iter().map(|(_, time)| *time).sum();
    Ok((all * pieces, 1.0 / pieces))
}
