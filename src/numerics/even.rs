//! Functions of one variable on even cells: a cubic per cell, found without a search.

use super::real::Real;

/// Coefficients of `c0 + c1 s + c2 s2 + c3 s3`, `s` from 0 to 1 across a cell.
pub type Cubic = [f64; 4];

/// `C` functions on `L` cells of one width; `L` is a power of two. The table is a constant of the
/// model, shared by all designs.
#[derive(Debug, Clone)]
pub struct EvenTable<const C: usize, const L: usize> {
    start: f64,
    per_cell: f64,
    cells: Box<[[Cubic; C]; L]>,
}

/// A point on the table, ready to evaluate any of its functions.
#[derive(Debug, Clone, Copy)]
pub struct EvenPlace<R: Real> {
    cell: R::Cell,
    /// How far it reaches into its cell, from 0 to 1.
    pub s: R,
}

impl<const C: usize, const L: usize> EvenTable<C, L> {
    /// A table from `start` on; `cell` gives the coefficients of one cell.
    pub fn new(start: f64, width: f64, cell: impl Fn(usize) -> [Cubic; C]) -> Self {
        const { assert!(L.is_power_of_two(), "cells are found by a mask") };
        let cells: Vec<[Cubic; C]> = (0..L).map(cell).collect();
        let Ok(cells) = cells.into_boxed_slice().try_into() else {
            unreachable!("as many cells as the table has")
        };
        Self {
            start,
            per_cell: 1.0 / width,
            cells,
        }
    }

    /// A table of cubics through four points of every cell, both ends among them.
    pub fn sampled(start: f64, width: f64, function: impl Fn(f64) -> [f64; C]) -> Self {
        Self::new(start, width, |index| {
            let at = |third: f64| function(start + width * (index as f64 + third / 3.0));
            let points = [0.0, 1.0, 2.0, 3.0].map(at);
            std::array::from_fn(|column| {
                let [a, b, c, d] = points.map(|point| point[column]);
                [
                    a,
                    -5.5 * a + 9.0 * b - 4.5 * c + d,
                    9.0 * a - 22.5 * b + 18.0 * c - 4.5 * d,
                    -4.5 * a + 13.5 * b - 13.5 * c + 4.5 * d,
                ]
            })
        })
    }

    /// Where `x` lies, which must be within the table and not on its upper end.
    #[inline]
    pub fn place<R: Real>(&self, x: R) -> EvenPlace<R> {
        let (cell, s) = ((x - self.start) * self.per_cell).split();
        EvenPlace { cell, s }
    }

    /// Coefficients of a function in the cell of a place, by powers of how far it reaches into it.
    #[inline]
    pub fn cubic<R: Real>(&self, place: &EvenPlace<R>, column: usize) -> [R; 4] {
        R::gather(place.cell, |index| self.cells[index & (L - 1)][column])
    }

    /// Value of a function.
    #[inline]
    pub fn value<R: Real>(&self, place: &EvenPlace<R>, column: usize) -> R {
        cubic_at(&self.cubic(place, column), place.s)
    }

    /// Slope of a function.
    #[inline]
    pub fn slope<R: Real>(&self, place: &EvenPlace<R>, column: usize) -> R {
        cubic_slope(&self.cubic(place, column), place.s) * self.per_cell
    }
}

/// Value of `c0 + c1 s + c2 s2 + c3 s3`.
#[inline]
pub fn cubic_at<R: Real>([c0, c1, c2, c3]: &[R; 4], s: R) -> R {
    *c0 + s * (*c1 + s * (*c2 + s * *c3))
}

/// Its slope with `s`.
#[inline]
pub fn cubic_slope<R: Real>([_, c1, c2, c3]: &[R; 4], s: R) -> R {
    *c1 + s * (*c2 * 2.0 + s * (*c3 * 3.0))
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
    fn a_cubic_is_met_everywhere_with_its_slope() {
        let cube = |x: f64| 2.0 - x + 0.5 * x * x * x;
        let slope = |x: f64| -1.0 + 1.5 * x * x;
        let table = EvenTable::<2, 8>::sampled(-1.0, 0.5, |x| [cube(x), 2.0 * cube(x)]);
        for x in [-1.0, -0.75, -0.5, 0.0, 0.3, 2.0, 2.999] {
            let place = table.place(Dual::<1>::variable(x, 0));
            let found = table.value(&place, 1);
            approx::assert_relative_eq!(found.value, 2.0 * cube(x), epsilon = 1e-13);
            approx::assert_relative_eq!(found.partials[0], 2.0 * slope(x), epsilon = 1e-12);
            let found = table.slope(&table.place(x), 0);
            approx::assert_relative_eq!(found, slope(x), epsilon = 1e-12);
        }
        let [c0, c1, c2, c3] = hermite_cell(0.5, [0.0, 0.5].map(|x| (cube(x), slope(x))));
        let at = |s: f64| c0 + s * (c1 + s * (c2 + s * c3));
        approx::assert_relative_eq!(at(0.4), cube(0.2), epsilon = 1e-15);
    }

    #[test]
    fn a_place_that_is_no_number_has_no_value() {
        let table = EvenTable::<1, 4>::sampled(0.0, 1.0, |x| [x]);
        assert!(table.value(&table.place(f64::NAN), 0).is_nan());
    }
}
