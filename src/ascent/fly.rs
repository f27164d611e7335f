//! The ascent from a vertical or an inclined rail.

use super::flight::{Course, Flight, Steps};
use super::history::{Moment, Recorder};
use super::inclined::fly_inclined;
use super::record::{Record, Unrecorded};
use super::trajectory::Trajectory;
use super::vertical::fly_vertical;
use crate::numerics::{Mask, Real};

/// Least distance of Mach knots that the steps of the trade grid see (own choice; that of the computed
/// columns).
const SEEN: f64 = 0.049;
/// Most doublings of the steps of a design that the preset does not serve.
const MOST_DOUBLINGS: u32 = 6;
/// Doublings after which a design that stops in the burn is believed.
const BELIEVED: u32 = 2;

/// Flies the ascent.
///
/// A vertical course is one-dimensional. An inclined one is planar over a sphere that does not
/// rotate, without wind and lift, thrust along the velocity; its direction is fixed on the rail and
/// then turned by gravity alone. The rail is taken without friction. Both step alike on the same
/// grid; at 90 degrees their apogees agree to 1e-5 on the trade grid and to 1e-7 on the fine one.
///
/// A design that the grid does not serve, because the estimated error of its apogee is beyond
/// [`Grid::tolerance`](super::Grid::tolerance), is flown again with twice the steps, up to six times, one
/// that seems to stop in the burn up to twice; `grid_doublings` tells how often. A stated drag table whose
/// Mach numbers stand closer than the steps begins with as many doublings as bring these down to it, for
/// what no step sees no estimate tells. A block flies again as a whole, and only the designs that were
/// not served take the result, so that the outcome of a design does not depend on its neighbours.
pub fn fly<R: Real>(flight: &Flight<'_, R>) -> Trajectory<R> {
    fly_told(flight, |_| ())
}

/// Every flight that [`fly`] makes of one design, the last of them its result: why a design was flown again
/// stands in the one before.
pub fn attempts(flight: &Flight<'_, f64>) -> Vec<Trajectory<f64>> {
    let mut all = Vec::new();
    fly_told(flight, |flown| all.push(*flown));
    all
}

/// Tells what every flight comes to.
fn fly_told<R: Real>(
    flight: &Flight<'_, R>,
    mut told: impl FnMut(&Trajectory<R>),
) -> Trajectory<R> {
    let with = |doublings: u32| Trajectory {
        grid_doublings: R::splat(f64::from(doublings)),
        ..once(flight, flight.steps(doublings), &mut Unrecorded)
    };
    let first = least_doublings(flight.drag.narrowest());
    let mut found = with(first);
    told(&found);
    for doublings in first + 1..=MOST_DOUBLINGS {
        let mut unserved = found.coarse(flight.grid.tolerance());
        if doublings <= first + BELIEVED {
            unserved = unserved | found.doubtful();
        }
        if !unserved.any() {
            break;
        }
        found = with(doublings).select(&found, unserved);
        told(&found);
    }
    found
}

/// Doublings with which the steps are about as close in Mach number as the knots of the drag.
fn least_doublings(narrowest: f64) -> u32 {
    (0..MOST_DOUBLINGS)
        .find(|doublings| narrowest * f64::from(1u32 << doublings) >= SEEN)
        .unwrap_or(MOST_DOUBLINGS)
}

/// Flies one design by the very steps of [`fly`] and keeps every one of them.
///
/// The first moment is lift-off, the last the apogee. The end of thrust stands twice: with the thrust
/// that ends, and without. The trajectory has the same bits as that of [`fly`].
pub fn fly_recorded(flight: &Flight<'_, f64>) -> (Trajectory<f64>, Vec<Moment>) {
    let served = fly(flight);
    let steps = flight.steps(served.grid_doublings as u32);
    let mut recorder = Recorder::new(flight, steps);
    let flown = once(flight, steps, &mut recorder);
    let trajectory = Trajectory {
        grid_doublings: served.grid_doublings,
        ..flown
    };
    (trajectory, recorder.moments())
}

fn once<R: Real>(
    flight: &Flight<'_, R>,
    steps: Steps,
    record: &mut impl Record<R>,
) -> Trajectory<R> {
    match flight.course {
        Course::Vertical => fly_vertical(flight, steps, record),
        Course::Inclined => fly_inclined(flight, steps, record),
    }
}
