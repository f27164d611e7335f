//! The cubic between the ends of a step.

use crate::numerics::{Real, cubic_at, hermite_cell};

/// Cubic through two values and two slopes, at `x` from 0 to 1.
pub(super) fn hermite<R: Real>(x: R, start: R, start_slope: R, end: R, end_slope: R) -> R {
    cubic_at(
        &hermite_cell(1.0, [(start, start_slope), (end, end_slope)]),
        x,
    )
}

/// Where, from 0 to 1, the cubic through two rising values reaches `target` between them: the place
/// under constant acceleration, then five Newton steps, the last of which carries the derivative.
pub(super) fn reach<R: Real>(target: R, start: R, start_slope: R, end: R, end_slope: R) -> R {
    let rise = end - start;
    let curvature = rise * 3.0 - start_slope * 2.0 - end_slope;
    let twist = start_slope + end_slope - rise * 2.0;
    let gap = target - start;
    let squared =
        start_slope.squared() + (end_slope.squared() - start_slope.squared()) * (gap / rise);
    let mut x = gap * 2.0 / (start_slope + squared.max(R::splat(0.0)).sqrt());
    for _ in 0..5 {
        let value = x * (start_slope + x * (curvature + x * twist)) - gap;
        let slope = start_slope + x * (curvature * 2.0 + x * twist * 3.0);
        x = x - value / slope;
    }
    x.clamp(0.0, 1.0)
}

/// Where, from 0 to 1, the cubic that rises at its start and falls at its end is highest.
pub(super) fn top<R: Real>(start: R, start_slope: R, end: R, end_slope: R) -> R {
    // Derivative of the cubic: start_slope + 2 b x + 3 c x^2, with its root between 0 and 1.
    let rise = end - start;
    let b = rise * 3.0 - start_slope * 2.0 - end_slope;
    let c = start_slope + end_slope - rise * 2.0;
    let root = (b.squared() - c * start_slope * 3.0)
        .max(R::splat(0.0))
        .sqrt();
    (start_slope / (root - b)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cubic_from_rest_is_reached() {
        let at = |x: f64| 3.0 * x * x + 2.0 * x * x * x;
        let x = reach(at(0.3), 0.0, 0.0, at(1.0), 12.0);
        approx::assert_relative_eq!(x, 0.3, max_relative = 1e-12);
        approx::assert_relative_eq!(hermite(0.3, 0.0, 0.0, 5.0, 12.0), at(0.3));
    }
}
