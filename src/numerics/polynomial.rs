//! A smooth function of one variable as one polynomial.

use super::real::Real;
use std::array::from_fn;
use std::f64::consts::PI;

/// A polynomial of degree `N - 1` on an interval.
#[derive(Debug, Clone, Copy)]
pub struct Polynomial<const N: usize> {
    middle: f64,
    per_half: f64,
    /// Coefficients in the variable that runs from -1 to 1 over the interval.
    coefficients: [f64; N],
}

impl<const N: usize> Polynomial<N> {
    /// The polynomial that meets a function at the `N` Chebyshev points of an interval; for a function
    /// that is analytic around it, close to the best one there is.
    pub fn interpolating(lower: f64, upper: f64, function: impl Fn(f64) -> f64) -> Self {
        let (middle, half) = (0.5 * (lower + upper), 0.5 * (upper - lower));
        let points: [f64; N] = from_fn(|k| libm::cos(PI * (k as f64 + 0.5) / N as f64));
        // Newton's divided differences, then expanded from the innermost factor outwards.
        let mut differences = points.map(|t| function(middle + half * t));
        for order in 1..N {
            for k in (order..N).rev() {
                differences[k] =
                    (differences[k] - differences[k - 1]) / (points[k] - points[k - order]);
            }
        }
        let mut coefficients = [0.0; N];
        for k in (0..N).rev() {
            for power in (1..N).rev() {
                coefficients[power] = coefficients[power - 1] - points[k] * coefficients[power];
            }
            coefficients[0] = differences[k] - points[k] * coefficients[0];
        }
        Self {
            middle,
            per_half: 1.0 / half,
            coefficients,
        }
    }

    /// The value at a place within the interval.
    #[inline(always)]
    pub fn value<R: Real>(&self, x: R) -> R {
        let t = (x - self.middle) * self.per_half;
        let mut value = R::splat(self.coefficients[N - 1]);
        for coefficient in self.coefficients[..N - 1].iter().rev() {
            value = value * t + *coefficient;
        }
        value
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_polynomial_is_its_own() {
        let cube = |x: f64| 1.0 - 2.0 * x + 0.25 * x * x * x;
        let found = Polynomial::<4>::interpolating(-1.0, 3.0, cube);
        for x in [-1.0, 0.3, 2.0, 3.0] {
            approx::assert_relative_eq!(found.value(x), cube(x), epsilon = 1e-13);
        }
    }

    #[test]
    fn an_exponential_is_met_closely() {
        let found = Polynomial::<12>::interpolating(0.0, 2.0, libm::exp);
        for k in 0..=20 {
            let x = 0.1 * f64::from(k);
            approx::assert_relative_eq!(found.value(x), libm::exp(x), max_relative = 1e-11);
        }
    }
}
