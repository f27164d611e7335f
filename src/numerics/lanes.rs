//! [`Lanes`]: a block of designs evaluated side by side.

use super::real::{Mask, Real, WHOLE};
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};
use wide::f64x4;

/// `N` numbers, one per design of a block. Each lane keeps the very bits of a scalar run.
#[derive(Debug, Clone, Copy, PartialEq)]
#[repr(align(64))]
pub struct Lanes<const N: usize>(pub [f64; N]);

/// One truth value per lane: all bits set for true, none for false.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[repr(align(64))]
pub struct LaneMask<const N: usize>([u64; N]);

impl<const N: usize> Lanes<N> {
    /// One operation on four lanes at a time, in vectors: the compiler packs plain loops too, but unpacks
    /// them again wherever a lane is looked at.
    #[inline(always)]
    fn packed(
        self,
        other: Self,
        four: impl Fn(f64x4, f64x4) -> f64x4,
        one: impl Fn(f64, f64) -> f64,
    ) -> Self {
        let mut out = self;
        let (fours, rest) = out.0.as_chunks_mut::<4>();
        let (others, others_rest) = other.0.as_chunks::<4>();
        for (a, b) in fours.iter_mut().zip(others) {
            *a = four(f64x4::new(*a), f64x4::new(*b)).to_array();
        }
        for (a, b) in rest.iter_mut().zip(others_rest) {
            *a = one(*a, *b);
        }
        out
    }
    #[inline(always)]
    fn each(self, operation: impl Fn(f64) -> f64) -> Self {
        let mut out = self;
        for lane in 0..N {
            out.0[lane] = operation(self.0[lane]);
        }
        out
    }

    #[inline(always)]
    fn zip(self, other: Self, operation: impl Fn(f64, f64) -> f64) -> Self {
        let mut out = self;
        for lane in 0..N {
            out.0[lane] = operation(self.0[lane], other.0[lane]);
        }
        out
    }
}

impl<const N: usize> LaneMask<N> {
    #[inline(always)]
    fn zip(self, other: Self, operation: impl Fn(u64, u64) -> u64) -> Self {
        let mut out = self;
        for lane in 0..N {
            out.0[lane] = operation(self.0[lane], other.0[lane]);
        }
        out
    }
}

impl<const N: usize> Mask for LaneMask<N> {
    #[inline(always)]
    fn any(self) -> bool {
        self.0.iter().fold(0, |all, lane| all | lane) != 0
    }
}

impl<const N: usize> BitAnd for LaneMask<N> {
    type Output = Self;
    #[inline(always)]
    fn bitand(self, other: Self) -> Self {
        self.zip(other, |a, b| a & b)
    }
}

impl<const N: usize> BitOr for LaneMask<N> {
    type Output = Self;
    #[inline(always)]
    fn bitor(self, other: Self) -> Self {
        self.zip(other, |a, b| a | b)
    }
}

impl<const N: usize> Not for LaneMask<N> {
    type Output = Self;
    #[inline(always)]
    fn not(self) -> Self {
        self.zip(self, |a, _| !a)
    }
}

macro_rules! lane_operator {
    ($($trait:ident $method:ident $operator:tt),*) => {$(
        impl<const N: usize> $trait for Lanes<N> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                self.packed(other, |a, b| a $operator b, |a, b| a $operator b)
            }
        }
        impl<const N: usize> $trait<f64> for Lanes<N> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: f64) -> Self {
                self $operator Self([other; N])
            }
        }
    )*};
}
lane_operator!(Add add +, Sub sub -, Mul mul *, Div div /);

impl<const N: usize> Neg for Lanes<N> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        self.each(|lane| -lane)
    }
}

impl<const N: usize> Real for Lanes<N> {
    const WIDTH: usize = N;
    type Mask = LaneMask<N>;
    type Cell = [usize; N];

    #[inline(always)]
    fn splat(value: f64) -> Self {
        Self([value; N])
    }
    fn chart<const K: usize>(self, function: impl Fn(f64) -> [(f64, f64); K]) -> [Self; K] {
        let mut out = [Self([0.0; N]); K];
        for lane in 0..N {
            for (column, (value, _)) in out.iter_mut().zip(function(self.0[lane])) {
                column.0[lane] = value;
            }
        }
        out
    }
    fn lane(self, lane: usize) -> f64 {
        self.0[lane]
    }
    fn only(lane: usize) -> LaneMask<N> {
        Self(std::array::from_fn(
            |other| if other == lane { -1.0 } else { 1.0 },
        ))
        .below(0.0)
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        self.each(f64::sqrt)
    }
    #[inline(always)]
    fn lt(self, other: Self) -> LaneMask<N> {
        let mut out = LaneMask([0; N]);
        for lane in 0..N {
            out.0[lane] = if self.0[lane] < other.0[lane] {
                u64::MAX
            } else {
                0
            };
        }
        out
    }
    #[inline(always)]
    fn select(self, other: Self, mask: LaneMask<N>) -> Self {
        let mut out = other;
        for lane in 0..N {
            let (own, rest) = (self.0[lane].to_bits(), other.0[lane].to_bits());
            out.0[lane] = f64::from_bits((own & mask.0[lane]) | (rest & !mask.0[lane]));
        }
        out
    }
    #[inline(always)]
    fn locate(self, find: impl Fn(f64) -> usize) -> [usize; N] {
        let mut cells = [0; N];
        for (cell, value) in cells.iter_mut().zip(self.0) {
            *cell = find(value);
        }
        cells
    }
    #[inline(always)]
    fn pick<'t, const K: usize>(
        cell: [usize; N],
        row: impl Fn(usize) -> &'t [Self; K],
    ) -> [Self; K] {
        let mut out = [Self([0.0; N]); K];
        for (lane, cell) in cell.into_iter().enumerate() {
            for (column, value) in out.iter_mut().zip(row(cell)) {
                column.0[lane] = value.0[lane];
            }
        }
        out
    }
    #[inline(always)]
    fn chart_in<const K: usize>(
        self,
        cell: [usize; N],
        function: impl Fn(usize, f64) -> [(f64, f64); K],
    ) -> [Self; K] {
        let mut out = [Self([0.0; N]); K];
        for (lane, cell) in cell.into_iter().enumerate() {
            let row = function(cell, self.0[lane]);
            for (column, (value, _)) in out.iter_mut().zip(row) {
                column.0[lane] = value;
            }
        }
        out
    }
    #[inline(always)]
    fn split(self) -> ([usize; N], Self) {
        let shifted = self - 0.5 + WHOLE;
        let cells = shifted.0.map(|lane| lane.to_bits() as u32 as usize);
        (cells, self - (shifted - WHOLE))
    }
    #[inline(always)]
    fn gather<const K: usize>(cell: [usize; N], row: impl Fn(usize) -> [f64; K]) -> [Self; K] {
        let mut out = [Self([0.0; N]); K];
        for (lane, cell) in cell.into_iter().enumerate() {
            for (column, value) in out.iter_mut().zip(row(cell)) {
                column.0[lane] = value;
            }
        }
        out
    }
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        self.zip(other, |a, b| if b < a { b } else { a })
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        self.zip(other, |a, b| if a < b { b } else { a })
    }
    fn is_finite(self) -> LaneMask<N> {
        let mut out = LaneMask([0; N]);
        for lane in 0..N {
            out.0[lane] = if self.0[lane].is_finite() {
                u64::MAX
            } else {
                0
            };
        }
        out
    }
}
