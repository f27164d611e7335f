//! Drag of a design as the ascent sees it: pressure drag in own columns over Mach, friction by its law.
//!
//! `CD(M, h) = P(M) + sum over body and fins of K(M) G(min(x, x_r(M)))`. P is what does not depend on
//! the Reynolds number, an own column for every design, with power off and on. G is the friction of a
//! plate at a logarithm of the Reynolds number; on a surface that is `x = lambda(M) + log10 l + phi(h)`,
//! phi the logarithm of the unit Reynolds number at Mach 1, and `x_r` the one at which its roughness
//! takes over; K holds area, form and compressibility. What depends on Mach or on the Reynolds number
//! alone is a table that all designs share, so a design carries four numbers per surface.
//!
//! Between Mach knots a computed column is a natural cubic spline (twice continuously differentiable,
//! so that a fixed step grid sees no kink), a stated table a monotone cubic, which stays within its own
//! values; beyond the last knot the end value holds.
//!
//! Known error against the full build-up of the same terms ([`BuildUp`](super::BuildUp)): friction 3e-6
//! at any altitude; pressure drag 0.8 % between the knots, at the kink of base drag at Mach 1. Property
//! tests hold these numbers. (Friction held at its value at sea level would err by 19 % at 12 km and
//! 42 % at 25 km.) What the terms themselves err by stands with each.

use super::body::frontal_area;
use super::by_mach::{ByMach, KNOTS, MACH};
use super::drag_terms::{AtMach, DragTerms};
use super::given_drag::GivenDrag;
use super::surface::{Flow, Surface};
use crate::error::{Error, Result};
use crate::numerics::{Column, Knots, Real};
use std::sync::LazyLock;

/// Most points a stated drag table may have.
pub const MAX_DRAG_POINTS: usize = 40;

/// Mach numbers between which the drag of a drawn body rises and bends most. Own choice, by the scan of
/// vehicles against an integrator from elsewhere (tests/validation/oracle).
const STEEP: [f64; 2] = [0.8, 1.2];

static AT_MACH: LazyLock<[AtMach; MACH.len()]> = LazyLock::new(|| MACH.map(AtMach::new));

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

    /// Mach numbers of the first and the last row between which the coefficient changes; the same twice if it
    /// never does.
    fn steep(&self) -> [f64; 2] {
        let mach = self.knots.positions();
        let changes = |k: &usize| self.coefficients[*k] != self.coefficients[k + 1];
        let rows = 0..mach.len() - 1;
        let first = rows.clone().find(changes).unwrap_or(0);
        let last = rows.rev().find(changes).map_or(0, |k| k + 1);
        [mach[first], mach[last]]
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

/// Drag columns of one design, or of a block of them.
#[derive(Debug, Clone)]
pub struct Drag<'a, R> {
    knots: &'a Knots,
    steep: [f64; 2],
    /// Area all coefficients refer to, m2.
    pub reference_area: R,
    /// Pressure drag without thrust; all drag if it is stated.
    power_off: Curve<R>,
    drawn: Option<Drawn<R>>,
}

/// What the drag of a drawn body has beside its column.
#[derive(Debug, Clone, Copy)]
struct Drawn<R> {
    /// Share of the base drag that full thrust takes away, times the multiplier of base drag.
    relief: R,
    body: Surface<R>,
    fins: Surface<R>,
}

impl<'a, R: Real> Drag<'a, R> {
    /// That of one lane.
    pub fn lane(&self, lane: usize) -> Drag<'a, f64> {
        Drag {
            knots: self.knots,
            steep: self.steep,
            reference_area: self.reference_area.lane(lane),
            power_off: self.power_off.lane(lane),
            drawn: self.drawn.as_ref().map(|drawn| Drawn {
                relief: drawn.relief.lane(lane),
                body: drawn.body.lane(lane),
                fins: drawn.fins.lane(lane),
            }),
        }
    }

    /// Drag coefficient at a Mach number and unit Reynolds number (decimal logarithm, at Mach 1).
    /// `power` is the share of full thrust, from zero in the coast to one.
    #[inline(always)]
    pub fn coefficient(&self, mach: R, unit_reynolds: R, power: R) -> R {
        self.assembled(mach, unit_reynolds, Some(power))
    }

    /// Drag coefficient without thrust.
    #[inline(always)]
    pub fn coasting(&self, mach: R, unit_reynolds: R) -> R {
        self.assembled(mach, unit_reynolds, None)
    }

    #[inline(always)]
    fn assembled(&self, mach: R, unit_reynolds: R, power: Option<R>) -> R {
        let Some(drawn) = &self.drawn else {
            return self.stated(mach);
        };
        let mach = ByMach::new(mach);
        let coasting = mach.read(&self.power_off);
        let pressure = match power {
            None => coasting,
            Some(power) => coasting - drawn.relief * power * mach.base_drag,
        };
        let [body, fins] = drawn.friction(&mach, unit_reynolds);
        pressure + body + fins
    }

    fn stated(&self, mach: R) -> R {
        self.power_off.at(&self.knots.place(mach))
    }

    /// Friction of body and fins; none if the drag is stated.
    pub fn friction(&self, mach: R, unit_reynolds: R) -> Option<[R; 2]> {
        let drawn = self.drawn.as_ref()?;
        Some(drawn.friction(&ByMach::new(mach), unit_reynolds))
    }

    /// Mach numbers of the knots.
    pub fn mach(&self) -> &[f64] {
        self.knots.positions()
    }

    /// Mach numbers between which the steps of the ascent are short: about the speed of sound, or from end to
    /// end of a stated table, which may bend anywhere.
    pub fn steep(&self) -> [f64; 2] {
        self.steep
    }

    /// Least distance of two Mach knots: what is narrower than a step of the ascent no step sees.
    pub fn narrowest(&self) -> f64 {
        self.knots.narrowest()
    }
}

impl<R: Real> Drawn<R> {
    #[inline(always)]
    fn friction(&self, mach: &ByMach<R>, unit_reynolds: R) -> [R; 2] {
        let flow = Flow::new(mach, unit_reynolds);
        [self.body.friction(&flow), self.fins.friction(&flow)]
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
        steep: table.steep(),
        reference_area: frontal_area(given.reference_diameter),
        power_off: column,
        drawn: None,
    }
}

/// Builds the columns of the terms.
pub fn build_drag<R: Real>(terms: &DragTerms<R>) -> Drag<'static, R> {
    let mut power_off = [R::splat(0.0); MAX_DRAG_POINTS];
    for (knot, at) in AT_MACH.iter().enumerate() {
        power_off[knot] = terms.nose(at) + terms.fins_wave(at) + terms.base(at);
    }
    Drag {
        knots: &KNOTS,
        steep: STEEP,
        reference_area: terms.reference_area,
        power_off: KNOTS.column(&power_off),
        drawn: Some(Drawn {
            relief: terms.relief(),
            body: *terms.body(),
            fins: *terms.fins(),
        }),
    }
}
