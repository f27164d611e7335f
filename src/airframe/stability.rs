//! Centre of pressure at small angle of attack and low speed, and fins sized for a static margin.
//!
//! Source: J. S. and J. A. Barrowman, "The Theoretical Prediction of the Center of Pressure", NARAM-8,
//! 1966, equations 29, 32, 58, 76a, 77. Body lift at angle of
//! attack is not in it; on bodies of more than about twenty diameters it moves the centre of
//! pressure forward by half a calibre and more per degree.

use super::body::Body;
use super::fins::{Fins, Planform, planform};
use super::nose::{NoseShape, nose_centre_of_pressure};
use crate::numerics::{Real, bracketed_newton};

/// Mass and first moment of everything but the fins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance<R> {
    /// Mass, kg.
    pub mass: R,
    /// Mass times station, kg m from the tip.
    pub moment: R,
    /// Predicted over basic mass of the fins: one plus their growth allowance.
    pub fin_growth: R,
}

/// Slope of the normal-force coefficient of `count` fins (three or four) with the body between them,
/// per radian, on the body's cross-section.
///
/// `(1 + r / (s + r)) 4 N (s / d)^2 / (1 + sqrt(1 + (2 l / (c_root + c_tip))^2))`, with l the length
/// of the mid-chord line, s the exposed span, r and d the body's radius and diameter.
pub fn fin_normal_force<R: Real>(count: usize, fin: &Planform<R>, diameter: R) -> R {
    let radius = diameter * 0.5;
    let offset = fin.sweep + (fin.tip_chord - fin.root_chord) * 0.5;
    let mid_chord = (fin.span.squared() + offset.squared()).sqrt();
    let slant = mid_chord * 2.0 / (fin.root_chord + fin.tip_chord);
    let alone = (fin.span / diameter).squared() * (4.0 * count as f64)
        / ((slant.squared() + 1.0).sqrt() + 1.0);
    alone * (radius / (fin.span + radius) + 1.0)
}

/// Distance from the root's leading edge to the centre of pressure of a fin, m.
fn fin_centre_of_pressure<R: Real>(fin: &Planform<R>) -> R {
    let chords = fin.root_chord + fin.tip_chord;
    fin.sweep / 3.0 * (fin.root_chord + fin.tip_chord * 2.0) / chords
        + (chords - fin.root_chord * fin.tip_chord / chords) / 6.0
}

/// Station of the centre of pressure of nose and fins, m from the tip.
pub fn centre_of_pressure<R: Real>(
    nose: NoseShape,
    body: &Body<R>,
    count: usize,
    fin: &Planform<R>,
) -> R {
    let at_nose = nose_centre_of_pressure(nose, body.nose_length);
    if count == 0 {
        return at_nose;
    }
    let fins = fin_normal_force(count, fin, body.diameter);
    let at_fins = body.length - fin.root_chord + fin_centre_of_pressure(fin);
    (at_nose * 2.0 + fins * at_fins) / (fins + 2.0)
}

/// Static margin in body diameters with fins of a given planform, their own mass included.
pub(crate) fn static_margin<R: Real>(
    nose: NoseShape,
    body: &Body<R>,
    count: usize,
    fin: &Planform<R>,
    rest: &Balance<R>,
) -> R {
    let fin_mass = fin.mass * rest.fin_growth * (count as f64);
    let fin_station = body.length - fin.root_chord + fin.centroid;
    let centre_of_gravity = (rest.moment + fin_mass * fin_station) / (rest.mass + fin_mass);
    (centre_of_pressure(nose, body, count, fin) - centre_of_gravity) / body.diameter
}

/// Smallest and largest root chord, in body diameters, that sizing considers (own choice).
pub(crate) const CHORD_RANGE: (f64, f64) = (0.05, 4.0);

/// Root chord for the static margin asked for, and a mask of designs that have none: even the
/// largest fins fall short, or the smallest already exceed it.
pub fn size_fins<R: Real>(
    nose: NoseShape,
    body: &Body<R>,
    count: usize,
    fins: &Fins<R>,
    rest: &Balance<R>,
) -> (R, R::Mask) {
    let excess = |chord: R| {
        static_margin(nose, body, count, &planform(fins, chord), rest) - fins.static_margin
    };
    let (lower, upper) = (body.diameter * CHORD_RANGE.0, body.diameter * CHORD_RANGE.1);
    let impossible = excess(lower).above(0.0) | excess(upper).below(0.0);
    let chord = bracketed_newton(lower, upper, 40, |chord| {
        let step = chord * 1e-5;
        let slope = (excess(chord + step) - excess(chord - step)) / (step * 2.0);
        (excess(chord), slope)
    });
    (chord, impossible)
}
