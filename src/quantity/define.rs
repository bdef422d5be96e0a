//! The macro behind every quantity: one line per unit gives constructor, getter, symbol, key and factor.

/// Defines quantities. `least to most` are the ends, in base units, of what a workshop can mean.
/// `name => getter: "symbol", "key", factor, decimals;` - the factor is base units per unit.
macro_rules! quantities {
    ($(
        $(#[$doc:meta])*
        $type:ident, $what:literal, metric $metric:literal, inch $inch:literal, $least:literal to $most:literal {
            $($make:ident => $get:ident: $symbol:literal, $key:literal, $factor:expr, $decimals:literal;)+
        }
        $(@also { $($other:literal = $other_factor:expr;)+ })?
    )+) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, Copy, PartialEq, PartialOrd, Default)]
        pub struct $type(f64);

        impl $type {
            /// Nothing of it.
            pub const ZERO: Self = Self(0.0);
            $(
                #[doc = concat!("From a number of ", $symbol, ".")]
                #[must_use]
                pub const fn $make(value: f64) -> Self {
                    Self(value * $factor)
                }
                #[doc = concat!("As a number of ", $symbol, ".")]
                #[must_use]
                pub const fn $get(self) -> f64 {
                    self.0 / $factor
                }
            )+
            /// The smaller of two.
            #[must_use]
            pub const fn smaller(self, other: Self) -> Self {
                Self(self.0.min(other.0))
            }
            /// The larger of two.
            #[must_use]
            pub const fn larger(self, other: Self) -> Self {
                Self(self.0.max(other.0))
            }
            /// Order along the number line, total, so that values can be sorted.
            #[must_use]
            pub fn total_cmp(&self, other: &Self) -> std::cmp::Ordering {
                self.0.total_cmp(&other.0)
            }
        }

        impl Quantity for $type {
            const KIND: &'static Kind = &Kind {
                name: $what,
                units: &[
                    $(Unit { symbol: $symbol, key: $key, factor: $factor, decimals: $decimals },)+
                    $($(Unit { symbol: $other, key: "", factor: $other_factor, decimals: 2 },)+)?
                ],
                metric: $metric,
                inch: $inch,
                least: $least,
                most: $most,
            };
            fn from_base(base: f64) -> Self {
                Self(base)
            }
            fn base(self) -> f64 {
                self.0
            }
        }

        impl std::ops::Add for $type {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }
        impl std::ops::AddAssign for $type {
            fn add_assign(&mut self, other: Self) {
                self.0 += other.0;
            }
        }
        impl std::ops::Sub for $type {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }
        impl std::ops::Mul<f64> for $type {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }
        impl std::ops::Div<f64> for $type {
            type Output = Self;
            fn div(self, divisor: f64) -> Self {
                Self(self.0 / divisor)
            }
        }
        impl std::ops::Div for $type {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }
        impl std::iter::Sum for $type {
            fn sum<I: Iterator<Item = Self>>(parts: I) -> Self {
                Self(parts.map(|part| part.0).sum())
            }
        }
    )+};
}
pub(super) use quantities;
