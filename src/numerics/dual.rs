//! [`Dual`]: a number with `K` forward derivatives.

use super::real::Real;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A value and its partial derivatives with respect to `K` inputs. Comparisons look at the value
/// only; at a switch the derivative is the one of the branch taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dual<const K: usize> {
    /// The value itself.
    pub value: f64,
    /// Partial derivatives.
    pub partials: [f64; K],
}

impl<const K: usize> Dual<K> {
    /// An input: its derivative with respect to itself, at `index`, is one.
    pub fn variable(value: f64, index: usize) -> Self {
        let mut partials = [0.0; K];
        partials[index] = 1.0;
        Self { value, partials }
    }

    fn scaled(self, value: f64, slope: f64) -> Self {
        Self {
            value,
            partials: self.partials.map(|partial| partial * slope),
        }
    }

    fn combined(self, other: Self, value: f64, slope: f64, other_slope: f64) -> Self {
        Self {
            value,
            partials: std::array::from_fn(|k| {
                self.partials[k] * slope + other.partials[k] * other_slope
            }),
        }
    }
}

impl<const K: usize> Add for Dual<K> {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        self.combined(other, self.value + other.value, 1.0, 1.0)
    }
}

impl<const K: usize> Sub for Dual<K> {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self.combined(other, self.value - other.value, 1.0, -1.0)
    }
}

impl<const K: usize> Mul for Dual<K> {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        self.combined(other, self.value * other.value, other.value, self.value)
    }
}

impl<const K: usize> Div for Dual<K> {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let value = self.value / other.value;
        let slope = 1.0 / other.value;
        self.combined(other, value, slope, -value * slope)
    }
}

impl<const K: usize> Neg for Dual<K> {
    type Output = Self;
    fn neg(self) -> Self {
        self.scaled(-self.value, -1.0)
    }
}

impl<const K: usize> Add<f64> for Dual<K> {
    type Output = Self;
    fn add(self, other: f64) -> Self {
        self.scaled(self.value + other, 1.0)
    }
}

impl<const K: usize> Sub<f64> for Dual<K> {
    type Output = Self;
    fn sub(self, other: f64) -> Self {
        self.scaled(self.value - other, 1.0)
    }
}

impl<const K: usize> Mul<f64> for Dual<K> {
    type Output = Self;
    fn mul(self, other: f64) -> Self {
        self.scaled(self.value * other, other)
    }
}

impl<const K: usize> Div<f64> for Dual<K> {
    type Output = Self;
    fn div(self, other: f64) -> Self {
        self.scaled(self.value / other, 1.0 / other)
    }
}

impl<const K: usize> Real for Dual<K> {
    const WIDTH: usize = 1;
    type Mask = bool;
    type Cell = usize;

    fn lane(self, _lane: usize) -> f64 {
        self.value
    }
    fn only(_lane: usize) -> bool {
        true
    }
    fn splat(value: f64) -> Self {
        Self {
            value,
            partials: [0.0; K],
        }
    }
    fn chart<const C: usize>(self, function: impl Fn(f64) -> [(f64, f64); C]) -> [Self; C] {
        function(self.value).map(|(value, slope)| self.scaled(value, slope))
    }
    fn sqrt(self) -> Self {
        let root = self.value.sqrt();
        // At zero the slope is infinite; an input that does not move it must not turn it into NaN.
        let slope = if root > 0.0 { 0.5 / root } else { 0.0 };
        self.scaled(root, slope)
    }
    fn lt(self, other: Self) -> bool {
        self.value < other.value
    }
    fn select(self, other: Self, mask: bool) -> Self {
        if mask { self } else { other }
    }
    fn locate(self, find: impl Fn(f64) -> usize) -> usize {
        find(self.value)
    }
    fn pick<'t, const C: usize>(cell: usize, row: impl Fn(usize) -> &'t [Self; C]) -> [Self; C] {
        *row(cell)
    }
    fn chart_in<const C: usize>(
        self,
        cell: usize,
        function: impl Fn(usize, f64) -> [(f64, f64); C],
    ) -> [Self; C] {
        function(cell, self.value).map(|(value, slope)| self.scaled(value, slope))
    }
    fn split(self) -> (usize, Self) {
        let (cell, fraction) = self.value.split();
        (cell, self.scaled(fraction, 1.0))
    }
    fn gather<const C: usize>(cell: usize, row: impl Fn(usize) -> [f64; C]) -> [Self; C] {
        row(cell).map(Self::splat)
    }
    fn is_finite(self) -> bool {
        self.value.is_finite()
    }
}
