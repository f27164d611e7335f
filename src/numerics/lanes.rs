//! [`Lanes`]: a block of designs evaluated side by side.

use super::real::{Mask, Real};
use std::ops::{Add, BitAnd, BitOr, Div, Mul, Neg, Not, Sub};

/// `N` numbers, one per design of a block. Plain arrays in plain loops: the compiler turns them
/// into vector instructions, and each lane keeps the very bits of a scalar run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lanes<const N: usize>(pub [f64; N]);

/// One truth value per lane.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LaneMask<const N: usize>([bool; N]);

impl<const N: usize> Lanes<N> {
    fn zip(self, other: Self, operation: impl Fn(f64, f64) -> f64) -> Self {
        Self(std::array::from_fn(|lane| {
            operation(self.0[lane], other.0[lane])
        }))
    }
}

impl<const N: usize> Mask for LaneMask<N> {
    fn any(self) -> bool {
        self.0.iter().any(|lane| *lane)
    }
}

impl<const N: usize> BitAnd for LaneMask<N> {
    type Output = Self;
    fn bitand(self, other: Self) -> Self {
        Self(std::array::from_fn(|lane| self.0[lane] & other.0[lane]))
    }
}

impl<const N: usize> BitOr for LaneMask<N> {
    type Output = Self;
    fn bitor(self, other: Self) -> Self {
        Self(std::array::from_fn(|lane| self.0[lane] | other.0[lane]))
    }
}

impl<const N: usize> Not for LaneMask<N> {
    type Output = Self;
    fn not(self) -> Self {
        Self(self.0.map(|lane| !lane))
    }
}

macro_rules! lane_operator {
    ($($trait:ident $method:ident $operator:tt),*) => {$(
        impl<const N: usize> $trait for Lanes<N> {
            type Output = Self;
            fn $method(self, other: Self) -> Self {
                self.zip(other, |a, b| a $operator b)
            }
        }
        impl<const N: usize> $trait<f64> for Lanes<N> {
            type Output = Self;
            fn $method(self, other: f64) -> Self {
                Self(self.0.map(|lane| lane $operator other))
            }
        }
    )*};
}
lane_operator!(Add add +, Sub sub -, Mul mul *, Div div /);

impl<const N: usize> Neg for Lanes<N> {
    type Output = Self;
    fn neg(self) -> Self {
        Self(self.0.map(|lane| -lane))
    }
}

impl<const N: usize> Real for Lanes<N> {
    type Mask = LaneMask<N>;
    type Cell = [usize; N];

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
    fn sqrt(self) -> Self {
        Self(self.0.map(f64::sqrt))
    }
    fn lt(self, other: Self) -> LaneMask<N> {
        LaneMask(std::array::from_fn(|lane| self.0[lane] < other.0[lane]))
    }
    fn select(self, other: Self, mask: LaneMask<N>) -> Self {
        Self(std::array::from_fn(|lane| {
            if mask.0[lane] {
                self.0[lane]
            } else {
                other.0[lane]
            }
        }))
    }
    fn locate(self, knots: &[f64]) -> [usize; N] {
        self.0.map(|lane| lane.locate(knots))
    }
    fn pick_constant(table: &[f64], cell: [usize; N], offset: usize) -> Self {
        Self(cell.map(|cell| table[cell + offset]))
    }
    fn pick(table: &[Self], cell: [usize; N], offset: usize) -> Self {
        Self(std::array::from_fn(|lane| {
            table[cell[lane] + offset].0[lane]
        }))
    }
    fn is_finite(self) -> LaneMask<N> {
        LaneMask(self.0.map(f64::is_finite))
    }
}
