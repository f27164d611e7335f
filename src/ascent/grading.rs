//! How the steps of a burn are dealt out after an inclined rail.

use super::leg::Leg;
use super::rail::Exit;
use crate::numerics::Real;

/// Shortest time since rest, as a share of the burn time; only held designs come near it.
const SHORTEST: f64 = 1e-4;

/// The steps of one interval of the thrust curve.
///
/// Gravity turns the path the faster the slower it is, in inverse proportion to the time `t` since a rest
/// from which the acceleration at the end of the rail led to the speed there. A design is young in an
/// interval whose even steps are long beside `t`. There it takes more of them, equal in `y = t - c^2 / t`:
/// they grow with `t^2` before `c` and are even after it. The motion is integrated against `y`, in which the
/// turn is smooth. Designs of a block that are not young let the further steps pass with length zero.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grading<R: Real> {
    /// Time of the rest, s after ignition.
    rest: R,
    /// The square of `c`, s2; zero for even steps.
    squared: R,
    /// Where the interval begins.
    first: R,
    /// Length of a step.
    pub step: R,
    /// Steps that are let pass.
    passed: R,
}

impl<R: Real> Grading<R> {
    /// Time of the rest, s after ignition.
    pub fn rest(exit: &Exit<R>, burn_time: R) -> R {
        let gained = exit.sample.acceleration * burn_time;
        let since = exit.speed * burn_time / gained.max(exit.speed);
        exit.time - since.max(burn_time * SHORTEST)
    }

    /// Steps that an interval of `count` has more for the young, when the burn has `steps` of them: an even
    /// number (own choice, by measurement).
    pub fn more(count: usize, steps: usize) -> usize {
        2 * count.min(steps / 8)
    }

    /// Of an interval that a design enters at `begin` within it, and where it is young there.
    pub fn new(rest: R, leg: &Leg<R>, begin: R, count: usize, steps: usize) -> (Self, R::Mask) {
        let zero = R::splat(0.0);
        let more = Self::more(count, steps) as f64;
        let even = (leg.span - begin) / count as f64;
        let (from, to) = (leg.time + begin - rest, leg.time + leg.span - rest);
        let young = from.lt(even * (steps / 8) as f64);
        let squared = (even * more * from).select(zero, young);
        let passed = zero.select(R::splat(more), young);
        let place = |since: R| since - squared / since;
        let first = place(from);
        let step = (place(to) - first) / (R::splat(count as f64 + more) - passed);
        let grading = Self {
            rest,
            squared,
            first,
            step,
            passed,
        };
        (grading, young)
    }

    /// Where the `k`-th step begins, and its length.
    pub fn place(&self, k: usize) -> (R, R) {
        let zero = R::splat(0.0);
        let taken = R::splat(k as f64) - self.passed;
        let step = zero.select(self.step, taken.below(0.0));
        (self.first + self.step * taken.max(zero), step)
    }

    /// Time after ignition of a place, and its change with the place.
    pub fn time(&self, place: R) -> (R, R) {
        let root = (place.squared() + self.squared * 4.0).sqrt();
        let since = (place + root) * 0.5;
        (self.rest + since, since / root)
    }
}
