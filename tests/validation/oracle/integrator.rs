//! An adaptive integrator of general use, made to keep its way and to stop where a condition is met.

use differential_equations::prelude::*;

/// Relative and absolute, the latter in the units of the state.
const TOLERANCE: f64 = 1e-12;
/// Longest step, s.
const LONGEST: f64 = 0.1;

/// Keeps the way densely, and ends it where the condition rises above zero, by bisection. The crate's own
/// search for events is not used: on a rail of 8 m that of version 0.6.1 stopped at 6.02 m.
struct Way<F> {
    condition: F,
    /// States that are kept of each step.
    samples: i32,
}

impl<const N: usize, F: Fn(&[f64; N]) -> f64> Solout<f64, [f64; N]> for Way<F> {
    fn solout<I: Interpolation<f64, [f64; N]> + ?Sized>(
        &mut self,
        time: f64,
        before: f64,
        state: &[f64; N],
        _: &[f64; N],
        between: &mut I,
        solution: &mut Solution<f64, [f64; N]>,
    ) -> ControlFlag<f64, [f64; N]> {
        if time == before {
            return ControlFlag::Continue;
        }
        let mut at = |time: f64| between.interpolate(time).expect("a time within the step");
        let met = (self.condition)(state) > 0.0;
        let mut end = time;
        if met {
            let mut low = before;
            for _ in 0..60 {
                let middle = 0.5 * (low + end);
                if (self.condition)(&at(middle)) > 0.0 {
                    end = middle;
                } else {
                    low = middle;
                }
            }
        }
        for sample in 1..self.samples {
            let time = before + (end - before) * f64::from(sample) / f64::from(self.samples);
            solution.push(time, at(time));
        }
        if met {
            solution.push(end, at(end));
            return ControlFlag::Terminate;
        }
        solution.push(time, *state);
        ControlFlag::Continue
    }
}

/// The way from a state to the end of a span of time, or to where the condition is met.
pub struct Travelled<const N: usize> {
    pub states: Vec<[f64; N]>,
    /// When and how it ends.
    pub end: (f64, [f64; N]),
    pub met: bool,
}

pub fn integrate<const N: usize>(
    rates: impl Fn(f64, &[f64; N]) -> [f64; N],
    [start, end]: [f64; 2],
    state: [f64; N],
    condition: impl Fn(&[f64; N]) -> f64,
    samples: i32,
) -> Travelled<N> {
    let method = ExplicitRungeKutta::dop853()
        .rtol(TOLERANCE)
        .atol(TOLERANCE)
        .h_max(LONGEST)
        .max_steps(100_000);
    let slope = |time: f64, state: &[f64; N], slope: &mut [f64; N]| {
        *slope = rates(start + time, state);
    };
    let solution = IVP::ode_from_fn(slope, 0.0, end - start, state)
        .solout(Way { condition, samples })
        .method(method)
        .solve()
        .expect("a solution");
    let last = solution.t.len() - 1;
    Travelled {
        end: (start + solution.t[last], solution.y[last]),
        met: matches!(solution.status, Status::Interrupted),
        states: solution.y,
    }
}
