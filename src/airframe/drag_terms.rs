//! The terms of the drag of a body with fins, each at a Mach number: one source for the columns of
//! the ascent and for the full build-up. All coefficients refer to the frontal area.

use super::body::{Body, BodyForm, frontal_area};
use super::fins::Planform;
use super::friction::{compressibility, cut_off_by_height, cut_off_shift, turbulent_plate};
use super::given_drag::GivenDrag;
use super::nose::NoseShape;
use super::pressure_drag::{
    FULL_WAVE_DRAG, base_drag, fin_wave_drag, nose_wave_drag, shoulder_drag, subsonic_share,
    transonic_ramp,
};
use crate::numerics::Real;

/// Logarithms of Reynolds numbers below this are held there: such a surface is too small or too slow
/// for its friction to matter.
const LEAST_LOG_REYNOLDS: f64 = 5.0;
/// Least length of a surface, m; keeps the logarithm of a vehicle without fins finite.
const LEAST_LENGTH: f64 = 1e-6;
/// Below this Mach number the Reynolds number is held: friction there matters to no ascent.
const LEAST_MACH: f64 = 0.1;

/// What the terms need to know about a Mach number; the same for every design.
#[derive(Debug, Clone, Copy)]
pub(super) struct AtMach {
    /// Held where formulas for supersonic flow begin.
    supersonic: f64,
    /// Share of the wave drag that stands.
    ramp: f64,
    /// Base drag coefficient.
    base: f64,
    /// Decimal logarithm, held below.
    log_mach: f64,
    /// Share of the subsonic form factor that stands.
    subsonic: f64,
    compressibility: f64,
    cut_off_shift: f64,
}

impl AtMach {
    pub(super) fn new(mach: f64) -> Self {
        Self {
            supersonic: mach.max(FULL_WAVE_DRAG),
            ramp: transonic_ramp(mach),
            base: base_drag(mach),
            log_mach: libm::log10(mach.max(LEAST_MACH)),
            subsonic: subsonic_share(mach),
            compressibility: compressibility(mach),
            cut_off_shift: cut_off_shift(mach),
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
    log_length: R,
    /// Logarithm of the cut-off Reynolds number, but for its dependence on Mach number.
    log_cut_off: R,
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
        let area = frontal_area(body.frontal_diameter);
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
            log_length: length.max(R::splat(LEAST_LENGTH)).log10(),
            log_cut_off: cut_off_by_height(length.max(R::splat(LEAST_LENGTH)), roughness),
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

    /// Pressure drag of the nose: supersonic wave drag, faded in through the transonic range, where
    /// that of the shoulder fades out.
    pub(super) fn nose(&self, at: &AtMach) -> R {
        let wave = nose_wave_drag(self.nose, self.nose_fineness, at.supersonic);
        let shoulder = shoulder_drag(self.nose, self.nose_fineness);
        (wave * at.ramp + shoulder * (1.0 - at.ramp)) * self.nose_share * self.wave_multiplier
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
    /// Drag coefficient over the friction coefficient of an incompressible plate.
    pub(super) fn factor(&self, at: &AtMach) -> R {
        self.area_ratio * (self.form * at.subsonic + 1.0) * at.compressibility * self.multiplier
    }

    /// Friction of a smooth plate at a unit Reynolds number (decimal logarithm, at Mach 1).
    pub(super) fn smooth_plate(&self, at: &AtMach, unit_reynolds: f64) -> R {
        let log_reynolds = self.log_length + (at.log_mach + unit_reynolds);
        turbulent_plate(log_reynolds.max(R::splat(LEAST_LOG_REYNOLDS)))
    }

    /// Friction of a plate at its cut-off Reynolds number, the least that its roughness allows.
    pub(super) fn rough_plate(&self, at: &AtMach) -> R {
        let cut_off = self.log_cut_off + at.cut_off_shift;
        turbulent_plate(cut_off.max(R::splat(LEAST_LOG_REYNOLDS)))
    }
}
