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
/// what no step sees no estimate tells. A design of a block flies again alone, so that its neighbours
/// neither wait for it nor change.
pub fn fly<R: Real>(flight: &Flight<'_, R>) -> Trajectory<R> {
    let first = least_doublings(flight.drag.narrowest());
    if R::WIDTH == 1 {
        return fly_told(flight, [first, first], |_| ());
    }
    let mut found = doubled(flight, first);
    let unserved = unserved(&found, flight, true);
    if !unserved.any() {
        return found;
    }
    for lane in (0..R::WIDTH).filter(|lane| (unserved & R::only(*lane)).any()) {
        let drag = flight.drag.lane(lane);
        let alone = fly_told(&flight.lane(lane, &drag), [first, first + 1], |_| ());
        found = Trajectory::splat(&alone).select(&found, R::only(lane));
    }
    found
}

/// Every flight that [`fly`] makes of one design, the last of them its result: why a design was flown again
/// stands in the one before.
pub fn attempts(flight: &Flight<'_, f64>) -> Vec<Trajectory<f64>> {
    let mut all = Vec::new();
    let first = least_doublings(flight.drag.narrowest());
    fly_told(flight, [first, first], |flown| all.push(*flown));
    all
}

/// From the `begun`-th doubling on, where the design's first is the `first`; tells what every flight comes to.
fn fly_told<R: Real>(
    flight: &Flight<'_, R>,
    [first, begun]: [u32; 2],
    mut told: impl FnMut(&Trajectory<R>),
) -> Trajectory<R> {
    let mut found = doubled(flight, begun.min(MOST_DOUBLINGS));
    told(&found);
    for doublings in begun + 1..=MOST_DOUBLINGS {
        let unserved = unserved(&found, flight, doublings <= first + BELIEVED);
        if !unserved.any() {
            break;
        }
        found = doubled(flight, doublings).select(&found, unserved);
        told(&found);
    }
    found
}

/// One flight by the steps of the grid, doubled that often.
fn doubled<R: Real>(flight: &Flight<'_, R>, doublings: u32) -> Trajectory<R> {
    Trajectory {
        grid_doublings: R::splat(f64::from(doublings)),
        ..once(flight, flight.steps(doublings), &mut Unrecorded)
    }
}

/// Designs that the steps did not serve, and those whose stop in the burn is still `doubted`.
fn unserved<R: Real>(found: &Trajectory<R>, flight: &Flight<'_, R>, doubted: bool) -> R::Mask {
    let coarse = found.coarse(flight.grid.tolerance());
    if doubted {
        coarse | found.doubtful()
    } else {
        coarse
    }
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
