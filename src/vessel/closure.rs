//! Closures: depth, volume, area, metal and membrane or plate stress.

use super::bolts::rim_volume;
use super::code_formulas::torisphere_factor;
use super::form::ClosureKind;
use super::isotensoid;
use super::membrane::axial_stress;
use super::tank::Closure;
use super::torisphere::{UnitTorisphere, unit_torisphere};
use crate::numerics::Real;
use std::f64::consts::PI;

fn torisphere<R: Real>(closure: &Closure<R>) -> UnitTorisphere<R> {
    unit_torisphere(closure.crown_radius_ratio, closure.knuckle_radius_ratio)
}

/// Inside depth of a closure of inside diameter `diameter`, m. A torisphere of crown radius L and
/// knuckle radius r is `L - sqrt((L - D/2) (L + D/2 - 2 r))` deep. An isotensoid's curve and cap are
/// integrated once, see [`closure_volume`].
pub fn closure_depth<R: Real>(kind: ClosureKind, closure: &Closure<R>, diameter: R) -> R {
    match kind {
        ClosureKind::Hemisphere => diameter * 0.5,
        ClosureKind::Ellipsoid => diameter * 0.25,
        ClosureKind::Torisphere => diameter * torisphere(closure).depth,
        ClosureKind::Isotensoid => {
            diameter * 0.5 * isotensoid::measures(closure.turning_radius_ratio).depth
        }
        ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
            R::splat(0.0)
        }
    }
}

/// Inside volume of a closure, m3: a hemisphere holds pi D^3 / 12, a 2:1 ellipsoid pi D^3 / 24
/// (volume of half an ellipsoid of revolution), a torisphere its spherical cap and swept knuckle
/// (exact).
///
/// An isotensoid is the curve of geodesic fibres that all pull alike, from the rim to its inflection at
/// `sqrt(3/2)` of the turning radius, closed by the spherical cap tangent to it. Depth, volume and area are
/// integrals of that curve, off by less than 1e-9.
pub fn closure_volume<R: Real>(kind: ClosureKind, closure: &Closure<R>, diameter: R) -> R {
    match kind {
        ClosureKind::Torisphere => diameter.cubed() * torisphere(closure).volume,
        ClosureKind::Isotensoid => {
            let unit = isotensoid::measures(closure.turning_radius_ratio);
            (diameter * 0.5).cubed() * unit.volume
        }
        _ => diameter.squared() * closure_depth(kind, closure, diameter) * (PI / 6.0),
    }
}

/// Surface of a closure, m2, at the diameter given. The 2:1 ellipsoid's is
/// pi D^2 / 4 (1 + artanh(e) (1 - e^2) / e) with e^2 = 3/4: half the surface of an oblate spheroid. A
/// torisphere's is exact.
pub fn closure_area<R: Real>(kind: ClosureKind, closure: &Closure<R>, diameter: R) -> R {
    /// 1 + artanh(e) (1 - e^2) / e at e = sqrt(3) / 2, evaluated once.
    const OBLATE: f64 = 1.380_172_998_150_473;
    let disc = diameter.squared() * (PI / 4.0);
    match kind {
        ClosureKind::Hemisphere => disc * 2.0,
        ClosureKind::Ellipsoid => disc * OBLATE,
        ClosureKind::Torisphere => diameter.squared() * torisphere(closure).area,
        ClosureKind::Isotensoid => {
            closure_area_outside(closure.turning_radius_ratio, diameter, R::splat(0.0))
        }
        ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => disc,
    }
}

/// Area, m2, of an isotensoid's parallel surface at a distance `offset` outside its inside: Steiner's formula,
/// exact.
pub(crate) fn closure_area_outside<R: Real>(turning_radius_ratio: R, diameter: R, offset: R) -> R {
    let unit = isotensoid::measures(turning_radius_ratio);
    let radius = diameter * 0.5;
    radius.squared() * unit.area + offset * (radius * unit.bend + offset * PI) * 2.0
}

/// Volume of metal in a closure of inside diameter `diameter` and its nominal thickness, m3. Domes:
/// area at mid-thickness times thickness (exact to the square of thickness over diameter); at
/// mid-thickness both radii of a torisphere are half a thickness larger, and an isotensoid's middle
/// surface is the parallel of its inside. Flat bulkheads fill the liner's bore; a bolted one has its rim in
/// it, without holes.
pub fn closure_metal_volume<R: Real>(kind: ClosureKind, closure: &Closure<R>, diameter: R) -> R {
    let thickness = closure.thickness;
    match kind {
        ClosureKind::Hemisphere | ClosureKind::Ellipsoid => {
            closure_area(kind, closure, diameter + thickness) * thickness
        }
        ClosureKind::Torisphere => {
            let middle = diameter + thickness;
            let grown = |ratio: R| (ratio * diameter + thickness * 0.5) / middle;
            let half_out = Closure {
                crown_radius_ratio: grown(closure.crown_radius_ratio),
                knuckle_radius_ratio: grown(closure.knuckle_radius_ratio),
                ..*closure
            };
            closure_area(kind, &half_out, middle) * thickness
        }
        ClosureKind::Isotensoid => {
            let ratio = closure.turning_radius_ratio;
            closure_area_outside(ratio, diameter, thickness * 0.5) * thickness
        }
        ClosureKind::FlatClamped | ClosureKind::FlatSupported => {
            closure_area(kind, closure, diameter) * thickness
        }
        ClosureKind::FlatBolted => {
            closure_area(kind, closure, diameter) * thickness + rim_volume(closure, diameter)
        }
    }
}

/// Largest stress in a closure under internal pressure, Pa, at its minimum thickness t and the
/// nominal inside diameter.
///
/// - Hemisphere: membrane, p R / (2 t) at the mean radius.
/// - 2:1 ellipsoid: membrane at the crown, p a^2 / (2 b t) = p R / t for a = 2 b; the hoop stress at
///   the equator, p R / t (1 - a^2 / (2 b^2)), is as large and compressive.
/// - Torisphere of inside crown radius L and knuckle radius r: the boiler code's formula solved for the
///   stress, p (L M + 0.2 t) / (2 t) with M = (3 + sqrt(L / r)) / 4 (ASME Boiler and Pressure Vessel
///   Code, section VIII division 1, appendix 1-4(d)). M sets the knuckle's hoop compression and bending
///   against the crown's membrane stress. Meant for t / L of at least 0.002; a thinner knuckle may
///   buckle under internal pressure, which is not checked.
/// - Isotensoid of turning radius `k R`: membrane, `p R2 / t` just outside the cap, at `R2 = sqrt(2) R / (3 k
///   sqrt(1 - k^2))` and half a thickness. Along the curve `R2 / R1 = 2 - tan^2 a` with `tan^2 a = r0^2 / (r^2 -
///   r0^2)` of its fibres, so that the meridian stress is `p R2 / (2 t)` and the hoop stress `tan^2 a` times it:
///   from nearly none at the rim to twice at the inflection, where the meridian is straight and tan^2 a = 2. Hoop,
///   largest and equivalent stress all are largest there, derived; a small k, a dome nearly flat at its pole, is dear.
///   In the cap both are `p R2 / (2 t)`. The wall evens that step out by bending, which is not in it: against
///   solid finite elements, bending included, the equivalent stress is 0.73 to 0.90 of the membrane's (k 0.2 to
///   0.7, walls of 1 to 4 % of the radius), so that it is judged high.
/// - Flat, clamped edge: plate bending 3/4 p (R / t)^2 at the edge.
/// - Flat, supported edge, and flat, bolted: 3 (3 + nu) / 8 p (R / t)^2 at the centre, supported at the bore's
///   radius; what a rim adds to the plate's stiffness is not counted.
///
/// Plate formulas: "Mechanical Engineer's Data Handbook", section 1.10.1 "Loaded flat plates", page 53;
/// shells: membrane theory of a shell of revolution.
/// Edge bending where a dome meets the cylinder is not in it. Fibre wound over the closure is not
/// credited.
pub fn closure_stress<R: Real>(
    kind: ClosureKind,
    closure: &Closure<R>,
    pressure: R,
    diameter: R,
    poisson_ratio: R,
) -> R {
    let thickness = closure.minimum_thickness();
    let mean_radius = (diameter + thickness) * 0.5;
    let bore_over_thickness = diameter * 0.5 / thickness;
    match kind {
        ClosureKind::Hemisphere => axial_stress(pressure, mean_radius, thickness),
        ClosureKind::Ellipsoid => pressure * mean_radius / thickness,
        ClosureKind::Torisphere => {
            let crown = diameter * closure.crown_radius_ratio;
            let factor =
                torisphere_factor(closure.crown_radius_ratio, closure.knuckle_radius_ratio);
            pressure * (crown * factor + thickness * 0.2) / (thickness * 2.0)
        }
        ClosureKind::Isotensoid => {
            let inside = isotensoid::neck_radius(closure.turning_radius_ratio) * diameter * 0.5;
            pressure * (inside + thickness * 0.5) / thickness
        }
        ClosureKind::FlatClamped => pressure * bore_over_thickness.squared() * 0.75,
        ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
            pressure * bore_over_thickness.squared() * (poisson_ratio + 3.0) * 0.375
        }
    }
}

/// Equivalent (von Mises) over largest stress where a closure yields first. A 2:1 ellipsoid yields at
/// its equator, where meridian stress p R / (2 t) meets hoop stress -p R / t: sqrt(7) / 2. An isotensoid
/// yields beside its cap, where the meridian stress is half the hoop stress: sqrt(3) / 2. The code's
/// torisphere formula is set against the uniaxial strength as it stands.
pub(super) fn closure_yield_ratio(kind: ClosureKind) -> f64 {
    match kind {
        ClosureKind::Ellipsoid => 1.322_875_655_532_295_3,
        ClosureKind::Isotensoid => 0.866_025_403_784_438_6,
        ClosureKind::Hemisphere
        | ClosureKind::Torisphere
        | ClosureKind::FlatClamped
        | ClosureKind::FlatSupported
        | ClosureKind::FlatBolted => 1.0,
    }
}
