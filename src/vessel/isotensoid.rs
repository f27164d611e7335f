//! Geometry of an isotensoid closure: the curve of geodesic fibres that all pull alike, from the rim to where
//! it would bend outwards, and a spherical cap in one tangent with it.

use crate::numerics::{EvenTable, Real, sampled_cell};
use std::f64::consts::{PI, SQRT_2};
use std::sync::LazyLock;

/// The curve's radius at its inflection over the turning radius, `sqrt(3/2)`.
pub(super) const INFLECTION: f64 = 1.224_744_871_391_589;
/// Largest radius of curvature across the meridian there, times `ratio sqrt(1 - ratio^2)`, over the rim's
/// radius: `sqrt(2) / 3`.
const NECK: f64 = SQRT_2 / 3.0;

/// Cells of the table, and how far it reaches in the ratio: beyond the largest allowed, below `sqrt(2/3)`, at
/// which the rim itself is the inflection.
const CELLS: usize = 512;
const REACH: f64 = 0.72;
/// Pieces of a step of the contour (own choice: with 32 steps 1e-8 of the radius).
const WITHIN: usize = 8;
/// Pieces of the integrals behind the table (own choice, see [`MEASURES`]).
const PIECES: usize = 256;

/// A place on the curve, of unit rim radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place<R> {
    /// Distance from the axis.
    pub radius: R,
    /// Sine and cosine of the angle between normal and axis.
    pub sin: R,
    pub cos: R,
    /// Length of meridian per parameter.
    pub pace: R,
    /// Normal curvature along the meridian; zero at the inflection.
    pub along: R,
    /// Normal curvature along the parallel circle.
    pub around: R,
}

/// The curve's place at the parameter t, given by its `cos` and `sin`: `r = cos t`. `ratio` is that of turning
/// to rim radius.
///
/// With `x = r^2`, `q = ratio^2` and `P = (1 - q) (x^2 + x) - q` the slope `sin f = r^3 sqrt((1 - q) / (x - q))`
/// leaves `cos f = sin t sqrt(P / (x - q))`, whose zero at the rim divides out of `ds = sqrt((x - q) / P) dt`.
/// The curvatures are `d(sin f) / dr` and `sin f / r`.
pub(super) fn place<R: Real>(ratio: R, [cos, sin]: [R; 2]) -> Place<R> {
    let share = ratio.squared();
    let rest = -share + 1.0;
    let x = cos.squared();
    let fibre = x - share;
    let closing = closing(share, x);
    let around = (rest / fibre).sqrt() * x;
    Place {
        radius: cos,
        sin: around * cos,
        cos: sin * (closing / fibre).sqrt(),
        pace: (fibre / closing).sqrt(),
        along: around * (x * 2.0 - share * 3.0) / fibre,
        around,
    }
}

fn closing<R: Real>(share: R, x: R) -> R {
    (-share + 1.0) * (x.squared() + x) - share
}

/// Rise along the axis per parameter, `sin f ds/dt`; `share` is the square of the ratio. Regular from the rim to
/// the inflection.
pub(super) fn rise<R: Real>(share: R, cos: R) -> R {
    let x = cos.squared();
    let closing = closing(share, x).max(R::splat(1e-300));
    x * cos * ((-share + 1.0) / closing).sqrt()
}

/// The curve at even steps of its parameter, `pieces` of them, each with its distance from the rim along the axis.
pub(super) fn curve(ratio: f64, pieces: usize) -> Vec<(f64, Place<f64>)> {
    let step = last(ratio) / pieces as f64;
    let mut depth = 0.0;
    (0..=pieces)
        .map(|piece| {
            let at = step * piece as f64;
            if piece > 0 {
                depth += rise_between(ratio, [at - step, at], WITHIN);
            }
            (depth, place(ratio, [Real::cos(at), Real::sin(at)]))
        })
        .collect()
}

/// Rise along the axis between two parameters, of unit rim radius, by Boole's rule over `pieces`, four or a
/// multiple of them, crowded towards the second.
pub(super) fn rise_between(ratio: f64, [from, to]: [f64; 2], pieces: usize) -> f64 {
    let share = ratio * ratio;
    let step = 1.0 / pieces as f64;
    let at = |piece: usize| {
        let left = 1.0 - step * piece as f64;
        2.0 * left * rise(share, Real::cos(to - (to - from) * left * left))
    };
    let weighed = (0..=pieces).map(|piece| weight(piece, pieces) * at(piece));
    weighed.sum::<f64>() * (to - from) * step
}

/// Weight of a place by Boole's rule, with pieces by four.
fn weight(piece: usize, pieces: usize) -> f64 {
    let share = match piece % 4 {
        0 if piece == 0 || piece == pieces => 14.0,
        0 => 28.0,
        2 => 24.0,
        _ => 64.0,
    };
    share / 45.0
}

/// Parameter of the inflection.
pub(super) fn last(ratio: f64) -> f64 {
    let edge = ratio * INFLECTION;
    Real::atan((1.0 - edge * edge).max(0.0).sqrt() / (1.0 + edge)) * 2.0
}

/// The cap inside the inflection, of unit rim radius.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cap<R> {
    /// Radius of the sphere: the curve's radius of curvature across its meridian at the inflection.
    pub sphere: R,
    /// Radius of its edge.
    pub edge: R,
    /// Sine and cosine of the angle between normal and axis at its edge.
    pub sin: R,
    pub cos: R,
    /// Tangent of half that angle.
    pub half_tan: R,
}

/// The cap of a dome; without an opening it is a flat point.
pub(super) fn cap<R: Real>(ratio: R) -> Cap<R> {
    let curvature = ratio * (-ratio.squared() + 1.0).sqrt() / NECK;
    let edge = ratio * INFLECTION;
    let sin = edge * curvature;
    let cos = (-sin.squared() + 1.0).sqrt();
    Cap {
        sphere: R::splat(1.0) / curvature,
        edge,
        sin,
        cos,
        half_tan: sin / (cos + 1.0),
    }
}

/// Radius of curvature across the meridian at the inflection, over the rim's radius: that of the cap.
pub(super) fn neck_radius<R: Real>(ratio: R) -> R {
    R::splat(NECK) / (ratio * (-ratio.squared() + 1.0).sqrt())
}

/// Depth, volume, area and bend of a dome of unit rim radius; each scales with its power of the radius. The
/// bend is the integral of the mean curvature over the surface: a parallel surface at a distance h outside has
/// the area `A + 2 h B + 2 pi h^2` (Steiner's formula, exact for a convex surface without a kink).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measures<R> {
    pub depth: R,
    pub volume: R,
    pub area: R,
    pub bend: R,
}

/// Measures of a dome by its ratio, 0 to 0.7, cap included.
pub(super) fn measures<R: Real>(ratio: R) -> Measures<R> {
    let [depth, volume, area, bend] = MEASURES.values(&MEASURES.place(ratio));
    Measures {
        depth,
        volume,
        area,
        bend,
    }
}

/// Length of a geodesic over a dome of unit rim radius, from the rim to where it turns on the cap at the dome's
/// own turning radius. Without an opening it is a quarter of the lemniscate, 1.31103.
pub(super) fn fibre_path<R: Real>(ratio: R) -> R {
    PATH.values(&PATH.place(ratio))[0]
}

/// All five by the law itself. The parameter `t` is crowded towards the inflection, near which the curve's
/// integrands change within the turning radius.
fn by_law(ratio: f64) -> [f64; 5] {
    let cap = cap(ratio);
    let share = ratio * ratio;
    let last = last(ratio);
    let mut sums = [0.0; 5];
    for piece in 0..=PIECES {
        let left = 1.0 - piece as f64 / PIECES as f64;
        let at = last * (1.0 - left * left);
        let step = weight(piece, PIECES) * 2.0 * last * left / PIECES as f64;
        let (cos, sin): (f64, f64) = (Real::cos(at), Real::sin(at));
        let here = place(ratio, [cos, sin]);
        let rise = rise(share, cos);
        // `ds / cos a` of a fibre with `r sin a = r0`.
        let fibre = cos / closing(share, cos * cos).sqrt();
        let rates = [
            rise,
            PI * cos * cos * rise,
            2.0 * PI * cos * here.pace,
            PI * (cos * here.along * here.pace + rise),
            fibre,
        ];
        for (sum, rate) in sums.iter_mut().zip(rates) {
            // At the flat point of a dome without an opening a rate may be 0 / 0; it weighs nothing there.
            if step > 0.0 {
                *sum += step * rate;
            }
        }
    }
    let height = cap.edge * cap.half_tan;
    let [depth, volume, area, bend, path] = sums;
    // A fibre turns at the ratio on the cap: sine of its arc over the sphere, and the arc.
    let reach = (0.5 * share).sqrt() / (1.0 - (ratio / cap.sphere) * (ratio / cap.sphere)).sqrt();
    let sine = reach / cap.sphere;
    let stretch = if sine > 0.0 {
        Real::atan(sine / (1.0 - sine * sine).sqrt()) / sine
    } else {
        1.0
    };
    [
        depth + height,
        volume + PI * height * (3.0 * cap.edge * cap.edge + height * height) / 6.0,
        area + PI * (cap.edge * cap.edge + height * height),
        bend + 2.0 * PI * height,
        path + reach * stretch,
    ]
}

/// Five functions of the ratio at the thirds of every cell.
static SAMPLES: LazyLock<Vec<[f64; 5]>> = LazyLock::new(|| {
    (0..=3 * CELLS)
        .map(|third| by_law(third as f64 / 3.0 * WIDTH))
        .collect()
});
const WIDTH: f64 = REACH / CELLS as f64;

fn sampled(cell: usize, function: usize) -> [f64; 4] {
    sampled_cell(0.0, 1.0, |within| {
        SAMPLES[3 * cell + (3.0 * within + 0.5) as usize][function]
    })
}

/// Depth, volume, area and bend by the ratio: 512 cells, off the law by less than 1e-10 from a ratio of 0.01 on;
/// the law's integrals are off by less than 1e-10 themselves.
static MEASURES: LazyLock<EvenTable<CELLS>> = LazyLock::new(|| {
    EvenTable::new(0.0, WIDTH, |cell| {
        std::array::from_fn(|function| sampled(cell, function))
    })
});

/// Length of the geodesic by the ratio; three places are empty.
static PATH: LazyLock<EvenTable<CELLS>> = LazyLock::new(|| {
    EvenTable::new(0.0, WIDTH, |cell| {
        [sampled(cell, 4), [0.0; 4], [0.0; 4], [0.0; 4]]
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    /// Between its nodes the table is the law, at the smallest ratio too, where the cap shrinks to a point.
    #[test]
    fn the_table_is_the_law() {
        let mut worst: f64 = 0.0;
        for step in 0..400 {
            let ratio = 0.01 + 0.69 * (f64::from(step) + 0.37) / 400.0;
            let Measures {
                depth,
                volume,
                area,
                bend,
            } = measures(ratio);
            let found = [depth, volume, area, bend, fibre_path(ratio)];
            for (found, exact) in found.into_iter().zip(by_law(ratio)) {
                worst = worst.max((found / exact - 1.0).abs());
            }
        }
        println!("table off the law by {worst:.1e}");
        assert!(worst < 1e-10, "{worst}");
    }

    /// Curve and cap meet in one tangent, and the curve does not bend there.
    #[test]
    fn the_cap_is_tangent_at_the_inflection() {
        for ratio in [0.01, 0.2, 0.45, 0.7] {
            let cap = cap(ratio);
            let edge: f64 = cap.edge;
            let last = place(ratio, [edge, (1.0 - edge * edge).sqrt()]);
            assert!((last.sin / cap.sin - 1.0).abs() < 1e-12, "{ratio}");
            assert!((last.cos / cap.cos - 1.0).abs() < 1e-12, "{ratio}");
            assert!((last.around * cap.sphere - 1.0).abs() < 1e-12, "{ratio}");
            assert!(last.along.abs() < 1e-11 * last.around, "{ratio}");
            assert!((neck_radius(ratio) / cap.sphere - 1.0).abs() < 1e-14);
        }
    }
}
