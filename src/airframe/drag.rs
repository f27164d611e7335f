//! Drag of a design as the ascent sees it: columns over Mach, with friction following the Reynolds
//! number of the altitude.
//!
//! `CD(M, h) = P(M) + sum over body and fins of max(A(M) + B(M) phi(h), R(M))`, phi the decimal
//! logarithm of the unit Reynolds number at Mach 1. P holds what does not depend on Reynolds number,
//! with power off and on; A and B make turbulent friction linear in phi through two altitudes; R is
//! friction at the cut-off Reynolds number of the roughness. Between Mach knots every computed column
//! is a natural cubic spline, a stated table a monotone cubic, which stays within its own values;
//! beyond the last knot the end value holds.

use super::body::{Body, BodyForm};
use super::fins::Planform;
use super::friction::{compressibility, cut_off_reynolds, turbulent_plate};
use super::nose::NoseShape;
use super::pressure_drag::{
    base_drag, fin_wave_drag, nose_wave_drag, subsonic_share, transonic_ramp,
};
use crate::error::{Error, Result};
use crate::numerics::{Column, Knots, Real};
use std::f64::consts::PI;
use std::sync::LazyLock;

/// Most points a stated drag table may have.
pub const MAX_DRAG_POINTS: usize = 40;

/// Mach knots of a computed drag; dense through the transonic range.
const MACH: [f64; 32] = [
    0.0, 0.2, 0.4, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0, 1.05, 1.1, 1.15, 1.2, 1.25, 1.3, 1.4,
    1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6, 2.8, 3.0, 3.4, 3.8, 4.2, 4.6, 5.0,
];
static MACH_KNOTS: LazyLock<Knots> = LazyLock::new(|| Knots::new(MACH.to_vec()));

/// Unit Reynolds number at Mach 1 (decimal logarithm) at the two altitudes, 2 km and 11 km, through
/// which friction is taken linear.
static FIT_AT: LazyLock<[f64; 2]> = LazyLock::new(|| {
    [2_000.0, 11_000.0].map(|h: f64| crate::atmosphere::standard(h).unit_reynolds)
});

/// A stated drag table: ascending Mach numbers and coefficients.
#[derive(Debug, Clone, PartialEq)]
pub struct DragTable {
    knots: Knots,
    coefficients: Vec<f64>,
}

impl DragTable {
    /// Checks and takes a table of (Mach, coefficient).
    ///
    /// Errors: fewer than two or more than [`MAX_DRAG_POINTS`] rows, Mach numbers that do not ascend
    /// from zero or above, a coefficient that is negative or not finite.
    pub fn new(rows: &[(f64, f64)]) -> Result<Self> {
        let wrong = |problem: String| Err(Error::Inconsistent(format!("drag.table: {problem}")));
        if rows.len() < 2 || rows.len() > MAX_DRAG_POINTS {
            return wrong(format!(
                "a drag table needs 2 to {MAX_DRAG_POINTS} rows (Mach, coefficient), this one has {}",
                rows.len()
            ));
        }
        for (index, (mach, coefficient)) in rows.iter().enumerate() {
            let ascends = index == 0 || rows[index - 1].0 < *mach;
            if !(mach.is_finite() && *mach >= 0.0 && ascends) {
                return wrong(format!(
                    "Mach numbers must ascend from zero or above; row {} has {mach}",
                    index + 1
                ));
            }
            if !(coefficient.is_finite() && *coefficient >= 0.0) {
                return wrong(format!(
                    "row {}: a drag coefficient of {coefficient} must be zero or above",
                    index + 1
                ));
            }
        }
        Ok(Self {
            knots: Knots::new(rows.iter().map(|(mach, _)| *mach).collect()),
            coefficients: rows.iter().map(|(_, coefficient)| *coefficient).collect(),
        })
    }

    /// Mach numbers of the rows.
    pub fn mach(&self) -> &[f64] {
        self.knots.positions()
    }

    /// Coefficients of the rows.
    pub fn coefficients(&self) -> &[f64] {
        &self.coefficients
    }
}

type Curve<R> = Column<R, MAX_DRAG_POINTS>;

/// Friction of one surface.
#[derive(Debug, Clone, Copy)]
struct Surface<R> {
    level: Curve<R>,
    slope: Curve<R>,
    rough: Curve<R>,
}

/// Drag columns of one design, or of a block of them.
#[derive(Debug, Clone)]
pub struct Drag<'a, R> {
    knots: &'a Knots,
    /// Area all coefficients refer to, m2.
    pub reference_area: R,
    power_off: Curve<R>,
    power_on: Curve<R>,
    friction: Option<[Surface<R>; 2]>,
}

impl<R: Real> Drag<'_, R> {
    /// Drag coefficient at a Mach number and unit Reynolds number (decimal logarithm, at Mach 1).
    /// `power` is the share of full thrust, from zero in the coast to one.
    pub fn coefficient(&self, mach: R, unit_reynolds: R, power: R) -> R {
        let place = self.knots.place(mach);
        let off = self.power_off.at(&place);
        let pressure = off + (self.power_on.at(&place) - off) * power;
        match &self.friction {
            None => pressure,
            Some(surfaces) => surfaces.iter().fold(pressure, |sum, surface| {
                let smooth = surface.level.at(&place) + surface.slope.at(&place) * unit_reynolds;
                sum + smooth.max(surface.rough.at(&place))
            }),
        }
    }
}

/// A stated table on a stated reference diameter; it does not tell power on from power off.
pub fn stated_drag<R: Real>(table: &DragTable, diameter: R) -> Drag<'_, R> {
    let column = table.knots.monotone(&table.coefficients);
    Drag {
        knots: &table.knots,
        reference_area: diameter.squared() * (PI / 4.0),
        power_off: column,
        power_on: column,
        friction: None,
    }
}

/// Builds the drag of a body with fins. `roughness` is the equivalent sand-grain height of all
/// surfaces, m. Interference, protuberances, blunt edges and boat-tails are not in it.
pub fn build_drag<R: Real>(
    form: &BodyForm,
    body: &Body<R>,
    fin: &Planform<R>,
    fin_thickness: R,
    roughness: R,
    exit_area: R,
) -> Drag<'static, R> {
    let area = body.frontal_diameter.squared() * (PI / 4.0);
    let count = form.fins.count as f64;
    let fineness = body.length / body.diameter;
    // Body form factor 1 + 60 / f^3 + f / 400, good above fineness 6; source: Raymer, as in
    // `friction`, older editions (quoted in a footnote of a later one; the number
    // 12.31 is from memory).
    let body_form = R::splat(60.0) / fineness.cubed() + fineness / 400.0;
    let thickness_ratio = if form.fins.count == 0 {
        R::splat(0.0)
    } else {
        fin_thickness / fin.mean_chord
    };
    // Fin form factor 1 + 2 t/c; source, from memory: Hoerner,
    // "Fluid-Dynamic Drag", 1965 (leading term).
    let fin_form = thickness_ratio * 2.0;
    let nose_fineness = body.nose_length / body.diameter;
    let nose_share = (body.diameter / body.frontal_diameter).squared();
    let jet_free = R::splat(1.0) - (exit_area / area).min(R::splat(1.0));

    let pressure_terms = |mach: f64| {
        let supersonic = mach.max(1.2);
        let ramp = transonic_ramp(mach);
        let nose = nose_wave_drag(form.nose, nose_fineness, supersonic) * nose_share;
        let fins = fin_wave_drag(thickness_ratio, supersonic) * fin.area * count / area;
        let shoulder = attached_cone(form.nose, nose_fineness) * nose_share;
        (nose + fins) * ramp + shoulder * (1.0 - ramp)
    };
    let mut power_off = [R::splat(0.0); MAX_DRAG_POINTS];
    let mut power_on = power_off;
    for (knot, mach) in MACH.iter().enumerate() {
        let pressure = pressure_terms(*mach);
        let base = base_drag(*mach);
        power_off[knot] = pressure + base;
        power_on[knot] = pressure + jet_free * base;
    }

    let surfaces = [
        surface(body.length, roughness, body.wetted_area / area, body_form),
        surface(
            fin.mean_chord,
            roughness,
            fin.area * (2.0 * count) / area,
            fin_form,
        ),
    ];
    Drag {
        knots: &MACH_KNOTS,
        reference_area: area,
        power_off: MACH_KNOTS.column(power_off),
        power_on: MACH_KNOTS.column(power_on),
        friction: Some(surfaces),
    }
}

/// Subsonic pressure drag of a cone's shoulder, 0.8 sin^2 of the half angle (from memory: Hoerner,
/// "Fluid-Dynamic Drag", 1965); a von Karman nose meets the body without one.
fn attached_cone<R: Real>(shape: NoseShape, fineness: R) -> R {
    match shape {
        NoseShape::Cone => {
            let tangent = R::splat(0.5) / fineness;
            tangent.squared() / (tangent.squared() + 1.0) * 0.8
        }
        NoseShape::VonKarman => R::splat(0.0),
    }
}

/// Friction columns of a surface of `length` whose wetted area is `area_ratio` times the reference
/// area; `form` is what its form factor adds to one at low speed.
fn surface<R: Real>(length: R, roughness: R, area_ratio: R, form: R) -> Surface<R> {
    let log_length = length.max(R::splat(1e-6)).log10();
    let zero = [R::splat(0.0); MAX_DRAG_POINTS];
    let (mut level, mut slope, mut rough) = (zero, zero, zero);
    let [low, high] = *FIT_AT;
    for (knot, mach) in MACH.iter().enumerate() {
        // Below Mach 0.1 friction matters to no ascent, and the logarithm needs a floor.
        let log_mach = libm::log10(mach.max(0.1));
        let factor = area_ratio * (form * subsonic_share(*mach) + 1.0) * compressibility(*mach);
        let at = |unit: f64| turbulent_plate((log_length + (log_mach + unit)).max(R::splat(5.0)));
        let (near, far) = (at(low), at(high));
        let gradient = (far - near) / (high - low);
        slope[knot] = factor * gradient;
        level[knot] = factor * (near - gradient * low);
        let cut_off = cut_off_reynolds(length.max(R::splat(1e-6)), roughness, *mach);
        rough[knot] = factor * turbulent_plate(cut_off.max(R::splat(5.0)));
    }
    Surface {
        level: MACH_KNOTS.column(level),
        slope: MACH_KNOTS.column(slope),
        rough: MACH_KNOTS.column(rough),
    }
}
