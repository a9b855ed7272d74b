//! The same arithmetic for one number and for a SIMD register.

use std::ops::{Add, Div, Mul, Neg, Sub};

use pulp::Simd;

/// Number type of the movement formulas.
pub(crate) trait Real:
    Copy + Add<Output = Self> + Sub<Output = Self> + Mul<Output = Self> + Div<Output = Self> + Neg<Output = Self>
{
    /// The same number in every lane.
    fn of(self, x: f32) -> Self;
    fn sqrt(self) -> Self;
    fn max(self, other: Self) -> Self;
    fn min(self, other: Self) -> Self;
    /// `yes` where this number is positive, else `no`.
    fn if_positive(self, yes: Self, no: Self) -> Self;

    #[inline(always)]
    fn within(self, low: f32, high: f32) -> Self {
        self.max(self.of(low)).min(self.of(high))
    }
}

impl Real for f32 {
    #[inline(always)]
    fn of(self, x: f32) -> Self {
        x
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        self.sqrt()
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        if self > other { self } else { other }
    }
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        if self < other { self } else { other }
    }
    #[inline(always)]
    fn if_positive(self, yes: Self, no: Self) -> Self {
        if self > 0.0 { yes } else { no }
    }
}

/// A SIMD register of numbers.
pub(crate) struct Lanes<S: Simd>(pub S, pub S::f32s);

impl<S: Simd> Clone for Lanes<S> {
    #[inline(always)]
    fn clone(&self) -> Self {
        *self
    }
}
impl<S: Simd> Copy for Lanes<S> {}

macro_rules! operator {
    ($trait:ident, $name:ident, $call:ident) => {
        impl<S: Simd> $trait for Lanes<S> {
            type Output = Self;
            #[inline(always)]
            fn $name(self, other: Self) -> Self {
                Self(self.0, self.0.$call(self.1, other.1))
            }
        }
    };
}
operator!(Add, add, add_f32s);
operator!(Sub, sub, sub_f32s);
operator!(Mul, mul, mul_f32s);
operator!(Div, div, div_f32s);

impl<S: Simd> Neg for Lanes<S> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self(self.0, self.0.neg_f32s(self.1))
    }
}

impl<S: Simd> Real for Lanes<S> {
    #[inline(always)]
    fn of(self, x: f32) -> Self {
        Self(self.0, self.0.splat_f32s(x))
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Self(self.0, self.0.sqrt_f32s(self.1))
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        Self(self.0, self.0.max_f32s(self.1, other.1))
    }
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        Self(self.0, self.0.min_f32s(self.1, other.1))
    }
    #[inline(always)]
    fn if_positive(self, yes: Self, no: Self) -> Self {
        let mask = self.0.greater_than_f32s(self.1, self.0.splat_f32s(0.0));
        Self(self.0, self.0.select_f32s(mask, yes.1, no.1))
    }
}
