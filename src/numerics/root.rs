//! Root finding with a fixed number of steps, so that every lane of a block does the same work.

use super::real::Real;

/// Root of a function with one sign change in `[lower, upper]`.
///
/// `function` returns value and slope. Each step is a Newton step where that stays strictly inside
/// the bracket, else a bisection; the bracket closes from the side whose sign the value shows. A
/// lane whose residual is zero keeps its value. The last step is a Newton step without a bracket: at
/// the solution it changes nothing, but it carries the derivative of the root for kinds that have
/// one (implicit-function theorem).
pub fn bracketed_newton<R: Real>(
    lower: R,
    upper: R,
    steps: usize,
    function: impl Fn(R) -> (R, R),
) -> R {
    let (at_lower, _) = function(lower);
    let sign = R::splat(1.0).select(R::splat(-1.0), at_lower.below(0.0));
    let (mut low, mut high) = (lower, upper);
    let mut x = (low + high) * 0.5;
    for _ in 0..steps {
        let (raw, slope) = function(x);
        let value = raw * sign;
        let slope = slope * sign;
        let solved = !(value.below(0.0) | value.above(0.0));
        low = x.select(low, value.below(0.0));
        high = x.select(high, value.above(0.0));
        let newton = x - value / slope;
        let inside = low.lt(newton) & newton.lt(high);
        let next = newton.select((low + high) * 0.5, inside);
        x = x.select(next, solved);
    }
    let (value, slope) = function(x);
    let newton = x - value / slope;
    let settled = (newton - x).abs().lt((x.abs() + 1.0e-300) * 1.0e-6);
    newton.select(x, settled)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::Dual;

    #[test]
    fn cube_root_with_its_derivative() {
        let cube = Dual::<1>::variable(27.0, 0);
        let root = bracketed_newton(Dual::splat(0.0), Dual::splat(10.0), 60, |x| {
            (x.cubed() - cube, x.squared() * 3.0)
        });
        approx::assert_relative_eq!(root.value, 3.0, epsilon = 1e-14);
        approx::assert_relative_eq!(root.partials[0], 1.0 / 27.0, epsilon = 1e-14);
    }

    #[test]
    fn falling_functions_are_bracketed_too() {
        let root = bracketed_newton(0.0, 2.0, 60, |x: f64| (2.0 - x * x, -2.0 * x));
        approx::assert_relative_eq!(root, 2f64.sqrt(), epsilon = 1e-14);
    }
}
