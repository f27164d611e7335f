//! Cubics over shared knots: natural splines, twice continuously differentiable, so that a fixed step
//! grid and its derivatives see no kinks; and monotone ones, which never leave the range of a table.

use super::even::{cubic_at, hermite_cell};
use super::finder::{Finder, narrowest};
use super::real::Real;
use std::array::from_fn;

/// Ascending abscissae with the factored equations of the natural cubic spline. The knots are
/// constants of the form; columns of ordinates may differ from design to design.
///
/// Source of the equations: Press, Teukolsky, Vetterling, Flannery, "Numerical Recipes", section
/// 3.3 "Cubic Spline Interpolation", equations 3.3.3 to 3.3.7 (from memory; the tests compare with
/// a general-purpose reference library).
#[derive(Debug, Clone, PartialEq)]
pub struct Knots {
    x: Vec<f64>,
    /// One over the width of each cell.
    per_width: Vec<f64>,
    finder: Finder,
    /// What the tridiagonal system for the second derivatives takes at each knot.
    elimination: Vec<Elimination>,
}

/// One row of the system, eliminated.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
struct Elimination {
    /// Weight of the change of slope at the knot.
    bend: f64,
    /// Weight of the row before.
    before: f64,
    /// Weight of the second derivative after, on the way back.
    after: f64,
}

/// One curve as a cubic per cell, `c0 + c1 s + c2 s2 + c3 s3` with `s` from 0 to 1, held in a fixed
/// array (lane scratch).
#[derive(Debug, Clone, Copy)]
pub struct Column<R, const N: usize> {
    cubics: [[R; 4]; N],
}

impl Knots {
    /// Knots must be at least two, finite and strictly ascending; the caller checks at the door.
    pub fn new(x: Vec<f64>) -> Self {
        let mut elimination = vec![Elimination::default(); x.len()];
        for i in 1..x.len() - 1 {
            let span = x[i + 1] - x[i - 1];
            let ratio = (x[i] - x[i - 1]) / span;
            let pivot = ratio * elimination[i - 1].after + 2.0;
            elimination[i] = Elimination {
                bend: 6.0 / (span * pivot),
                before: ratio / pivot,
                after: (ratio - 1.0) / pivot,
            };
        }
        let widths = x.windows(2).map(|pair| pair[1] - pair[0]);
        Self {
            per_width: widths.map(|width| 1.0 / width).collect(),
            finder: Finder::new(&x),
            elimination,
            x,
        }
    }

    /// Least distance of two knots.
    pub fn narrowest(&self) -> f64 {
        narrowest(&self.x)
    }

    /// The abscissae.
    pub fn positions(&self) -> &[f64] {
        &self.x
    }

    /// The spline through `y`; entries beyond the number of knots are ignored.
    pub fn column<R: Real, const N: usize>(&self, y: &[R; N]) -> Column<R, N> {
        let n = self.x.len();
        let zero = R::splat(0.0);
        let chord = |i: usize| (y[i + 1] - y[i]) * self.per_width[i];
        let mut curvature = [zero; N];
        for i in 1..n - 1 {
            let Elimination { bend, before, .. } = self.elimination[i];
            curvature[i] = (chord(i) - chord(i - 1)) * bend - curvature[i - 1] * before;
        }
        for i in (1..n - 1).rev() {
            curvature[i] = curvature[i + 1] * self.elimination[i].after + curvature[i];
        }
        let cubic = |i: usize| {
            let width = self.x[i + 1] - self.x[i];
            let sixth = width * width / 6.0;
            let (left, right) = (curvature[i] * sixth, curvature[i + 1] * sixth);
            let slope = y[i + 1] - y[i] - left * 2.0 - right;
            [y[i], slope, left * 3.0, right - left]
        };
        Column {
            cubics: from_fn(|i| if i + 1 < n { cubic(i) } else { [zero; 4] }),
        }
    }

    /// The curve through `y` that rises and falls only where the ordinates do, once continuously
    /// differentiable: for tables that others wrote, whose knots may stand far apart.
    ///
    /// Source: F. N. Fritsch and J. Butland, "A method for constructing local monotone piecewise
    /// cubic interpolants", SIAM Journal on Scientific and Statistical Computing 5, 1984, 300-304
    /// (weighted harmonic mean of the chords; from memory, the tests compare with a general-purpose
    /// reference library).
    pub fn monotone<R: Real, const N: usize>(&self, ordinates: &[f64]) -> Column<R, N> {
        let x = &self.x;
        let n = x.len();
        let width = |i: usize| x[i + 1] - x[i];
        let chord = |i: usize| (ordinates[i + 1] - ordinates[i]) / width(i);
        let inner = |i: usize| {
            let (before, after) = (chord(i - 1), chord(i));
            if before * after <= 0.0 {
                return 0.0;
            }
            let (first, second) = (2.0 * width(i) + width(i - 1), width(i) + 2.0 * width(i - 1));
            (first + second) / (first / before + second / after)
        };
        let end = |near: usize, next: usize| {
            if n == 2 {
                return chord(0);
            }
            let (a, b) = (width(near), width(next));
            let slope = ((2.0 * a + b) * chord(near) - a * chord(next)) / (a + b);
            if slope * chord(near) <= 0.0 {
                0.0
            } else if chord(near) * chord(next) <= 0.0 && slope.abs() > 3.0 * chord(near).abs() {
                3.0 * chord(near)
            } else {
                slope
            }
        };
        let mut y = [R::splat(0.0); N];
        let mut slopes = y;
        for (i, ordinate) in ordinates.iter().enumerate().take(n) {
            y[i] = R::splat(*ordinate);
            slopes[i] = R::splat(if i == 0 {
                end(0, 1.min(n - 2))
            } else if i == n - 1 {
                end(n - 2, n.saturating_sub(3))
            } else {
                inner(i)
            });
        }
        self.joined(&y, &slopes)
    }

    /// The cubics that meet ordinates and slopes at the knots.
    fn joined<R: Real, const N: usize>(&self, y: &[R; N], slope: &[R; N]) -> Column<R, N> {
        let mut cubics = [[R::splat(0.0); 4]; N];
        for (i, pair) in self.x.windows(2).enumerate() {
            let ends = [(y[i], slope[i]), (y[i + 1], slope[i + 1])];
            cubics[i] = hermite_cell(pair[1] - pair[0], ends);
        }
        Column { cubics }
    }

    /// Where `x` lies: its cell and how far it reaches into it. Beyond either end the end value holds.
    #[inline]
    pub fn place<R: Real>(&self, x: R) -> Place<R> {
        let x = x.clamp(self.x[0], self.x[self.x.len() - 1]);
        let cell = self.finder.cell(&self.x, x);
        let [left, per_width] = R::gather(cell, |k| [self.x[k], self.per_width[k]]);
        Place {
            cell,
            s: (x - left) * per_width,
        }
    }
}

/// A point on the knots, ready to evaluate any number of columns.
#[derive(Debug, Clone, Copy)]
pub struct Place<R: Real> {
    /// The cell.
    pub cell: R::Cell,
    /// How far it reaches into its cell, from 0 to 1.
    pub s: R,
}

impl<R: Real, const N: usize> Column<R, N> {
    /// That of one lane.
    pub fn lane(&self, lane: usize) -> Column<f64, N> {
        Column {
            cubics: self.cubics.map(|cubic| cubic.map(|entry| entry.lane(lane))),
        }
    }

    /// The curve with every ordinate multiplied.
    pub fn scaled(self, factor: R) -> Self {
        Self {
            cubics: self
                .cubics
                .map(|cubic| cubic.map(|coefficient| coefficient * factor)),
        }
    }

    /// The curve's value.
    #[inline]
    pub fn at(&self, place: &Place<R>) -> R {
        self.within(place.cell, place.s, |cell| cell)
    }

    /// The curve's value at a place that another table found: `cell` tells the cell of the knots from
    /// the cell of that table, `s` is how far the place reaches into the former.
    #[inline(always)]
    pub fn within(&self, place: R::Cell, s: R, cell: impl Fn(usize) -> usize) -> R {
        cubic_at(&R::pick(place, |index| &self.cubics[cell(index)]), s)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passes_through_its_ordinates_and_holds_the_ends() {
        let knots = Knots::new(vec![0.0, 1.0, 3.0, 4.0]);
        let column = knots.column(&[1.0, 2.0, 0.0, 5.0]);
        for (x, y) in [
            (0.0, 1.0),
            (1.0, 2.0),
            (3.0, 0.0),
            (4.0, 5.0),
            (9.0, 5.0),
            (-1.0, 1.0),
        ] {
            approx::assert_relative_eq!(column.at(&knots.place(x)), y, epsilon = 1e-14);
        }
    }

    #[test]
    fn a_straight_line_stays_straight() {
        let knots = Knots::new(vec![0.0, 0.5, 3.0]);
        let column = knots.column(&[0.0, 1.0, 6.0]);
        approx::assert_relative_eq!(column.at(&knots.place(1.7)), 3.4, epsilon = 1e-14);
    }
}
