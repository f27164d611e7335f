//! Which interval of the thrust curve every design is in.

use crate::motor::Curve;
use crate::numerics::{Mask, Real};

/// Numbers of intervals, each design's own.
#[derive(Debug, Clone, Copy)]
pub(super) struct Intervals<R> {
    /// Number of the interval.
    pub number: R,
    last: f64,
}

impl<R: Real> Intervals<R> {
    /// All designs in the first one.
    pub fn first(curve: &Curve) -> Self {
        Self {
            number: R::splat(0.0),
            last: (curve.intervals() - 1) as f64,
        }
    }

    /// Those who are through enter the next one, if they have one; tells which they are, if any.
    pub fn enter(&mut self, through: R::Mask) -> Option<R::Mask> {
        let enters = through & self.number.below(self.last);
        self.number = (self.number + 1.0).select(self.number, enters);
        enters.any().then_some(enters)
    }
}
