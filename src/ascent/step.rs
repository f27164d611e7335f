//! One step of the classical fourth-order formula of Runge and Kutta.

use crate::numerics::{Mask, Real};
use std::array::from_fn;

/// Reach of the second to the fourth slope within the step, and their weights in units of the first's.
const STAGES: [(f64, f64); 3] = [(0.5, 2.0), (0.5, 2.0), (1.0, 1.0)];

/// Advances `state` at `x` by `step`; `first` is the slope there, `slope(x, state)` returns the
/// derivatives. The slope stands in one place, so that it is compiled into the loop.
#[inline(always)]
pub(super) fn advance<R: Real, const N: usize>(
    x: R,
    state: [R; N],
    step: R,
    first: [R; N],
    slope: impl Fn(R, [R; N]) -> [R; N],
) -> [R; N] {
    let (mut rate, mut sum) = (first, first);
    for (reach, weight) in STAGES {
        let part = step * reach;
        rate = slope(x + part, from_fn(|i| state[i] + part * rate[i]));
        sum = from_fn(|i| sum[i] + rate[i] * weight);
    }
    let sixth = step * (1.0 / 6.0);
    from_fn(|i| state[i] + sixth * sum[i])
}

/// Like [`advance`], but in two parts where the altitude, first of the state, rises past a limit of layers of
/// the air, at which the gradient of the temperature jumps: a step across it would be of second order only.
/// Of several limits in one step the lowest counts, where the air is densest.
#[inline(always)]
pub(super) fn advance_through<R: Real, const N: usize>(
    limits: &[f64],
    x: R,
    state: [R; N],
    step: R,
    first: [R; N],
    slope: impl Fn(R, [R; N]) -> [R; N],
) -> [R; N] {
    let whole = advance(x, state, step, first, &slope);
    let reaches = |lowest: &f64| (!whole[0].below(*lowest)).any();
    if !limits.first().is_some_and(reaches) {
        return whole;
    }
    limits.iter().rev().fold(whole, |moved, limit| {
        let passes = passes(*limit, state[0], whole[0]);
        if !passes.any() {
            return moved;
        }
        let part = step * share(*limit, state[0], first[0] * step, whole[0]);
        let middle = advance(x, state, part, first, &slope);
        let rest = advance(
            x + part,
            middle,
            step - part,
            slope(x + part, middle),
            &slope,
        );
        from_fn(|i| rest[i].select(moved[i], passes))
    })
}

/// Whether a limit lies between two altitudes.
pub(super) fn passes<R: Real>(limit: f64, from: R, to: R) -> R::Mask {
    from.below(limit) & !to.below(limit)
}

/// Part of a step at which the parabola through its ends, with the slope at the first, reaches the limit.
fn share<R: Real>(limit: f64, start: R, slope: R, end: R) -> R {
    let (gap, bend) = (R::splat(limit) - start, end - start - slope);
    let root = (slope.squared() + bend * gap * 4.0)
        .max(R::splat(0.0))
        .sqrt();
    (gap * 2.0 / (slope + root)).clamp(0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Halving the step of a fourth-order formula cuts the error by about 2^4.
    #[test]
    fn converges_at_fourth_order() {
        let solve = |steps: usize| {
            let step = 1.0 / steps as f64;
            let slope = |_x: f64, [y, v]: [f64; 2]| [v, -y];
            let mut state = [1.0, 0.0];
            for k in 0..steps {
                let x = k as f64 * step;
                state = advance(x, state, step, slope(x, state), slope);
            }
            (state[0] - libm::cos(1.0)).abs()
        };
        let order = libm::log2(solve(8) / solve(16));
        assert!((3.7..4.5).contains(&order), "order {order}");
    }
}
