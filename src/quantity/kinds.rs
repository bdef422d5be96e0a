//! The quantities of the trade. Factors follow from exact definitions: 1 in = 25.4 mm, 1 ft = 0.3048 m,
//! 1 lbf = 4.4482216152605 N, 1 hp = 745.69987158227022 W (mechanical horsepower, 550 ft lbf/s).

use super::define::quantities;
use super::measure::{Kind, Quantity, Unit};

const POUND_FORCE: f64 = 4.448_221_615_260_5;
const INCH: f64 = 25.4;
const FOOT_IN_METRES: f64 = 0.3048;
const HORSEPOWER_IN_KILOWATTS: f64 = 0.745_699_871_582_270_2;
const POUND_IN_KILOGRAMS: f64 = 0.453_592_37;

quantities! {
    /// A length, diameter or depth.
    Length, "length", metric "mm", inch "in", 1e-5 to 1e6 {
        mm => to_mm: "mm", "mm", 1.0, 2;
        inch => to_inch: "in", "in", INCH, 4;
        m => to_m: "m", "m", 1000.0, 3;
    } @also { "cm" = 10.0; "um" = 1e-3; "µm" = 1e-3; "ft" = 304.8; "inch" = INCH; }

    /// An area of section.
    Area, "area", metric "mm2", inch "in2", 1e-9 to 1e12 {
        mm2 => to_mm2: "mm2", "mm2", 1.0, 1;
        inch2 => to_inch2: "in2", "in2", INCH * INCH, 4;
    } @also { "cm2" = 100.0; }

    /// Cutting speed v_c: how fast the edge moves through the work.
    CuttingSpeed, "cutting speed", metric "m/min", inch "ft/min", 0.01 to 1e5 {
        m_per_min => to_m_per_min: "m/min", "m_per_min", 1.0, 1;
        ft_per_min => to_ft_per_min: "ft/min", "ft_per_min", FOOT_IN_METRES, 0;
    } @also { "sfm" = FOOT_IN_METRES; "fpm" = FOOT_IN_METRES; "m/s" = 60.0; }

    /// Spindle or table speed n.
    SpindleSpeed, "spindle speed", metric "rpm", inch "rpm", 0.01 to 1e6 {
        rpm => to_rpm: "rpm", "rpm", 1.0, 0;
    } @also { "1/min" = 1.0; "min-1" = 1.0; }

    /// Feed f for each turn of the spindle (hobbing: of the work).
    FeedPerRev, "feed per revolution", metric "mm/rev", inch "in/rev", 1e-5 to 1e3 {
        mm_per_rev => to_mm_per_rev: "mm/rev", "mm_per_rev", 1.0, 3;
        inch_per_rev => to_inch_per_rev: "in/rev", "in_per_rev", INCH, 4;
    } @also { "um/rev" = 1e-3; "ipr" = INCH; }

    /// Feed f_z for each tooth of a milling cutter.
    FeedPerTooth, "feed per tooth", metric "mm/tooth", inch "in/tooth", 1e-5 to 1e3 {
        mm_per_tooth => to_mm_per_tooth: "mm/tooth", "mm_per_tooth", 1.0, 3;
        inch_per_tooth => to_inch_per_tooth: "in/tooth", "in_per_tooth", INCH, 4;
    } @also { "ipt" = INCH; }

    /// Feed or rapid rate v_f of an axis.
    FeedRate, "feed rate", metric "mm/min", inch "in/min", 1e-3 to 1e7 {
        mm_per_min => to_mm_per_min: "mm/min", "mm_per_min", 1.0, 0;
        inch_per_min => to_inch_per_min: "in/min", "in_per_min", INCH, 1;
        m_per_min => to_m_per_min: "m/min", "m_per_min", 1000.0, 1;
    } @also { "ipm" = INCH; "mm/s" = 60.0; }

    /// A length of time.
    Duration, "time", metric "s", inch "s", 1e-3 to 3.2e7 {
        s => to_s: "s", "s", 1.0, 1;
        min => to_min: "min", "min", 60.0, 1;
        h => to_h: "h", "h", 3600.0, 2;
    } @also { "ms" = 1e-3; "sec" = 1.0; "days" = 86400.0; "day" = 86400.0; }

    /// Power.
    Power, "power", metric "kW", inch "hp", 1e-5 to 1e5 {
        kw => to_kw: "kW", "kw", 1.0, 2;
        hp => to_hp: "hp", "hp", HORSEPOWER_IN_KILOWATTS, 2;
        w => to_w: "W", "w", 1e-3, 0;
    }

    /// Torque.
    Torque, "torque", metric "N m", inch "lbf ft", 1e-4 to 1e7 {
        nm => to_nm: "N m", "n_m", 1.0, 1;
        lbf_ft => to_lbf_ft: "lbf ft", "lbf_ft", POUND_FORCE * FOOT_IN_METRES, 1;
    } @also { "Nm" = 1.0; "lbf in" = POUND_FORCE * FOOT_IN_METRES / 12.0; }

    /// Force.
    Force, "force", metric "N", inch "lbf", 1e-4 to 1e8 {
        n => to_n: "N", "n", 1.0, 0;
        lbf => to_lbf: "lbf", "lbf", POUND_FORCE, 0;
    } @also { "kN" = 1000.0; }

    /// Specific cutting force k_c, force for each area of chip section.
    SpecificForce, "specific cutting force", metric "N/mm2", inch "lbf/in2", 1.0 to 1e5 {
        n_per_mm2 => to_n_per_mm2: "N/mm2", "n_per_mm2", 1.0, 0;
        lbf_per_inch2 => to_lbf_per_inch2: "lbf/in2", "lbf_per_in2", POUND_FORCE / (INCH * INCH), 0;
    } @also { "MPa" = 1.0; "psi" = POUND_FORCE / (INCH * INCH); "kgf/mm2" = 9.806_65; }

    /// Volume of metal removed in a time, Q.
    RemovalRate, "removal rate", metric "cm3/min", inch "in3/min", 1e-6 to 1e6 {
        cm3_per_min => to_cm3_per_min: "cm3/min", "cm3_per_min", 1.0, 1;
        inch3_per_min => to_inch3_per_min: "in3/min", "in3_per_min", INCH * INCH * INCH / 1000.0, 2;
    } @also { "mm3/min" = 1e-3; "mm3/s" = 0.06; }

    /// Height of a surface profile, Rt or Ra.
    Roughness, "roughness", metric "um", inch "uin", 1e-4 to 1e5 {
        um => to_um: "um", "um", 1.0, 2;
        uin => to_uin: "uin", "uin", 0.0254, 0;
    } @also { "µm" = 1.0; "µin" = 0.0254; }

    /// Mass.
    Mass, "mass", metric "kg", inch "lb", 1e-6 to 1e6 {
        kg => to_kg: "kg", "kg", 1.0, 3;
        lb => to_lb: "lb", "lb", POUND_IN_KILOGRAMS, 3;
    } @also { "g" = 1e-3; "t" = 1000.0; }

    /// Mass of a volume.
    Density, "density", metric "g/cm3", inch "lb/in3", 0.1 to 30.0 {
        g_per_cm3 => to_g_per_cm3: "g/cm3", "g_per_cm3", 1.0, 2;
        lb_per_inch3 => to_lb_per_inch3: "lb/in3", "lb_per_in3", POUND_IN_KILOGRAMS * 1e6 / (INCH * INCH * INCH), 3;
    } @also { "kg/m3" = 1e-3; "kg/dm3" = 1.0; }

    /// Brinell hardness.
    Hardness, "hardness", metric "HB", inch "HB", 1.0 to 2000.0 {
        hb => to_hb: "HB", "hb", 1.0, 0;
    }

    /// Volume of metal.
    Volume, "volume", metric "cm3", inch "in3", 1e-9 to 1e9 {
        cm3 => to_cm3: "cm3", "cm3", 1.0, 2;
        inch3 => to_inch3: "in3", "in3", INCH * INCH * INCH / 1000.0, 3;
    } @also { "mm3" = 1e-3; "dm3" = 1000.0; "l" = 1000.0; }

    /// Volume ground in a time by each millimetre of wheel width, Q'w.
    SpecificRemovalRate, "specific removal rate", metric "mm3/(s mm)", inch "in3/(min in)", 1e-6 to 1e6 {
        mm3_per_s_mm => to_mm3_per_s_mm: "mm3/(s mm)", "mm3_per_s_mm", 1.0, 2;
        inch3_per_min_inch => to_inch3_per_min_inch: "in3/(min in)", "in3_per_min_in", INCH * INCH / 60.0, 3;
    } @also { "mm2/s" = 1.0; }

    /// Volume ground by each millimetre of wheel width, V'w.
    SpecificVolume, "specific volume", metric "mm3/mm", inch "in3/in", 1e-6 to 1e9 {
        mm3_per_mm => to_mm3_per_mm: "mm3/mm", "mm3_per_mm", 1.0, 1;
        inch3_per_inch => to_inch3_per_inch: "in3/in", "in3_per_in", INCH * INCH, 3;
    }

    /// Section sawn through in a time.
    SawingRate, "sawing rate", metric "cm2/min", inch "in2/min", 1e-6 to 1e6 {
        cm2_per_min => to_cm2_per_min: "cm2/min", "cm2_per_min", 1.0, 1;
        inch2_per_min => to_inch2_per_min: "in2/min", "in2_per_min", INCH * INCH / 100.0, 2;
    } @also { "mm2/min" = 0.01; }

    /// Mass times its distance from the axis: of chuck jaws, or of an unbalance.
    MassMoment, "mass moment", metric "kg m", inch "lb in", 1e-12 to 1e6 {
        kg_m => to_kg_m: "kg m", "kg_m", 1.0, 4;
        lb_inch => to_lb_inch: "lb in", "lb_in", POUND_IN_KILOGRAMS * INCH / 1000.0, 4;
    } @also { "g mm" = 1e-6; "kg mm" = 1e-3; "g cm" = 1e-5; "oz in" = POUND_IN_KILOGRAMS / 16.0 * INCH / 1000.0; }

    /// Modulus of elasticity E.
    ElasticModulus, "modulus of elasticity", metric "GPa", inch "Mpsi", 0.1 to 2000.0 {
        gpa => to_gpa: "GPa", "gpa", 1.0, 0;
        mpsi => to_mpsi: "Mpsi", "mpsi", POUND_FORCE / (INCH * INCH) * 1000.0, 1;
    } @also { "N/mm2" = 1e-3; "MPa" = 1e-3; }

    /// Strokes of a slotting or shaping tool.
    StrokeRate, "stroke rate", metric "strokes/min", inch "strokes/min", 0.01 to 1e5 {
        per_min => to_per_min: "strokes/min", "strokes_per_min", 1.0, 0;
    } @also { "1/min" = 1.0; }

    /// Feed for each stroke of a slotting or shaping tool.
    FeedPerStroke, "feed per stroke", metric "mm/stroke", inch "in/stroke", 1e-5 to 1e3 {
        mm_per_stroke => to_mm_per_stroke: "mm/stroke", "mm_per_stroke", 1.0, 3;
        inch_per_stroke => to_inch_per_stroke: "in/stroke", "in_per_stroke", INCH, 4;
    }

    /// An angle.
    Angle, "angle", metric "deg", inch "deg", 1e-3 to 360.0 {
        deg => to_deg: "deg", "deg", 1.0, 1;
        rad => to_rad: "rad", "rad", 180.0 / std::f64::consts::PI, 3;
    } @also { "°" = 1.0; }

    /// Money, in the scenario's own currency: a label, never an exchange.
    Money, "money", metric "", inch "", 1e-6 to 1e12 {
        of => amount: "", "", 1.0, 2;
    }

    /// Money for an hour, in the scenario's own currency.
    MoneyRate, "money for an hour", metric "/h", inch "/h", 1e-6 to 1e9 {
        per_h => to_per_h: "/h", "per_h", 1.0, 2;
    }
}

impl MoneyRate {
    /// What a time costs at this rate.
    #[must_use]
    pub fn over(self, time: Duration) -> Money {
        Money::of(self.to_per_h() * time.to_h())
    }
}

impl Duration {
    /// Whole seconds, rounded up: process time laid on the calendar.
    #[must_use]
    pub fn ceil_seconds(self) -> i64 {
        let seconds = (self.to_s() - 1e-9).ceil();
        #[expect(clippy::cast_possible_truncation, reason = "a plan spans far less than 2^53 seconds")]
        let whole = seconds as i64;
        whole
    }
}
