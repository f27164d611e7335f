//! One step of the classical fourth-order formula of Runge and Kutta.

use crate::numerics::Real;
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
