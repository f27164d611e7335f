//! What the steps of a flight may be told to: nobody in a study, a recorder for one design.

use super::monitor::Sample;
use crate::numerics::Real;

/// Where in the flight a sample was taken.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot<R> {
    /// Whether an inclined rail holds the direction.
    pub guided: bool,
    /// Interval of the thrust curve and time within it; none in the coast.
    pub burning: Option<(R, R)>,
    /// Length of the step, zero before lift-off; of no meaning in the coast.
    pub step: R,
    /// Distance along the ground, m.
    pub ground: R,
}

impl<R: Real> Spot<R> {
    pub fn guided(interval: R, within: R, step: R, ground: R) -> Self {
        Self {
            guided: true,
            ..Self::burning(interval, within, step, ground)
        }
    }

    pub fn burning(interval: R, within: R, step: R, ground: R) -> Self {
        Self {
            guided: false,
            burning: Some((interval, within)),
            step,
            ground,
        }
    }

    pub fn coasting(ground: R) -> Self {
        Self {
            guided: false,
            burning: None,
            step: R::splat(0.0),
            ground,
        }
    }
}

/// Is told every sample of a flight.
pub(super) trait Record<R> {
    /// The start of a thrust interval or of the coast.
    fn begin(&mut self, at: &Sample<R>, spot: Spot<R>);
    /// The end of a step.
    fn step(&mut self, at: &Sample<R>, spot: Spot<R>);
}

/// Keeps nothing: the flights of a study are compiled without a trace of it.
pub(super) struct Unrecorded;

impl<R> Record<R> for Unrecorded {
    fn begin(&mut self, _at: &Sample<R>, _spot: Spot<R>) {}
    fn step(&mut self, _at: &Sample<R>, _spot: Spot<R>) {}
}
