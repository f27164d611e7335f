//! One step of the classical fourth-order formula of Runge and Kutta.

use crate::numerics::Real;
use std::array::from_fn;

/// Advances `state` at `x` by `step`; `first` is the slope there, `slope(x, state)` returns the
/// derivatives.
#[inline]
pub(super) fn advance<R: Real, const N: usize>(
    x: R,
    state: [R; N],
    step: R,
    first: [R; N],
    slope: impl Fn(R, [R; N]) -> [R; N],
) -> [R; N] {
    let moved = |k: &[R; N], step: R| from_fn(|i| state[i] + step * k[i]);
    let half = step * 0.5;
    let second = slope(x + half, moved(&first, half));
    let third = slope(x + half, moved(&second, half));
    let last = slope(x + step, moved(&third, step));
    let sixth = step * (1.0 / 6.0);
    let sum = |i: usize| first[i] + (second[i] + third[i]) * 2.0 + last[i];
    from_fn(|i| state[i] + sixth * sum(i))
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
