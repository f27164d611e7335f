//! Outlines of nose and fins as points, for drawings: the same shapes whose areas and centres the
//! other files of this room compute in closed form.

use super::fins::Planform;
use super::nose::NoseShape;
use crate::numerics::Real;
use std::f64::consts::PI;

/// Pieces that the outline of a nose is drawn with (own choice).
const PIECES: usize = 48;

/// Outline of a nose, m: points (distance from the tip, radius) from the tip to the base. A cone is
/// straight; von Karman's follows `y/r = sqrt((t - sin 2t / 2) / pi)`, `cos t = 1 - 2 x / l`.
///
/// ```
/// let nose = hoopline::airframe::nose_outline(hoopline::airframe::NoseShape::VonKarman, 0.16, 0.8);
/// let base = nose.last().unwrap();
/// assert!((base[0] - 0.8).abs() < 1e-12 && (base[1] - 0.08).abs() < 1e-12);
/// ```
pub fn nose_outline(shape: NoseShape, diameter: f64, length: f64) -> Vec<[f64; 2]> {
    let radius = diameter * 0.5;
    match shape {
        NoseShape::Cone => vec![[0.0, 0.0], [length, radius]],
        NoseShape::VonKarman => (0..=PIECES)
            .map(|step| {
                let t = PI * step as f64 / PIECES as f64;
                let (cos, twice): (f64, f64) = (Real::cos(t), Real::sin(t * 2.0));
                let share = ((t - twice * 0.5) / PI).max(0.0).sqrt();
                [length * (1.0 - cos) * 0.5, radius * share]
            })
            .collect(),
    }
}

/// Corners of one fin in side view, m: points (distance from the tip, distance from the axis), from the
/// root's leading edge round to its trailing edge. The root lies on a body of radius `radius` and ends
/// at the station `end`.
pub fn fin_outline(fin: &Planform<f64>, radius: f64, end: f64) -> [[f64; 2]; 4] {
    let leading = end - fin.root_chord;
    let tip = radius + fin.span;
    [
        [leading, radius],
        [leading + fin.sweep, tip],
        [leading + fin.sweep + fin.tip_chord, tip],
        [end, radius],
    ]
}
