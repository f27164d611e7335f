//! Functions of one variable on even cells: a cubic per cell, found without a search.

use super::real::Real;
use wide::f64x4;

/// Coefficients of `c0 + c1 s + c2 s2 + c3 s3`, `s` from 0 to 1 across a cell.
pub type Cubic = [f64; 4];

/// Number of functions that are read together.
pub const TOGETHER: usize = 4;

/// Four functions on `L` cells of one width; `L` is a power of two. The table is a constant of the
/// model, shared by all designs. The four lie side by side, so that one row of vector instructions
/// reads them all at the place of a design: a gather of every coefficient costs twice as much.
#[derive(Debug, Clone)]
pub struct EvenTable<const L: usize> {
    start: f64,
    per_cell: f64,
    /// Per cell the coefficients by powers of `s`, each of all functions.
    cells: Box<[[f64x4; 4]; L]>,
}

/// A point on the table, ready to evaluate its functions.
#[derive(Debug, Clone, Copy)]
pub struct EvenPlace<R: Real> {
    /// The cell.
    pub cell: R::Cell,
    /// How far it reaches into its cell, from 0 to 1.
    pub s: R,
}

impl<const L: usize> EvenTable<L> {
    /// A table from `start` on; `cell` gives the coefficients of the functions in one cell.
    pub fn new(start: f64, width: f64, cell: impl Fn(usize) -> [Cubic; TOGETHER]) -> Self {
        const { assert!(L.is_power_of_two(), "cells are found by a mask") };
        let side_by_side = |functions: [Cubic; TOGETHER]| {
            std::array::from_fn(|power| f64x4::new(functions.map(|cubic| cubic[power])))
        };
        let cells: Vec<_> = (0..L).map(|index| side_by_side(cell(index))).collect();
        let Ok(cells) = cells.into_boxed_slice().try_into() else {
            unreachable!("as many cells as the table has")
        };
        Self {
            start,
            per_cell: 1.0 / width,
            cells,
        }
    }

    /// Where `x` lies, which must be within the table and not on its upper end.
    #[inline(always)]
    pub fn place<R: Real>(&self, x: R) -> EvenPlace<R> {
        let (cell, s) = ((x - self.start) * self.per_cell).split();
        EvenPlace { cell, s }
    }

    /// Values of the functions.
    #[inline(always)]
    pub fn values<R: Real>(&self, place: &EvenPlace<R>) -> [R; TOGETHER] {
        place.s.chart_in(place.cell, |cell, s| {
            let [c0, c1, c2, c3] = self.cells[cell & (L - 1)];
            let s = f64x4::splat(s);
            let value = c0 + s * (c1 + s * (c2 + s * c3));
            let slope = c1 + s * (c2 * 2.0 + s * (c3 * 3.0));
            paired(value, slope)
        })
    }

    /// Slopes of the functions.
    #[inline(always)]
    pub fn slopes<R: Real>(&self, place: &EvenPlace<R>) -> [R; TOGETHER] {
        let slopes: [R; TOGETHER] = place.s.chart_in(place.cell, |cell, s| {
            let [_, c1, c2, c3] = self.cells[cell & (L - 1)];
            let s = f64x4::splat(s);
            let slope = c1 + s * (c2 * 2.0 + s * (c3 * 3.0));
            let bend = c2 * 2.0 + s * (c3 * 6.0);
            paired(slope, bend)
        });
        slopes.map(|slope| slope * self.per_cell)
    }
}

#[inline(always)]
fn paired(values: f64x4, slopes: f64x4) -> [(f64, f64); TOGETHER] {
    let (values, slopes) = (values.to_array(), slopes.to_array());
    std::array::from_fn(|k| (values[k], slopes[k]))
}

/// The cubic through four even points across a cell, both ends among them.
pub fn sampled_cell(start: f64, width: f64, function: impl Fn(f64) -> f64) -> Cubic {
    let [a, b, c, d] = [0.0, 1.0, 2.0, 3.0].map(|third| function(start + width * (third / 3.0)));
    [
        a,
        -5.5 * a + 9.0 * b - 4.5 * c + d,
        9.0 * a - 22.5 * b + 18.0 * c - 4.5 * d,
        -4.5 * a + 13.5 * b - 13.5 * c + 4.5 * d,
    ]
}

/// Value of `c0 + c1 s + c2 s2 + c3 s3`.
#[inline]
pub fn cubic_at<R: Real>([c0, c1, c2, c3]: &[R; 4], s: R) -> R {
    *c0 + s * (*c1 + s * (*c2 + s * *c3))
}

/// The cubic across a cell of width `width` that meets value and slope at both ends.
pub fn hermite_cell<R: Real>(width: f64, [low, high]: [(R, R); 2]) -> [R; 4] {
    let rise = high.0 - low.0;
    let (slope, top_slope) = (low.1 * width, high.1 * width);
    [
        low.0,
        slope,
        rise * 3.0 - slope * 2.0 - top_slope,
        slope + top_slope - rise * 2.0,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::Dual;

    #[test]
    fn a_cubic_is_met_everywhere_with_its_slopes() {
        let cube = |x: f64| 2.0 - x + 0.5 * x * x * x;
        let slope = |x: f64| -1.0 + 1.5 * x * x;
        let table = EvenTable::<8>::new(-1.0, 0.5, |index| {
            let cell = |function: &dyn Fn(f64) -> f64| {
                sampled_cell(-1.0 + 0.5 * index as f64, 0.5, function)
            };
            [
                cell(&cube),
                cell(&|x| 2.0 * cube(x)),
                cell(&|x| x),
                [0.0; 4],
            ]
        });
        for x in [-1.0, -0.75, -0.5, 0.0, 0.3, 2.0, 2.999] {
            let place = table.place(Dual::<1>::variable(x, 0));
            let [_, found, line, none] = table.values(&place);
            approx::assert_relative_eq!(found.value, 2.0 * cube(x), epsilon = 1e-13);
            approx::assert_relative_eq!(found.partials[0], 2.0 * slope(x), epsilon = 1e-12);
            approx::assert_relative_eq!(line.value, x, epsilon = 1e-14);
            assert_eq!((none.value, none.partials[0]), (0.0, 0.0));
            let [found, ..] = table.slopes(&place);
            approx::assert_relative_eq!(found.value, slope(x), epsilon = 1e-12);
            approx::assert_relative_eq!(found.partials[0], 3.0 * x, epsilon = 1e-11);
        }
        let [c0, c1, c2, c3] = hermite_cell(0.5, [0.0, 0.5].map(|x| (cube(x), slope(x))));
        let at = |s: f64| c0 + s * (c1 + s * (c2 + s * c3));
        approx::assert_relative_eq!(at(0.4), cube(0.2), epsilon = 1e-15);
    }

    #[test]
    fn a_place_that_is_no_number_has_no_value() {
        let table = EvenTable::<4>::new(0.0, 1.0, |index| [[index as f64, 1.0, 0.0, 0.0]; 4]);
        assert!(
            table
                .values(&table.place(f64::NAN))
                .iter()
                .all(|value| value.is_nan())
        );
    }
}
