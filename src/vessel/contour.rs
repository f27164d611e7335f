//! Meridian contours of closures as points, for drawings: the same shapes whose depth, volume and area
//! the other files of this room compute in closed form.

use super::form::ClosureKind;
use super::isotensoid;
use super::tank::Closure;
use crate::numerics::Real;
use std::f64::consts::FRAC_PI_2;

/// A point of a meridian: distance along the axis and from it, m.
pub type MeridianPoint = [f64; 2];

/// Pieces that a contour of one curvature is drawn with (own choice); even, so that every second point
/// makes a coarser contour.
const PIECES: usize = 32;

fn arc(from: f64, to: f64, pieces: usize) -> impl Iterator<Item = f64> {
    (0..=pieces).map(move |step| from + (to - from) * step as f64 / pieces as f64)
}

/// Contour of a closure of inside diameter `diameter`, from the end of the cylinder to the axis: points
/// (distance from the cylinder's end outwards, radius), m. `offset` is the distance from the inside
/// surface, measured across it: 0 for the inside, the thickness for the outside. A flat bulkhead fills
/// the bore, so its radius does not grow; the outside of a bolted one runs over the end of its rim.
///
/// ```
/// use hoopline::vessel::{Closure, ClosureKind, closure_contour};
/// use hoopline::quantity::Slots;
/// let closure = Closure {
///     thickness: 0.004,
///     ..Closure::uniform(0.0)
/// };
/// let dome = closure_contour(ClosureKind::Hemisphere, &closure, 0.15, 0.004);
/// let apex = dome.last().unwrap();
/// assert!((dome[0][1] - 0.079).abs() < 1e-12 && (apex[0] - 0.079).abs() < 1e-12);
/// ```
pub fn closure_contour(
    kind: ClosureKind,
    closure: &Closure<f64>,
    diameter: f64,
    offset: f64,
) -> Vec<MeridianPoint> {
    let radius = diameter * 0.5;
    match kind {
        ClosureKind::Hemisphere => arc(0.0, FRAC_PI_2, PIECES)
            .map(|angle| {
                let outer = radius + offset;
                [outer * Real::sin(angle), outer * Real::cos(angle)]
            })
            .collect(),
        ClosureKind::Ellipsoid => {
            let depth = radius * 0.5;
            arc(0.0, FRAC_PI_2, PIECES)
                .map(|angle| {
                    let (sin, cos): (f64, f64) = (Real::sin(angle), Real::cos(angle));
                    // The normal of x = b sin, y = a cos.
                    let (along, across) = (sin / depth, cos / radius);
                    let steps = offset / (along * along + across * across).sqrt();
                    [depth * sin + steps * along, radius * cos + steps * across]
                })
                .collect()
        }
        ClosureKind::Torisphere => torisphere(closure, diameter, offset),
        ClosureKind::Isotensoid => curve(closure.turning_radius_ratio, radius, offset),
        ClosureKind::FlatClamped | ClosureKind::FlatSupported => {
            vec![[offset, radius], [offset, 0.0]]
        }
        ClosureKind::FlatBolted if offset > 0.0 => {
            let bolts = &closure.bolts;
            let end = bolts.rim_length - closure.thickness + offset;
            let within = (radius - bolts.rim_thickness).max(0.0);
            vec![
                [end, radius],
                [end, within],
                [offset, within],
                [offset, 0.0],
            ]
        }
        ClosureKind::FlatBolted => vec![[0.0, radius], [0.0, 0.0]],
    }
}

/// An isotensoid's curve, even in the parameter of its integral, then its cap.
fn curve(ratio: f64, radius: f64, offset: f64) -> Vec<MeridianPoint> {
    let cap = isotensoid::cap(ratio);
    let along_curve = isotensoid::curve(ratio, PIECES);
    // Drawn to the depth that the results have, a few billionths off what these pieces add up to.
    let depth = isotensoid::measures(ratio).depth - cap.edge * cap.half_tan;
    let stretch = depth / along_curve[PIECES].0;
    let edge = Real::atan(cap.half_tan) * 2.0;
    let on_curve = along_curve.into_iter().map(|(rise, place)| {
        [
            radius * rise * stretch + offset * place.cos,
            radius * place.radius + offset * place.sin,
        ]
    });
    let on_cap = arc(edge, 0.0, PIECES).skip(1).map(|angle| {
        let (sin, cos): (f64, f64) = (Real::sin(angle), Real::cos(angle));
        [
            radius * (depth + cap.sphere * (cos - cap.cos)) + offset * cos,
            (radius * cap.sphere + offset) * sin,
        ]
    });
    on_curve.chain(on_cap).collect()
}

/// Knuckle, then crown; each around its own centre, so that both meet in one tangent.
fn torisphere(closure: &Closure<f64>, diameter: f64, offset: f64) -> Vec<MeridianPoint> {
    let crown = closure.crown_radius_ratio * diameter;
    let knuckle = closure.knuckle_radius_ratio * diameter;
    let centre = diameter * 0.5 - knuckle;
    let height = ((crown - diameter * 0.5) * (crown + diameter * 0.5 - knuckle * 2.0))
        .max(0.0)
        .sqrt();
    let apart = (crown - knuckle).max(diameter * f64::EPSILON);
    let edge: f64 = Real::atan(centre / (apart + height)) * 2.0;
    let around_knuckle = arc(0.0, FRAC_PI_2 - edge, PIECES).map(|angle| {
        let reach = knuckle + offset;
        [reach * Real::sin(angle), centre + reach * Real::cos(angle)]
    });
    let around_crown = arc(edge, 0.0, PIECES).skip(1).map(|angle| {
        let reach = crown + offset;
        [reach * Real::cos(angle) - height, reach * Real::sin(angle)]
    });
    around_knuckle.chain(around_crown).collect()
}
