//! The full build-up of drag at one Mach number and Reynolds number: every term by itself, without
//! columns, splines or tables.

use super::drag_terms::{AtMach, DragTerms};
use super::surface::Flow;

/// Drag coefficients on the frontal area, term by term.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BuildUp {
    /// Pressure drag of the nose, that of its shoulder included.
    pub nose: f64,
    /// Wave drag of the fins' thickness.
    pub fins_wave: f64,
    /// Base drag, less what the jet takes away.
    pub base: f64,
    /// Friction of the body.
    pub body_friction: f64,
    /// Friction of the fins.
    pub fin_friction: f64,
    /// Their sum.
    pub total: f64,
}

impl BuildUp {
    /// The terms at a Mach number and unit Reynolds number (decimal logarithm, at Mach 1, as in
    /// [`Air::unit_reynolds`](crate::atmosphere::Air)). `power` is the share of full thrust, from
    /// zero in the coast to one.
    ///
    /// Each term has the range, source and error of its own function in this module; they are the
    /// same functions from which [`build_drag`](super::build_drag) makes the columns of the ascent.
    ///
    /// ```
    /// use hoopline::{airframe::BuildUp, atmosphere, stage::Stage};
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let air = atmosphere::standard(2_000.0);
    /// let coast = BuildUp::new(&stage.drag_terms()?, 2.0, air.unit_reynolds, 0.0);
    /// assert!((coast.base - 0.125).abs() < 1e-12);
    /// assert!(coast.body_friction > coast.fin_friction && coast.total < 0.6);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn new(terms: &DragTerms<f64>, mach: f64, unit_reynolds: f64, power: f64) -> Self {
        let at = AtMach::new(mach);
        let flow = Flow::exact(mach, unit_reynolds);
        let nose = terms.nose(&at);
        let fins_wave = terms.fins_wave(&at);
        let base = terms.base(&at) * (1.0 + (terms.jet_free() - 1.0) * power);
        let body_friction = terms.body().exact_friction(&flow);
        let fin_friction = terms.fins().exact_friction(&flow);
        Self {
            nose,
            fins_wave,
            base,
            body_friction,
            fin_friction,
            total: nose + fins_wave + base + body_friction + fin_friction,
        }
    }

    /// Friction of body and fins.
    pub fn friction(&self) -> f64 {
        self.body_friction + self.fin_friction
    }
}
