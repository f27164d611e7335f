//! The ascent from a vertical or an inclined rail.

use super::flight::{Course, Flight};
use super::history::{Moment, Recorder};
use super::inclined::fly_inclined;
use super::record::Unrecorded;
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
        Course::Vertical => fly_vertical(flight, &mut Unrecorded),
        Course::Inclined => fly_inclined(flight, &mut Unrecorded),
    }
}

/// Flies one design by the very steps of [`fly`] and keeps every one of them.
///
/// The first moment is lift-off, the last the apogee. The end of thrust stands twice: with the thrust
/// that ends, and without. The trajectory has the same bits as that of [`fly`].
pub fn fly_recorded(flight: &Flight<'_, f64>) -> (Trajectory<f64>, Vec<Moment>) {
    let mut recorder = Recorder::new(flight);
    let trajectory = match flight.course {
        Course::Vertical => fly_vertical(flight, &mut recorder),
        Course::Inclined => fly_inclined(flight, &mut recorder),
    };
    (trajectory, recorder.moments())
}
