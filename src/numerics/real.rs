//! [`Real`]: what a room may do with a number, so that one source serves a single design (`f64`),
//! a block of designs ([`super::Lanes`]) and derivatives ([`super::Dual`]).

use std::fmt::Debug;
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

/// The outcome of a comparison: one truth value per lane.
pub trait Mask: Copy + BitAnd<Output = Self> + BitOr<Output = Self> + Not<Output = Self> {
    /// Whether any lane is true.
    fn any(self) -> bool;
}

/// A real number, a block of them, or one with its derivatives.
///
/// Rooms never branch on a value: they compare to a [`Mask`] and `select`. Transcendental functions
/// rest on the pure-Rust `libm`, so every machine gives the same bits.
pub trait Real:
    Copy
    + Debug
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Add<f64, Output = Self>
    + Sub<f64, Output = Self>
    + Mul<f64, Output = Self>
    + Div<f64, Output = Self>
{
    /// Number of lanes.
    const WIDTH: usize;
    /// Truth values of a comparison.
    type Mask: Mask;
    /// The cell of a table that each lane falls into.
    type Cell: Copy;

    /// The same constant in every lane, with no derivative.
    fn splat(value: f64) -> Self;

    /// Applies a scalar function that returns `(value, derivative)` pairs; the derivative enters
    /// only where a kind carries one.
    fn chart<const K: usize>(self, function: impl Fn(f64) -> [(f64, f64); K]) -> [Self; K];

    /// The value of one lane.
    fn lane(self, lane: usize) -> f64;
    /// True in one lane alone.
    fn only(lane: usize) -> Self::Mask;

    /// Square root.
    fn sqrt(self) -> Self;
    /// Whether this is less than `other`.
    fn lt(self, other: Self) -> Self::Mask;
    /// `self` where the mask is true, `other` elsewhere.
    fn select(self, other: Self, mask: Self::Mask) -> Self;

    /// The cell of a table that a scalar function finds for each lane.
    fn locate(self, find: impl Fn(f64) -> usize) -> Self::Cell;
    /// The row of each lane's cell of a table that differs from lane to lane.
    fn pick<'t, const K: usize>(
        cell: Self::Cell,
        row: impl Fn(usize) -> &'t [Self; K],
    ) -> [Self; K]
    where
        Self: 't;

    /// Number of the cell that a place on even cells of width one lies in, and how far it reaches into
    /// it, from 0 to 1; a place on an edge may count to either side. Takes 0 to 2^31.
    fn split(self) -> (Self::Cell, Self);
    /// Like `chart`, for a function that is another one in every cell.
    fn chart_in<const K: usize>(
        self,
        cell: Self::Cell,
        function: impl Fn(usize, f64) -> [(f64, f64); K],
    ) -> [Self; K];
    /// The same row of constants for every lane's cell.
    fn gather<const K: usize>(cell: Self::Cell, row: impl Fn(usize) -> [f64; K]) -> [Self; K];

    /// Whether this is a number at all and finite.
    fn is_finite(self) -> Self::Mask;

    /// Whether this is less than a constant.
    fn below(self, limit: f64) -> Self::Mask {
        self.lt(Self::splat(limit))
    }
    /// Whether this is greater than a constant.
    fn above(self, limit: f64) -> Self::Mask {
        Self::splat(limit).lt(self)
    }
    /// The smaller of two.
    fn min(self, other: Self) -> Self {
        other.select(self, other.lt(self))
    }
    /// The larger of two.
    fn max(self, other: Self) -> Self {
        other.select(self, self.lt(other))
    }
    /// Absolute value.
    fn abs(self) -> Self {
        (-self).select(self, self.below(0.0))
    }
    /// Held within constants.
    fn clamp(self, lower: f64, upper: f64) -> Self {
        self.max(Self::splat(lower)).min(Self::splat(upper))
    }
    /// Square.
    fn squared(self) -> Self {
        self * self
    }
    /// Cube.
    fn cubed(self) -> Self {
        self * self * self
    }
    /// Exponential.
    fn exp(self) -> Self {
        let [y] = self.chart(|x| {
            let value = libm::exp(x);
            [(value, value)]
        });
        y
    }
    /// Natural logarithm.
    fn ln(self) -> Self {
        let [y] = self.chart(|x| [(libm::log(x), 1.0 / x)]);
        y
    }
    /// Decimal logarithm.
    fn log10(self) -> Self {
        let [y] = self.chart(|x| [(libm::log10(x), std::f64::consts::LOG10_E / x)]);
        y
    }
    /// Power with a constant exponent.
    fn powf(self, exponent: f64) -> Self {
        let [y] = self.chart(|x| {
            let value = libm::pow(x, exponent);
            [(value, exponent * libm::pow(x, exponent - 1.0))]
        });
        y
    }
    /// Sine.
    fn sin(self) -> Self {
        let [y] = self.chart(|x| [(libm::sin(x), libm::cos(x))]);
        y
    }
    /// Cosine.
    fn cos(self) -> Self {
        let [y] = self.chart(|x| [(libm::cos(x), -libm::sin(x))]);
        y
    }
    /// Arc tangent.
    fn atan(self) -> Self {
        let [y] = self.chart(|x| [(libm::atan(x), 1.0 / (1.0 + x * x))]);
        y
    }
}

impl Mask for bool {
    fn any(self) -> bool {
        self
    }
}

impl Real for f64 {
    const WIDTH: usize = 1;
    type Mask = bool;
    type Cell = usize;

    fn splat(value: f64) -> Self {
        value
    }
    fn chart<const K: usize>(self, function: impl Fn(f64) -> [(f64, f64); K]) -> [Self; K] {
        function(self).map(|(value, _)| value)
    }
    fn lane(self, _lane: usize) -> f64 {
        self
    }
    fn only(_lane: usize) -> bool {
        true
    }
    fn sqrt(self) -> Self {
        f64::sqrt(self)
    }
    fn lt(self, other: Self) -> bool {
        self < other
    }
    fn select(self, other: Self, mask: bool) -> Self {
        if mask { self } else { other }
    }
    fn locate(self, find: impl Fn(f64) -> usize) -> usize {
        find(self)
    }
    #[inline]
    fn pick<'t, const K: usize>(cell: usize, row: impl Fn(usize) -> &'t [Self; K]) -> [Self; K] {
        *row(cell)
    }
    #[inline]
    fn chart_in<const K: usize>(
        self,
        cell: usize,
        function: impl Fn(usize, f64) -> [(f64, f64); K],
    ) -> [Self; K] {
        function(cell, self).map(|(value, _)| value)
    }
    #[inline]
    fn split(self) -> (usize, f64) {
        let shifted = self - 0.5 + WHOLE;
        (shifted.to_bits() as u32 as usize, self - (shifted - WHOLE))
    }
    #[inline]
    fn gather<const K: usize>(cell: usize, row: impl Fn(usize) -> [f64; K]) -> [Self; K] {
        row(cell)
    }
    fn is_finite(self) -> bool {
        f64::is_finite(self)
    }
}

/// 2^52 and half of it: neighbouring numbers are one apart on either side, so that adding it rounds to a
/// whole number, which then stands in the lowest bits. Vector instructions of every processor can do that.
pub(super) const WHOLE: f64 = 6_755_399_441_055_744.0;
