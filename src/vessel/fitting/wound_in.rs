//! A pad on the liner that the hoop plies pass over.

use super::case::CaseLoad;
use super::given::Fitting;
use crate::numerics::Real;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::form::{PlyKind, TankForm};
use crate::vessel::membrane::membrane_response;
use crate::vessel::rising::ahead;
use crate::vessel::service::{cooled, free_pull};
use crate::vessel::tank::Tank;
use std::f64::consts::FRAC_PI_2;

/// Clamping force that counts as none, N: it keeps a share of it a number.
const NONE: f64 = 1e-9;

/// Force, N, with which a wrap of line load `T`, N/m, presses a pad onto a shell of radius `radius`, m.
///
/// The wrap leaves the shell along its tangent, runs straight to the pad's edge, and follows its top. Cut there
/// where it leaves: two pulls of `T L` stand at the angle `a + b` to the tangent at the pad's middle, where `a` is
/// half the angle that the width takes, `w / (2 R)`, and `b` the angle between edge and tangent point, `tan b =
/// sqrt(h (2 R + h)) / R`. Whatever the shape of the top, the pad bears their sum, `2 T L sin(a + b)`: the pressure
/// `T / R` on its area and the kinks at both edges. Equilibrium, without friction along the wrap.
///
/// ```
/// use hoopline::vessel::fitting::clamping_force;
/// // A flat pad bears the wrap's pressure T / R on its area: 50 kN/m over 0.1 m on 40 mm x 2 mm.
/// let force = clamping_force(50e3, 0.1, 0.04, 0.002, 1e-12);
/// assert!((force / (50e3 / 0.1 * 0.04 * 0.002) - 1.0).abs() < 1e-3);
/// // A round wire of no width bears two kinks: sin b = sqrt(1 - (100 / 104)^2).
/// let force = clamping_force(50e3, 0.1, 0.04, 1e-12, 0.004);
/// assert!((force - 2.0 * 50e3 * 0.04 * 0.274_6).abs() < 0.5);
/// ```
pub fn clamping_force<R: Real>(line_load: R, radius: R, length: R, width: R, height: R) -> R {
    let edge = bridged_length(radius, height) / radius;
    let angle = (width / (radius * 2.0) + edge.atan()).min(R::splat(FRAC_PI_2));
    line_load * length * angle.sin() * 2.0
}

/// Length on either side of a pad over which the wrap does not touch the shell, m: that of the tangent from the
/// pad's edge.
pub fn bridged_length<R: Real>(radius: R, height: R) -> R {
    (height * (radius * 2.0 + height)).sqrt()
}

/// How a wrap holds pads, at one pressure in the tank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Clamp<R> {
    /// Hoop line load of the hoop plies, N/m.
    pub line_load: R,
    /// Radius of the shell that pads sit on, m: the liner's outside.
    pub radius: R,
}

impl<R: Real> Clamp<R> {
    /// The clamp at a pressure, Pa gauge.
    ///
    /// Strains are elastic ones of fibres and liner together, from the winding stress on: a liner that has flowed in its
    /// autofrettage or proof test leaves more in the wrap than this. A thin liner gives way more to the winding tension,
    /// a thick one strains less under pressure and takes more in a cool-down: the lesser clamp of the minimum and the
    /// nominal wall counts. The cool-down, in which a liner that shrinks more than its wrap takes tension from it, is
    /// counted if it is given. A ply that the gap or the cold leaves slack presses on nothing. Hoop plies alone count;
    /// helical ones that pass over a pad as well add to it.
    pub fn new(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>, pressure: R) -> Self {
        let [thin, nominal] =
            [size.minimum_wall, size.wall].map(|wall| line_load(form, tank, size, wall, pressure));
        Self {
            line_load: thin.min(nominal),
            radius: size.liner_outer_diameter * 0.5,
        }
    }

    /// Force on a pad, N.
    pub fn force(&self, fitting: &Fitting<R>) -> R {
        clamping_force(
            self.line_load,
            self.radius,
            fitting.length,
            fitting.width,
            fitting.height,
        )
    }

    /// Share of the friction that a load takes, without a factor. The wrap presses the pad's top with the clamping
    /// force `N`, the liner its underside with `N - F_r`; both hold by friction until the force along the shell is
    /// `mu (2 N - F_r)`, so that the load as a whole may grow by `2 mu N / (S + mu F_r)`. The wrap's side counts because
    /// the cured wrap hangs together with its neighbours.
    pub fn sliding_share(&self, fitting: &Fitting<R>, load: &CaseLoad<R>) -> R {
        let friction = fitting.friction_coefficient;
        let asked = load.shear() + friction * load.radial;
        asked / (friction * self.held(fitting) * 2.0)
    }

    /// Share of the clamping force at which a corner of the pad comes off the liner, without a factor: pull, and the
    /// moment of the forces about the pad's underside.
    pub fn lifting_share(&self, fitting: &Fitting<R>, load: &CaseLoad<R>) -> R {
        let arm = fitting.load_height + fitting.height;
        load.corner_pull(fitting, arm) / self.held(fitting)
    }

    fn held(&self, fitting: &Fitting<R>) -> R {
        self.force(fitting).max(R::splat(NONE))
    }
}

/// Hoop line load of the hoop plies, N/m, over a liner of a thickness, m, at a pressure, Pa gauge.
fn line_load<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    wall: R,
    pressure: R,
) -> R {
    let (axial, hoop) = size.loads_per_pressure();
    let [ahead_axial, ahead_hoop] = ahead(form, tank, size);
    let [liner, fibre] = cooled(form, tank);
    let [cold_axial, cold_hoop] = free_pull(form, tank, wall, [liner, fibre]);
    let axial = axial * pressure - ahead_axial + cold_axial;
    let hoop = hoop * pressure - ahead_hoop + cold_hoop;
    let strain = membrane_response(form, tank, wall, axial, hoop).hoop_strain;
    let wrap = &tank.overwrap;
    let gap = wrap.gap / (size.inner_diameter * 0.5 + size.wall);
    form.wound(wrap)
        .filter(|(_, kind)| *kind == PlyKind::Hoop)
        .fold(R::splat(0.0), |load, (ply, kind)| {
            let [_, around] = ply.strain_shares(kind);
            let stretch = around * (strain - gap - fibre);
            let stress = wrap.winding_stress + stretch * wrap.fibre.elastic_modulus;
            load + stress.max(R::splat(0.0)) * ply.fibre_thickness * around
        })
}
