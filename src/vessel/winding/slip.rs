//! Which friction a path needs: geodesic over normal curvature.
//!
//! A band under tension presses on the surface with its tension times the normal curvature and pulls sideways
//! with its tension times the geodesic curvature; it holds while `|k_g / k_n|` is below the slippage
//! coefficient (equilibrium of a non-geodesic winding, `k_g / k_n <= mu`: abstract of an article on winding
//! tori, Journal of Beijing University of Aeronautics and Astronautics, article 11717).

use super::dome::{Dome, DomePlace};
use crate::numerics::{Dual, Real, bracketed_newton};

/// Steps of the integration along a dome (own choice: 1e-10 of the radius).
const STEPS: usize = 256;
/// Largest slippage coefficient looked for (own choice, far above any friction).
const LARGEST: f64 = 50.0;
/// Slippage coefficient by which it may miss.
const CLOSE: f64 = 1e-13;
/// Steps of Newton's method; the turning radius is nearly linear in the coefficient.
const NEWTON: usize = 24;

/// Normal curvature, 1/m, of a path whose winding angle has `sine` (Euler's formula on a surface of revolution).
pub fn normal_curvature<R: Real>(place: &DomePlace, sine: R) -> R {
    let across = sine.squared();
    across * (place.parallel_curvature - place.meridian_curvature) + place.meridian_curvature
}

/// `u = r sin a` of a path at a parameter of the dome, from `start` at the rim, with an even slippage
/// coefficient c: Liouville's formula for the geodesic curvature gives `du/ds = c r k_n` along the meridian,
/// which does not notice where the path turns.
fn clairaut_at<R: Real>(dome: &Dome, start: f64, coefficient: R, parameter: f64) -> R {
    let start = R::splat(start);
    match dome.kink().filter(|kink| *kink < parameter) {
        Some(kink) => {
            let there = clairaut_along(dome, start, coefficient, [0.0, kink], false);
            clairaut_along(dome, there, coefficient, [kink, parameter], true)
        }
        None => clairaut_along(dome, start, coefficient, [0.0, parameter], false),
    }
}

/// The same between two parameters on one side of a kink.
fn clairaut_along<R: Real>(
    dome: &Dome,
    start: R,
    coefficient: R,
    [from, to]: [f64; 2],
    beyond: bool,
) -> R {
    let at = |parameter: f64| dome.beside_kink(parameter, beyond);
    let rate = |place: &DomePlace, u: R| {
        let sine = (u / place.radius).clamp(-1.0, 1.0);
        coefficient * normal_curvature(place, sine) * (place.radius * place.stretch)
    };
    let step = (to - from) / STEPS as f64;
    let mut u = start;
    let mut here = at(from);
    for count in 0..STEPS {
        let middle = at(from + (count as f64 + 0.5) * step);
        let there = at(from + (count as f64 + 1.0) * step);
        let first = rate(&here, u);
        let second = rate(&middle, u + first * (0.5 * step));
        let third = rate(&middle, u + second * (0.5 * step));
        let fourth = rate(&there, u + third * step);
        here = there;
        u = u + (first + (second + third) * 2.0 + fourth) * (step / 6.0);
    }
    u
}

/// The even slippage coefficient with which a path that leaves the cylinder at `angle` turns at
/// `turning_radius`: positive where friction has to turn it earlier than a geodesic would, negative where it has
/// to hold it longer. No other path between the two needs less at its worst place, because `r sin a` at the
/// opening grows with the coefficient everywhere. None if friction cannot do it.
///
/// On a hemisphere it is `(r0 - R sin a) / sqrt(R^2 - r0^2)`, derived.
///
/// ```
/// use hoopline::vessel::winding::{Dome, needed_slippage};
/// let dome = Dome::ellipsoid(0.08, 0.08);
/// let needed = needed_slippage(&dome, 30f64.to_radians(), 0.048).unwrap();
/// assert!((needed - 0.125).abs() < 1e-9);
/// ```
pub fn needed_slippage(dome: &Dome, angle: f64, turning_radius: f64) -> Option<f64> {
    if !(turning_radius > 0.0 && turning_radius < dome.radius) {
        return None;
    }
    let sine: f64 = Real::sin(angle);
    let start = dome.radius * sine;
    let parameter = dome.parameter(turning_radius);
    let miss = |coefficient: f64| {
        let reached = clairaut_at(dome, start, Dual::<1>::variable(coefficient, 0), parameter);
        (reached.value - turning_radius, reached.partials[0])
    };
    // The hemisphere's own is near enough for a few steps; where they lead nowhere, a bracket tells whether there
    // is an answer.
    let flat = dome.radius * dome.radius - turning_radius * turning_radius;
    let mut coefficient = (turning_radius - start) / flat.sqrt();
    for _ in 0..NEWTON {
        let (value, slope) = miss(coefficient);
        let step = value / slope;
        coefficient -= step;
        if step.abs() <= CLOSE {
            return Some(coefficient);
        }
        if step.is_nan() || coefficient.abs() > LARGEST {
            break;
        }
    }
    if miss(-LARGEST).0 > 0.0 || miss(LARGEST).0 < 0.0 {
        return None;
    }
    Some(bracketed_newton(-LARGEST, LARGEST, NEWTON, miss))
}

/// Slippage coefficient that the worse edge of a band needs where its middle has geodesic curvature
/// `coefficient` times the normal one: `(|k_g| + (b / 2) (k_g^2 + K)) / k_n`, K the curvature of the surface
/// (Gauss).
///
/// Tows at a distance from the middle run parallel to it, and on a domed surface no parallel of a geodesic is
/// one: along a geodesic at right angles to the path `dk_g/dd = k_g^2 + K` (equation of Jacobi), taken to first
/// order in the band's width. On a cylinder an edge is as good as the middle.
pub fn edge_slippage(place: &DomePlace, sine: f64, coefficient: f64, band_width: f64) -> f64 {
    let normal = normal_curvature(place, sine);
    let geodesic = (coefficient * normal).abs();
    let gauss = place.meridian_curvature * place.parallel_curvature;
    (geodesic + 0.5 * band_width * (geodesic * geodesic + gauss)) / normal
}
