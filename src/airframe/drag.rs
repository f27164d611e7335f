//! Drag of a design as the ascent sees it: columns over Mach, with friction following the Reynolds
//! number of the altitude.
//!
//! `CD(M, h) = P(M) + sum over body and fins of max(A(M) + B(M) phi(h) + C(M) phi(h)^2, R(M))`, phi the
//! decimal logarithm of the unit Reynolds number at Mach 1. P holds what does not depend on Reynolds
//! number, with power off and on; A, B and C make turbulent friction a parabola in phi through three
//! altitudes; R is friction at the cut-off Reynolds number of the roughness. Between Mach knots every
//! computed column is a natural cubic spline, a stated table a monotone cubic, which stays within its
//! own values; beyond the last knot the end value holds.
//!
//! Known error against the full build-up of the same terms ([`BuildUp`](super::BuildUp)), Mach 0.3 to 5,
//! smooth to 200 um, bodies of fineness ratio 15 to 38: friction within 0.3 % to 11 km, 0.5 % to 20 km
//! and 1.7 % to 25 km, where fins fall below the Reynolds numbers of the plate; the total within 0.3 %
//! to 20 km and 1.2 % to 25 km. Near the switch from smooth to rough 0.2 % of friction; between the
//! knots, at the kink of base drag at Mach 1, 0.35 % of pressure drag. (A straight line in phi through
//! 2 and 11 km erred by 1 % of friction at 8 km, 5 % at 20 km and 10 % at 25 km; friction held at its
//! value at sea level by 19 % at 12 km and 42 % at 25 km.) Property tests hold these numbers. What the
//! terms themselves err by stands with each.

use super::body::frontal_area;
use super::drag_terms::{AtMach, DragTerms, Surface};
use super::given_drag::GivenDrag;
use crate::error::{Error, Result};
use crate::numerics::{Column, Knots, Place, Real};
use std::sync::LazyLock;

/// Most points a stated drag table may have.
pub const MAX_DRAG_POINTS: usize = 40;

/// Mach knots of a computed drag; dense through the transonic range.
const MACH: [f64; 35] = [
    0.0, 0.1, 0.2, 0.3, 0.4, 0.55, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.98, 1.0, 1.02, 1.05, 1.1,
    1.15, 1.2, 1.25, 1.3, 1.4, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.6, 2.8, 3.0, 3.5, 4.0, 4.5, 5.0,
];
static AT_MACH: LazyLock<[AtMach; MACH.len()]> = LazyLock::new(|| MACH.map(AtMach::new));
static MACH_KNOTS: LazyLock<Knots> = LazyLock::new(|| Knots::new(MACH.to_vec()));

/// Altitudes, m, through whose unit Reynolds numbers smooth friction is taken as a parabola: low where
/// dynamic pressure is high, and far enough apart to hold from the ground to 25 km.
const FIT_AT: [f64; 3] = [1_500.0, 11_000.0, 22_000.0];
/// Their unit Reynolds numbers at Mach 1 (decimal logarithm).
static FIT_REYNOLDS: LazyLock<[f64; 3]> =
    LazyLock::new(|| FIT_AT.map(|altitude| crate::atmosphere::standard(altitude).unit_reynolds));

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
        let in_row = |index: usize, problem: String| {
            Err(Error::InRow {
                path: "drag.table",
                row: index + 1,
                problem,
            })
        };
        for (index, (mach, coefficient)) in rows.iter().enumerate() {
            if !(mach.is_finite() && *mach >= 0.0) {
                let problem = format!(
                    "the Mach number {mach} must be finite and not below zero; write 0 or more"
                );
                return in_row(index, problem);
            }
            if let Some((before, _)) = index.checked_sub(1).map(|before| rows[before])
                && before >= *mach
            {
                let problem = format!(
                    "Mach numbers must ascend, and {mach} comes after {before}; sort the table and \
                     remove repeated numbers"
                );
                return in_row(index, problem);
            }
            if !(coefficient.is_finite() && *coefficient >= 0.0) {
                let problem = format!(
                    "the drag coefficient {coefficient} must be finite and not below zero; write 0 \
                     or more"
                );
                return in_row(index, problem);
            }
        }
        Ok(Self {
            knots: Knots::new(rows.iter().map(|(mach, _)| *mach).collect()),
            coefficients: rows.iter().map(|(_, coefficient)| *coefficient).collect(),
        })
    }

    /// No drag at any Mach number.
    pub fn none() -> Self {
        Self {
            knots: Knots::new(vec![0.0, 1.0]),
            coefficients: vec![0.0, 0.0],
        }
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
    curvature: Curve<R>,
    rough: Curve<R>,
}

impl<R: Real> Friction<R> {
    fn at(&self, place: &Place<R>, unit_reynolds: R) -> R {
        let bend = self.slope.at(place) + self.curvature.at(place) * unit_reynolds;
        let smooth = self.level.at(place) + bend * unit_reynolds;
        smooth.max(self.rough.at(place))
    }
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
                sum + surface.at(&place, unit_reynolds)
            }),
        }
    }
}

impl<R: Real> Drag<'_, R> {
    /// Friction of body and fins in these columns; none if the drag is stated.
    pub fn friction(&self, mach: R, unit_reynolds: R) -> Option<[R; 2]> {
        let place = self.knots.place(mach);
        let surfaces = self.friction.as_ref()?;
        Some(surfaces.map(|surface| surface.at(&place, unit_reynolds)))
    }

    /// Mach numbers of the knots.
    pub fn mach(&self) -> &[f64] {
        self.knots.positions()
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
        reference_area: frontal_area(given.reference_diameter),
        power_off: column,
        power_on: column,
        friction: None,
    }
}

/// Builds the columns of the terms.
pub fn build_drag<R: Real>(terms: &DragTerms<R>) -> Drag<'static, R> {
    let mut power_off = [R::splat(0.0); MAX_DRAG_POINTS];
    let mut power_on = power_off;
    for (knot, at) in AT_MACH.iter().enumerate() {
        let pressure = terms.nose(at) + terms.fins_wave(at);
        let base = terms.base(at);
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

/// Friction columns of a surface: Newton's interpolation through three Reynolds numbers, expanded.
fn friction<R: Real>(surface: &Surface<R>) -> Friction<R> {
    let zero = [R::splat(0.0); MAX_DRAG_POINTS];
    let (mut level, mut slope, mut curvature, mut rough) = (zero, zero, zero, zero);
    let [low, middle, high] = *FIT_REYNOLDS;
    for (knot, at) in AT_MACH.iter().enumerate() {
        let factor = surface.factor(at);
        let [at_low, at_middle, at_high] =
            FIT_REYNOLDS.map(|unit| factor * surface.smooth_plate(at, unit));
        let chord = (at_middle - at_low) / (middle - low);
        let next = (at_high - at_middle) / (high - middle);
        let bend = (next - chord) / (high - low);
        level[knot] = at_low - chord * low + bend * (low * middle);
        slope[knot] = chord - bend * (low + middle);
        curvature[knot] = bend;
        rough[knot] = factor * surface.rough_plate(at);
    }
    Friction {
        level: MACH_KNOTS.column(level),
        slope: MACH_KNOTS.column(slope),
        curvature: MACH_KNOTS.column(curvature),
        rough: MACH_KNOTS.column(rough),
    }
}
