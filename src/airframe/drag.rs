//! Drag of a design as the ascent sees it: columns over Mach, with friction following the Reynolds
//! number of the altitude.
//!
//! `CD(M, h) = P(M) + sum over body and fins of max(A(M) + B(M) phi(h), R(M))`, phi the decimal
//! logarithm of the unit Reynolds number at Mach 1. P holds what does not depend on Reynolds number,
//! with power off and on; A and B make turbulent friction linear in phi through two altitudes; R is
//! friction at the cut-off Reynolds number of the roughness. Between Mach knots every computed column
//! is a natural cubic spline, a stated table a monotone cubic, which stays within its own values;
//! beyond the last knot the end value holds.

use super::drag_terms::{DragTerms, Surface};
use super::given_drag::GivenDrag;
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
struct Friction<R> {
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
    friction: Option<[Friction<R>; 2]>,
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
pub fn stated_drag<'a, R: Real>(table: &'a DragTable, given: &GivenDrag<R>) -> Drag<'a, R> {
    let column = table
        .knots
        .monotone(&table.coefficients)
        .scaled(given.table_multiplier);
    Drag {
        knots: &table.knots,
        reference_area: given.reference_diameter.squared() * (PI / 4.0),
        power_off: column,
        power_on: column,
        friction: None,
    }
}

/// Builds the columns of the terms.
pub fn build_drag<R: Real>(terms: &DragTerms<R>) -> Drag<'static, R> {
    let mut power_off = [R::splat(0.0); MAX_DRAG_POINTS];
    let mut power_on = power_off;
    for (knot, mach) in MACH.iter().enumerate() {
        let pressure = terms.wave(*mach);
        let base = terms.base(*mach);
        power_off[knot] = pressure + base;
        power_on[knot] = pressure + terms.jet_free() * base;
    }
    Drag {
        knots: &MACH_KNOTS,
        reference_area: terms.reference_area,
        power_off: MACH_KNOTS.column(power_off),
        power_on: MACH_KNOTS.column(power_on),
        friction: Some([friction(terms.body()), friction(terms.fins())]),
    }
}

/// Friction columns of a surface.
fn friction<R: Real>(surface: &Surface<R>) -> Friction<R> {
    let zero = [R::splat(0.0); MAX_DRAG_POINTS];
    let (mut level, mut slope, mut rough) = (zero, zero, zero);
    let [low, high] = *FIT_AT;
    for (knot, mach) in MACH.iter().enumerate() {
        let (near, far) = (surface.smooth(*mach, low), surface.smooth(*mach, high));
        slope[knot] = (far - near) / (high - low);
        level[knot] = near - slope[knot] * low;
        rough[knot] = surface.rough(*mach);
    }
    Friction {
        level: MACH_KNOTS.column(level),
        slope: MACH_KNOTS.column(slope),
        rough: MACH_KNOTS.column(rough),
    }
}
