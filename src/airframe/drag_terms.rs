//! The terms of the drag of a body with fins, each at a Mach number: one source for the columns of
//! the ascent and for the full build-up. All coefficients refer to the frontal area.

use super::body::{Body, BodyForm, frontal_area};
use super::fins::Planform;
use super::given_drag::GivenDrag;
use super::nose::NoseShape;
use super::pressure_drag::{
    FULL_WAVE_DRAG, base_drag, fin_wave_drag, nose_slenderness, nose_wave_at, shoulder_drag,
    transonic_ramp,
};
use super::surface::Surface;
use crate::numerics::Real;

/// What the terms need to know about a Mach number; the same for every design.
#[derive(Debug, Clone, Copy)]
pub(super) struct AtMach {
    /// Held where formulas for supersonic flow begin.
    supersonic: f64,
    /// Share of the wave drag that stands.
    ramp: f64,
    /// Base drag coefficient.
    base: f64,
}

impl AtMach {
    pub(super) fn new(mach: f64) -> Self {
        Self {
            supersonic: mach.max(FULL_WAVE_DRAG),
            ramp: transonic_ramp(mach),
            base: base_drag(mach),
        }
    }
}

/// What the drag of a body with fins is made of. Interference, protuberances, blunt edges and
/// boat-tails are not in it.
#[derive(Debug, Clone, Copy)]
pub struct DragTerms<R> {
    /// Area all coefficients refer to, m2.
    pub reference_area: R,
    nose: NoseShape,
    /// What the wave drag takes from the nose's fineness ratio.
    nose_slenderness: R,
    /// Drag of its shoulder.
    shoulder: R,
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
        let area = frontal_area(body.frontal_diameter);
        let count = form.fins.count as f64;
        let fineness = body.length / body.diameter;
        let nose_fineness = body.nose_length / body.diameter;
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
        let surface = |length: R, wetted_area: R, form: R| {
            let share = wetted_area / area * given.friction_multiplier;
            Surface::new(length, roughness, share, form)
        };
        Self {
            reference_area: area,
            nose: form.nose,
            nose_slenderness: nose_slenderness(form.nose, nose_fineness),
            shoulder: shoulder_drag(form.nose, nose_fineness),
            nose_share: (body.diameter / body.frontal_diameter).squared(),
            fin_thickness_ratio: thickness_ratio,
            fin_share: fin.area * count / area,
            jet_free: R::splat(1.0) - (exit_area / area).min(R::splat(1.0)),
            wave_multiplier: given.wave_multiplier,
            base_multiplier: given.base_multiplier,
            body: surface(body.length, body.wetted_area, body_form),
            fins: surface(fin.mean_chord, fin.area * (2.0 * count), fin_form),
        }
    }

    /// Pressure drag of the nose: supersonic wave drag, faded in through the transonic range, where
    /// that of the shoulder fades out.
    pub(super) fn nose(&self, at: &AtMach) -> R {
        let wave = self.nose_slenderness * nose_wave_at(self.nose, at.supersonic);
        (wave * at.ramp + self.shoulder * (1.0 - at.ramp)) * self.nose_share * self.wave_multiplier
    }

    /// Wave drag of the fins, faded in through the transonic range.
    pub(super) fn fins_wave(&self, at: &AtMach) -> R {
        let wave = fin_wave_drag(self.fin_thickness_ratio, at.supersonic);
        wave * at.ramp * self.fin_share * self.wave_multiplier
    }

    /// Base drag in the coast.
    pub(super) fn base(&self, at: &AtMach) -> R {
        self.base_multiplier * at.base
    }

    /// Share of the base drag that is left at full thrust.
    pub(super) fn jet_free(&self) -> R {
        self.jet_free
    }

    /// What full thrust takes of the base drag, over its law.
    pub(super) fn relief(&self) -> R {
        (R::splat(1.0) - self.jet_free) * self.base_multiplier
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
