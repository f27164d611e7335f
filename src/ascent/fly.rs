//! The ascent from a vertical or an inclined rail.

use super::flight::{Course, Flight};
use super::inclined::fly_inclined;
use super::trajectory::Trajectory;
use super::vertical::fly_vertical;
use crate::numerics::Real;

/// Flies the ascent.
///
/// A vertical course is one-dimensional. An inclined one is planar over a sphere that does not
/// rotate, without wind and lift, thrust along the velocity; its direction is fixed on the rail and
/// then turned by gravity alone. The rail is taken without friction. Both step alike on the same
/// grid; at 90 degrees their apogees agree to 1e-8 on the trade grid and to 1e-9 on the fine one.
pub fn fly<R: Real>(flight: &Flight<'_, R>) -> Trajectory<R> {
    match flight.course {
        Course::Vertical => fly_vertical(flight),
        Course::Inclined => fly_inclined(flight),
    }
}
