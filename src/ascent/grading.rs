//! How the steps of a burn are dealt out after an inclined rail.

use super::leg::Leg;
use super::rail::Exit;
use crate::numerics::Real;

/// Shortest time since rest, as a share of the burn time; only held designs come near it.
const SHORTEST: f64 = 1e-4;

/// How long after the rest a design is young, as a share of the burn time, and how many times as many steps it
/// takes then besides. Own choices, by the scan of vehicles against an integrator from elsewhere
/// (tests/validation/oracle).
const YOUTH: f64 = 0.25;
const MORE: f64 = 4.0;

/// The places of the steps in one interval of the thrust curve.
///
/// Gravity turns the path the faster the slower it is, in inverse proportion to the time `t` since a rest
/// from which the acceleration at the end of the rail led to the speed there. Where a design is young it
/// takes more steps, two at least, equal in `y = t - c^2 / t`: they grow with `t^2` before `c` and are even
/// after it. The motion is integrated against `y`, in which the turn is smooth.
#[derive(Debug, Clone, Copy)]
pub(super) struct Grading<R> {
    /// Time of the rest, s after ignition.
    rest: R,
    /// The square of `c`, s2; zero for even steps.
    squared: R,
    /// Places of the start and end of the interval.
    pub ends: [R; 2],
    /// Longest step.
    pub longest: R,
}

impl<R: Real> Grading<R> {
    /// Time of the rest, s after ignition.
    pub fn rest(exit: &Exit<R>, burn_time: R) -> R {
        let gained = exit.sample.acceleration * burn_time;
        let since = exit.speed * burn_time / gained.max(exit.speed);
        exit.time - since.max(burn_time * SHORTEST)
    }

    /// Of an interval that a design enters at `begin` within it, by steps no longer than `longest` where it is
    /// not young.
    pub fn new(rest: R, leg: &Leg<R>, begin: R, longest: R, burn_time: R) -> Self {
        let left = leg.span - begin;
        let (from, to) = (leg.time + begin - rest, leg.time + leg.span - rest);
        let youth = burn_time * YOUTH;
        let young = from.lt(youth);
        let more = left.min(youth) * MORE;
        let squared = (more * from).select(R::splat(0.0), young);
        let place = |since: R| since - squared / since;
        let ends = [place(from), place(to)];
        let all = ends[1] - ends[0];
        let graded = (all * longest / (left + more)).min(all * 0.5);
        Self {
            rest,
            squared,
            ends,
            longest: graded.select(longest, young),
        }
    }

    /// Time after ignition of a place, and its change with the place.
    pub fn time(&self, place: R) -> (R, R) {
        let root = (place.squared() + self.squared * 4.0).sqrt();
        let since = (place + root) * 0.5;
        (self.rest + since, since / root)
    }
}
