//! Natural cubic splines over shared knots: twice continuously differentiable, so that a fixed step
//! grid and its derivatives see no kinks at the knots.

use super::real::Real;

/// Ascending abscissae with the factored equations of the natural cubic spline. The knots are
/// constants of the form; columns of ordinates may differ from design to design.
///
/// Source of the equations: Press, Teukolsky, Vetterling, Flannery, "Numerical Recipes", section
/// 3.3 "Cubic Spline Interpolation", equations 3.3.3 to 3.3.7 (from memory; the tests compare with
/// a general-purpose reference library).
#[derive(Debug, Clone, PartialEq)]
pub struct Knots {
    x: Vec<f64>,
    /// Elimination factors of the tridiagonal system for the second derivatives.
    factor: Vec<f64>,
    pivot: Vec<f64>,
}

/// Ordinates and second derivatives of one spline, held in a fixed array (lane scratch).
#[derive(Debug, Clone, Copy)]
pub struct Column<R, const N: usize> {
    y: [R; N],
    curvature: [R; N],
}

impl Knots {
    /// Knots must be at least two, finite and strictly ascending; the caller checks at the door.
    pub fn new(x: Vec<f64>) -> Self {
        let n = x.len();
        let mut factor = vec![0.0; n];
        let mut pivot = vec![1.0; n];
        for i in 1..n.saturating_sub(1) {
            let ratio = (x[i] - x[i - 1]) / (x[i + 1] - x[i - 1]);
            pivot[i] = ratio * factor[i - 1] + 2.0;
            factor[i] = (ratio - 1.0) / pivot[i];
        }
        Self { x, factor, pivot }
    }

    /// The abscissae.
    pub fn positions(&self) -> &[f64] {
        &self.x
    }

    /// The spline through `y`; entries beyond the number of knots are ignored.
    pub fn column<R: Real, const N: usize>(&self, y: [R; N]) -> Column<R, N> {
        let x = &self.x;
        let n = x.len();
        let mut u = [R::splat(0.0); N];
        let mut curvature = [R::splat(0.0); N];
        for i in 1..n - 1 {
            let ratio = (x[i] - x[i - 1]) / (x[i + 1] - x[i - 1]);
            let bend =
                (y[i + 1] - y[i]) / (x[i + 1] - x[i]) - (y[i] - y[i - 1]) / (x[i] - x[i - 1]);
            u[i] = (bend * (6.0 / (x[i + 1] - x[i - 1])) - u[i - 1] * ratio) / self.pivot[i];
        }
        for i in (1..n - 1).rev() {
            curvature[i] = curvature[i + 1] * self.factor[i] + u[i];
        }
        Column { y, curvature }
    }

    /// Where `x` lies: its cell and the four spline weights. Beyond either end the end value holds.
    pub fn place<R: Real>(&self, x: R) -> Place<R> {
        let last = self.x.len() - 1;
        let x = x.clamp(self.x[0], self.x[last]);
        let cell = x.locate(&self.x);
        let left = R::pick_constant(&self.x, cell, 0);
        let right = R::pick_constant(&self.x, cell, 1);
        let width = right - left;
        let a = (right - x) / width;
        let b = (x - left) / width;
        let sixth = width * width / 6.0;
        Place {
            cell,
            a,
            b,
            a3: (a * a * a - a) * sixth,
            b3: (b * b * b - b) * sixth,
        }
    }
}

/// A point on the knots, ready to evaluate any number of columns.
#[derive(Debug, Clone, Copy)]
pub struct Place<R: Real> {
    cell: R::Cell,
    a: R,
    b: R,
    a3: R,
    b3: R,
}

impl<R: Real, const N: usize> Column<R, N> {
    /// The spline's value.
    pub fn at(&self, place: &Place<R>) -> R {
        place.a * R::pick(&self.y, place.cell, 0)
            + place.b * R::pick(&self.y, place.cell, 1)
            + place.a3 * R::pick(&self.curvature, place.cell, 0)
            + place.b3 * R::pick(&self.curvature, place.cell, 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn passes_through_its_ordinates_and_holds_the_ends() {
        let knots = Knots::new(vec![0.0, 1.0, 3.0, 4.0]);
        let column = knots.column([1.0, 2.0, 0.0, 5.0]);
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
        let column = knots.column([0.0, 1.0, 6.0]);
        approx::assert_relative_eq!(column.at(&knots.place(1.7)), 3.4, epsilon = 1e-14);
    }
}
