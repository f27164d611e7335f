//! The path of a band's middle over a dome, from the rim to where it turns.

use super::dome::Dome;
use super::slip::{edge_slippage, normal_curvature};
use crate::numerics::Real;
use std::f64::consts::FRAC_PI_2;

/// Steps over a quarter of the rim's circle (own choice: 1e-8 of the radius, 1e-5 beside an opening of a
/// millimetre).
const STEPS: usize = 256;
/// Steps after which a path counts as one that does not turn, in quarters of the rim's circle.
const FARTHEST: usize = 4;
/// Halvings of the last step, at whose end the path turns.
const HALVINGS: usize = 60;

/// A place on the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PathPlace {
    /// Distance along the axis from the cylinder's end, m.
    pub axial: f64,
    /// Distance from the axis, m.
    pub radius: f64,
    /// Winding angle from the meridian, rad.
    pub angle: f64,
    /// Angle around the axis since the rim, rad.
    pub azimuth: f64,
    /// Length of path since the rim, m.
    pub length: f64,
    /// Slippage coefficient that the band's middle needs.
    pub slippage: f64,
    /// Slippage coefficient that the band's worse edge needs.
    pub edge_slippage: f64,
}

/// The path over a dome.
#[derive(Debug, Clone, PartialEq)]
pub struct DomePath {
    /// Its places, from the rim to the turning point.
    pub places: Vec<PathPlace>,
}

impl DomePath {
    /// The turning point.
    pub fn turning(&self) -> PathPlace {
        self.places[self.places.len() - 1]
    }
}

/// Length up to `whole`, at which it holds, from which on something holds.
fn first_at(whole: f64, holds: impl Fn(f64) -> bool) -> f64 {
    let (mut short, mut long) = (0.0, whole);
    for _ in 0..HALVINGS {
        let middle = 0.5 * (short + long);
        if holds(middle) {
            long = middle;
        } else {
            short = middle;
        }
    }
    long
}

/// Path over `dome` that leaves the cylinder at `angle` and needs an even slippage coefficient, positive where
/// friction turns it towards the parallel; none if it does not turn.
///
/// Along the path `dt/dl = cos a / g`, `d(azimuth)/dl = sin a / r`, and by Liouville's formula
/// `da/dl = c k_n - sin a (dr/ds) / r`: regular where it turns, at 90 degrees. Fourth-order Runge-Kutta steps.
pub fn dome_path(dome: &Dome, angle: f64, coefficient: f64, band_width: f64) -> Option<DomePath> {
    let rate = |[parameter, angle, _]: [f64; 3], beyond: bool| {
        let place = dome.beside_kink(parameter, beyond);
        let (sin, cos): (f64, f64) = (Real::sin(angle), Real::cos(angle));
        let bend = coefficient * normal_curvature(&place, sin);
        let around = sin / place.radius;
        [cos / place.stretch, bend - around * place.slope, around]
    };
    let stepped = |state: [f64; 3], length: f64, beyond: bool| {
        let rate = |state: [f64; 3]| rate(state, beyond);
        let ahead = |rates: [f64; 3], by: f64| [0, 1, 2].map(|k| state[k] + rates[k] * by);
        let first = rate(state);
        let second = rate(ahead(first, 0.5 * length));
        let third = rate(ahead(second, 0.5 * length));
        let fourth = rate(ahead(third, length));
        let sum = |k: usize| first[k] + 2.0 * (second[k] + third[k]) + fourth[k];
        [0, 1, 2].map(|k| state[k] + sum(k) * length / 6.0)
    };
    let told = |state: [f64; 3], length: f64| {
        let place = dome.at(state[0]);
        PathPlace {
            axial: dome.axial(state[0]),
            radius: place.radius,
            angle: state[1],
            azimuth: state[2],
            length,
            slippage: coefficient.abs(),
            edge_slippage: edge_slippage(&place, Real::sin(state[1]), coefficient, band_width),
        }
    };
    let step = dome.radius * FRAC_PI_2 / STEPS as f64;
    let (mut state, mut length) = ([0.0, angle, 0.0], 0.0);
    let mut places = vec![told(state, length)];
    let mut beyond = false;
    for _ in 0..FARTHEST * STEPS {
        // A step ends where the meridian's curvature steps, and the next begins there.
        let crossed = |ahead: f64| {
            let kink = dome.kink().filter(|_| !beyond);
            kink.is_some_and(|kink| stepped(state, ahead, beyond)[0] >= kink)
        };
        let crosses = crossed(step);
        let ahead = if crosses {
            first_at(step, crossed)
        } else {
            step
        };
        let next = stepped(state, ahead, beyond);
        if next[1] >= FRAC_PI_2 {
            let turned = |ahead: f64| stepped(state, ahead, beyond)[1] >= FRAC_PI_2;
            let long = first_at(ahead, turned);
            places.push(told(stepped(state, long, beyond), length + long));
            return Some(DomePath { places });
        }
        beyond |= crosses;
        if next[0] >= FRAC_PI_2 || next[0].is_nan() {
            return None;
        }
        (state, length) = (next, length + ahead);
        places.push(told(state, length));
    }
    None
}
