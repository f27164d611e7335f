//! One step of the fifth-order Dormand-Prince formula.

use crate::numerics::Real;
use std::array::from_fn;

/// Advances `state` at `x` by `step`; `first` is the slope there, `slope(x, state)` returns the
/// derivatives.
pub(super) fn advance<R: Real, const N: usize>(
    x: R,
    state: [R; N],
    step: R,
    first: [R; N],
    slope: impl Fn(R, [R; N]) -> [R; N],
) -> [R; N] {
    let stage = |fraction: f64, terms: &[(f64, [R; N])]| {
        let moved = from_fn(|i| {
            let sum = terms
                .iter()
                .fold(R::splat(0.0), |sum, (weight, k)| sum + k[i] * *weight);
            state[i] + step * sum
        });
        slope(x + step * fraction, moved)
    };
    let k1 = first;
    let k2 = stage(1.0 / 5.0, &[(1.0 / 5.0, k1)]);
    let k3 = stage(3.0 / 10.0, &[(3.0 / 40.0, k1), (9.0 / 40.0, k2)]);
    let k4 = stage(
        4.0 / 5.0,
        &[(44.0 / 45.0, k1), (-56.0 / 15.0, k2), (32.0 / 9.0, k3)],
    );
    let k5 = stage(
        8.0 / 9.0,
        &[
            (19372.0 / 6561.0, k1),
            (-25360.0 / 2187.0, k2),
            (64448.0 / 6561.0, k3),
            (-212.0 / 729.0, k4),
        ],
    );
    let k6 = stage(
        1.0,
        &[
            (9017.0 / 3168.0, k1),
            (-355.0 / 33.0, k2),
            (46732.0 / 5247.0, k3),
            (49.0 / 176.0, k4),
            (-5103.0 / 18656.0, k5),
        ],
    );
    from_fn(|i| {
        let sum = k1[i] * (35.0 / 384.0)
            + k3[i] * (500.0 / 1113.0)
            + k4[i] * (125.0 / 192.0)
            + k5[i] * (-2187.0 / 6784.0)
            + k6[i] * (11.0 / 84.0);
        state[i] + step * sum
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Halving the step of a fifth-order formula cuts the error by about 2^5.
    #[test]
    fn converges_at_fifth_order() {
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
        assert!((4.7..5.5).contains(&order), "order {order}");
    }
}
