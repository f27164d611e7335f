//! The terms of the drag of a body with fins, each at a Mach number: one source for the columns of
//! the ascent and for the full build-up. All coefficients refer to the frontal area.

use super::body::{Body, BodyForm};
use super::fins::Planform;
use super::friction::{compressibility, cut_off_reynolds, turbulent_plate};
use super::given_drag::GivenDrag;
use super::nose::NoseShape;
use super::pressure_drag::{
    base_drag, fin_wave_drag, nose_wave_drag, shoulder_drag, subsonic_share, transonic_ramp,
};
use crate::numerics::Real;
use std::f64::consts::PI;

/// Logarithms of Reynolds numbers below this are held there: such a surface is too small or too slow
/// for its friction to matter.
const LEAST_LOG_REYNOLDS: f64 = 5.0;
/// Least length of a surface, m; keeps the logarithm of a vehicle without fins finite.
const LEAST_LENGTH: f64 = 1e-6;
/// Below this Mach number the Reynolds number is held: friction there matters to no ascent.
const LEAST_MACH: f64 = 0.1;

/// What the drag of a body with fins is made of. Interference, protuberances, blunt edges and
/// boat-tails are not in it.
#[derive(Debug, Clone, Copy)]
pub struct DragTerms<R> {
    /// Area all coefficients refer to, m2.
    pub reference_area: R,
    nose: NoseShape,
    nose_fineness: R,
    /// Nose's base over reference area.
    nose_share: R,
    fin_thickness_ratio: R,
    /// One side of all fins over reference area.
    fin_share: R,
    /// Share of the base that the jet leaves free.
    jet_free: R,
    wave_multiplier: R,
    base_multiplier: R,
    body: Surface<R>,
    fins: Surface<R>,
}

/// A surface that friction acts on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Surface<R> {
    length: R,
    log_length: R,
    roughness: R,
    /// Wetted over reference area.
    area_ratio: R,
    /// What the form factor adds to one at low speed.
    form: R,
    multiplier: R,
}

impl<R: Real> DragTerms<R> {
    /// Takes the terms from dimensions. `roughness` is the equivalent sand-grain height of all
    /// surfaces, m, `exit_area` the nozzle's, m2.
    pub fn new(
        form: &BodyForm,
        body: &Body<R>,
        fin: &Planform<R>,
        fin_thickness: R,
        roughness: R,
        exit_area: R,
        given: &GivenDrag<R>,
    ) -> Self {
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
        let surface = |length: R, area_ratio: R, form: R| Surface {
            length: length.max(R::splat(LEAST_LENGTH)),
            log_length: length.max(R::splat(LEAST_LENGTH)).log10(),
            roughness,
            area_ratio,
            form,
            multiplier: given.friction_multiplier,
        };
        Self {
            reference_area: area,
            nose: form.nose,
            nose_fineness: body.nose_length / body.diameter,
            nose_share: (body.diameter / body.frontal_diameter).squared(),
            fin_thickness_ratio: thickness_ratio,
            fin_share: fin.area * count / area,
            jet_free: R::splat(1.0) - (exit_area / area).min(R::splat(1.0)),
            wave_multiplier: given.wave_multiplier,
            base_multiplier: given.base_multiplier,
            body: surface(body.length, body.wetted_area / area, body_form),
            fins: surface(fin.mean_chord, fin.area * (2.0 * count) / area, fin_form),
        }
    }

    /// Pressure drag of nose and fins: supersonic wave drag, faded in through the transonic range.
    pub(super) fn wave(&self, mach: f64) -> R {
        let supersonic = mach.max(1.2);
        let ramp = transonic_ramp(mach);
        let nose = nose_wave_drag(self.nose, self.nose_fineness, supersonic) * self.nose_share;
        let fins = fin_wave_drag(self.fin_thickness_ratio, supersonic) * self.fin_share;
        let shoulder = shoulder_drag(self.nose, self.nose_fineness) * self.nose_share;
        ((nose + fins) * ramp + shoulder * (1.0 - ramp)) * self.wave_multiplier
    }

    /// Base drag in the coast.
    pub(super) fn base(&self, mach: f64) -> R {
        self.base_multiplier * base_drag(mach)
    }

    /// Share of the base drag that is left at full thrust.
    pub(super) fn jet_free(&self) -> R {
        self.jet_free
    }

    /// The body's surface.
    pub(super) fn body(&self) -> &Surface<R> {
        &self.body
    }

    /// The fins' surfaces.
    pub(super) fn fins(&self) -> &Surface<R> {
        &self.fins
    }
}

impl<R: Real> Surface<R> {
    /// Drag coefficient over that of a smooth plate of the reference area at low speed.
    fn factor(&self, mach: f64) -> R {
        self.area_ratio
            * (self.form * subsonic_share(mach) + 1.0)
            * compressibility(mach)
            * self.multiplier
    }

    /// Friction of the smooth surface at a unit Reynolds number (decimal logarithm, at Mach 1).
    pub(super) fn smooth(&self, mach: f64, unit_reynolds: f64) -> R {
        let log_mach = libm::log10(mach.max(LEAST_MACH));
        let log_reynolds = self.log_length + (log_mach + unit_reynolds);
        self.factor(mach) * turbulent_plate(log_reynolds.max(R::splat(LEAST_LOG_REYNOLDS)))
    }

    /// Friction of the fully rough surface: what its cut-off Reynolds number allows at least.
    pub(super) fn rough(&self, mach: f64) -> R {
        let cut_off = cut_off_reynolds(self.length, self.roughness, mach);
        self.factor(mach) * turbulent_plate(cut_off.max(R::splat(LEAST_LOG_REYNOLDS)))
    }
}
