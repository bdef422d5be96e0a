//! Use of a hob: its pitch and length, shifting, sharpening, and what it costs each gear.

use std::f64::consts::PI;

use crate::quantity::{Angle, Formula, Length, Money};

use super::gear::{Gear, Hob, hob_lead_angle};

/// Most steps or sharpenings that are counted; more is a slip of the pen.
const MOST: f64 = 1e6;

/// Formula of [`hob_axial_pitch`].
pub const HOB_AXIAL_PITCH: Formula =
    Formula { figure: "axial pitch of hob", text: "t_os = pi * m / cos(gamma_0)", source: "hob-computation" };

/// Axial pitch of a hob; its lead is that times its starts.
///
/// t_os = pi * m / cos(gamma_0)
///
/// # Symbols
/// t_os axial pitch. m normal module. gamma_0 lead angle of the hob.
/// # Range
/// Lead angle as in [`hob_lead_angle`].
/// # Source
/// [hob-computation]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Hob, hob_axial_pitch};
/// use wearland::quantity::Length;
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// assert!((hob_axial_pitch(&hob, Length::mm(2.0)).to_mm() - 6.29512).abs() < 1e-4);
/// ```
#[must_use]
pub fn hob_axial_pitch(hob: &Hob, module: Length) -> Length {
    module * (PI / hob_lead_angle(hob, module).to_rad().cos())
}

/// Formula of [`hob_lead`].
pub const HOB_LEAD: Formula =
    Formula { figure: "lead of hob", text: "L_0 = z_0 * t_os", source: "hob-computation" };

/// Lead of a hob: advance of its thread in one turn.
///
/// L_0 = z_0 * t_os
///
/// # Symbols
/// L_0 lead. z_0 starts. t_os axial pitch.
/// # Range
/// As in [`hob_axial_pitch`].
/// # Source
/// [hob-computation]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Hob, hob_lead};
/// use wearland::quantity::Length;
/// let hob = Hob { diameter: Length::mm(70.0), starts: 2 };
/// assert!((hob_lead(&hob, Length::mm(2.0)).to_mm() - 12.59023).abs() < 1e-4);
/// ```
#[must_use]
pub fn hob_lead(hob: &Hob, module: Length) -> Length {
    hob_axial_pitch(hob, module) * f64::from(hob.starts)
}

/// Formula of [`hob_tooth_use`].
pub const HOB_TOOTH_USE: Formula = Formula {
    figure: "gear tooth cut by each hob tooth",
    text: "K = p * z * b / (cos(beta) * N_z)",
    source: "hob-working-conditions",
};

/// Length of gear tooth that each hob tooth has cut: the measure of a hob's life.
///
/// K = p * z * b / (cos(beta) * N_z)
///
/// # Symbols
/// K length of gear tooth. p gears. z teeth. b face width. beta helix angle. N_z hob teeth in use.
/// # Range
/// Wear spread evenly over the useful length by shifting.
/// # Source
/// [hob-working-conditions]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{Gear, hob_tooth_use};
/// use wearland::quantity::{Angle, Length};
/// let gear = Gear {
///     module: Length::mm(3.0),
///     teeth: 40,
///     helix: Angle::ZERO,
///     face: Length::mm(30.0),
///     whole_depth: Length::mm(6.75),
/// };
/// assert!((hob_tooth_use(120.0, &gear, 140.056).to_m() - 1.0282).abs() < 1e-4);
/// ```
#[must_use]
pub fn hob_tooth_use(pieces: f64, gear: &Gear, active_teeth: f64) -> Length {
    gear.face * (pieces * f64::from(gear.teeth) / (gear.helix.to_rad().cos() * active_teeth))
}

/// Formula of [`profile_generating_length`].
pub const PROFILE_GENERATING_LENGTH: Formula =
    Formula { figure: "profile-generating length", text: "l_P = 2 * h_a0 / tan(alpha)", source: "derived" };

/// Length of a hob that generates the profile, and so cannot be shifted away.
///
/// l_P = 2 * h_a0 / tan(alpha)
///
/// # Symbols
/// l_P length. h_a0 addendum of the hob: 1 module, 1.25 modules to be safe. alpha pressure angle.
/// # Range
/// Near enough for planning; the exact length depends on gear and swivel angle.
/// # Source
/// \[derived\]: flanks of the rack across twice the addendum. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::profile_generating_length;
/// use wearland::quantity::{Angle, Length};
/// let length = profile_generating_length(Length::mm(3.0), Angle::deg(20.0));
/// assert!((length.to_mm() - 16.48).abs() < 1e-2);
/// ```
#[must_use]
pub fn profile_generating_length(addendum: Length, pressure: Angle) -> Length {
    addendum * (2.0 / pressure.to_rad().tan())
}

/// Formula of [`shiftable_length`].
pub const SHIFTABLE_LENGTH: Formula =
    Formula { figure: "shiftable length", text: "l_s = l_3 - l_e - l_P", source: "hob-shifting-length" };

/// Length by which a hob can be shifted before it is sharpened.
///
/// l_s = l_3 - l_e - l_P
///
/// # Symbols
/// l_s shiftable length. l_3 useful length. l_e length of the zone that enters first. l_P profile-generating length.
/// # Range
/// Not negative; the machine must be able to shift so far.
/// # Source
/// [hob-shifting-length]. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::shiftable_length;
/// use wearland::quantity::Length;
/// let length = shiftable_length(Length::mm(120.0), Length::mm(28.0), Length::mm(20.6));
/// assert!((length.to_mm() - 71.4).abs() < 1e-9);
/// ```
#[must_use]
pub fn shiftable_length(useful: Length, entering: Length, generating: Length) -> Length {
    (useful - entering - generating).larger(Length::ZERO)
}

/// Places a hob can stand at: whole steps in its shiftable length, and the first place.
///
/// ```
/// use wearland::cutting::hobbing::shift_positions;
/// use wearland::quantity::Length;
/// assert_eq!(shift_positions(Length::mm(71.4), Length::mm(1.5)), 48);
/// ```
#[must_use]
pub fn shift_positions(shiftable: Length, step: Length) -> u32 {
    whole(shiftable / step) + 1
}

/// Sharpenings a hob tooth can stand: whole cuts of the stock in the usable length of the tooth.
///
/// ```
/// use wearland::cutting::hobbing::sharpenings;
/// use wearland::quantity::Length;
/// assert_eq!(sharpenings(Length::mm(6.0), Length::mm(0.35)), 17);
/// ```
#[must_use]
pub fn sharpenings(tooth_length: Length, stock: Length) -> u32 {
    whole(tooth_length / stock)
}

/// What a hob costs over its life.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HobCost {
    /// Price of the hob.
    pub price: Money,
    /// Cost of one sharpening, with its coating.
    pub sharpening: Money,
    /// Sharpenings.
    pub sharpenings: u32,
    /// Gears cut with each sharp state.
    pub pieces: f64,
}

/// Formula of [`hob_cost_per_piece`].
pub const HOB_COST_PER_PIECE: Formula = Formula {
    figure: "hob cost of a gear",
    text: "c = (C_0 + n_s * C_s) / ((n_s + 1) * p)",
    source: "derived",
};

/// Cost of the hob for each gear.
///
/// c = (C_0 + n_s * C_s) / ((n_s + 1) * p)
///
/// # Symbols
/// c cost of a gear. C_0 price of the hob. n_s sharpenings. C_s cost of one. p gears with each sharp state.
/// # Range
/// p above zero; the time to change the hob is not in it.
/// # Source
/// \[derived\]: all that is spent over all that is cut. Worked examples: tests/published/gears.toml.
/// # Example
/// ```
/// use wearland::cutting::hobbing::{HobCost, hob_cost_per_piece};
/// use wearland::quantity::Money;
/// let cost = hob_cost_per_piece(HobCost {
///     price: Money::of(1200.0),
///     sharpening: Money::of(90.0),
///     sharpenings: 12,
///     pieces: 250.0,
/// });
/// assert!((cost.amount() - 0.7015).abs() < 1e-4);
/// ```
#[must_use]
pub fn hob_cost_per_piece(cost: HobCost) -> Money {
    let count = f64::from(cost.sharpenings);
    (cost.price + cost.sharpening * count) / ((count + 1.0) * cost.pieces)
}

/// Whole part of a ratio of lengths; a hair below a whole counts as whole.
fn whole(ratio: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between 0 and a million, not a number becomes 0"
    )]
    let count = (ratio + 1e-9).clamp(0.0, MOST) as u32;
    count
}
