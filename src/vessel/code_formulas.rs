//! Required thickness under internal pressure by the formulas of the boiler code, and the wall stress
//! of a transport cylinder at its test pressure: what a design is asked for beside its margins.
//!
//! Formulas: ASME Boiler and Pressure Vessel Code, section VIII division 1, as printed in "Mechanical
//! Engineering hand book", page 225, table 1 "General Vessel Formulas" (fliphtml5.com, paragraphs of the
//! 1983 edition); their ranges as used in public calculation sheets of UG-27 and UG-32. Inside dimensions, corrosion
//! allowance not included, any consistent units. The thickness is the least anywhere, so it compares
//! with the minimum wall, not the nominal one. What stress is allowed is the code's business, not
//! these formulas': they do not make a vessel a code vessel.

use crate::numerics::Real;

/// Required thickness of a cylinder by its circumferential stress (longitudinal seams):
/// `t = P R / (S E - 0.6 P)`, UG-27(c)(1).
///
/// Pressure P and allowable stress S in one unit, inside radius R in that of the result, joint
/// efficiency E. Valid for `t <= R / 2` and `P <= 0.385 S E`; the 0.6 P keeps it within 1 % of Lame's
/// bore stress up to there.
///
/// ```
/// use hoopline::vessel::code_formulas::cylinder_thickness_by_hoop_stress;
/// let inches = cylinder_thickness_by_hoop_stress(356.0, 45.0, 20_000.0, 1.0);
/// assert!((inches - 0.8096_f64).abs() < 5e-5);
/// ```
pub fn cylinder_thickness_by_hoop_stress<R: Real>(
    pressure: R,
    inside_radius: R,
    stress: R,
    efficiency: R,
) -> R {
    pressure * inside_radius / (stress * efficiency - pressure * 0.6)
}

/// Required thickness of a cylinder by its longitudinal stress (girth seams):
/// `t = P R / (2 S E + 0.4 P)`, UG-27(c)(2).
///
/// Units as for [`cylinder_thickness_by_hoop_stress`]; valid for `t <= R / 2` and `P <= 1.25 S E`.
///
/// ```
/// use hoopline::vessel::code_formulas::cylinder_thickness_by_axial_stress;
/// let inches = cylinder_thickness_by_axial_stress(356.0, 45.0, 20_000.0, 1.0);
/// assert!((inches - 0.3991_f64).abs() < 5e-5);
/// ```
pub fn cylinder_thickness_by_axial_stress<R: Real>(
    pressure: R,
    inside_radius: R,
    stress: R,
    efficiency: R,
) -> R {
    pressure * inside_radius / (stress * efficiency * 2.0 + pressure * 0.4)
}

/// Required thickness of a sphere or hemisphere of inside radius L: `t = P L / (2 S E - 0.2 P)`,
/// UG-27(d) and UG-32.
///
/// Units as for [`cylinder_thickness_by_hoop_stress`]; valid for `t <= 0.356 L` and `P <= 0.665 S E`.
///
/// ```
/// use hoopline::vessel::code_formulas::sphere_thickness;
/// let inches = sphere_thickness(3584.6, 96.418, 19_585.0, 1.0);
/// assert!((inches + 0.157 - 9.145_f64).abs() < 5e-4);
/// ```
pub fn sphere_thickness<R: Real>(pressure: R, inside_radius: R, stress: R, efficiency: R) -> R {
    pressure * inside_radius / (stress * efficiency * 2.0 - pressure * 0.2)
}

/// Factor K of an ellipsoid of inside diameter D and inside depth h: `K = (2 + (D / 2 h)^2) / 6`,
/// appendix 1-4(c). One at 2:1.
///
/// Valid for `D / 2 h` from 1 to 3 (from memory).
///
/// ```
/// assert_eq!(hoopline::vessel::code_formulas::ellipsoid_factor(100.0, 25.0), 1.0);
/// ```
pub fn ellipsoid_factor<R: Real>(inside_diameter: R, inside_depth: R) -> R {
    ((inside_diameter / (inside_depth * 2.0)).squared() + 2.0) / 6.0
}

/// Required thickness of an ellipsoid of inside diameter D and factor K of [`ellipsoid_factor`]:
/// `t = P D K / (2 S E - 0.2 P)`, UG-32 and appendix 1-4(c).
///
/// Units as for [`cylinder_thickness_by_hoop_stress`]; for `t / L >= 0.002`, L the crown radius (0.9 D at
/// 2:1); below, the buckling of the knuckle is to be checked by appendix 1-4(f), which is not here.
///
/// ```
/// use hoopline::vessel::code_formulas::ellipsoid_thickness;
/// let inches = ellipsoid_thickness(332.0, 60.0, 1.0, 20_000.0, 1.0);
/// assert!((inches - 0.4988_f64).abs() < 5e-5);
/// ```
pub fn ellipsoid_thickness<R: Real>(
    pressure: R,
    inside_diameter: R,
    factor: R,
    stress: R,
    efficiency: R,
) -> R {
    sphere_thickness(pressure, inside_diameter * factor, stress, efficiency)
}

/// Factor M of a torisphere of inside crown radius L and inside knuckle radius r:
/// `M = (3 + sqrt(L / r)) / 4`, appendix 1-4(d). One for a hemisphere, 1.77 for `r = 0.06 L`.
///
/// The code takes crown radii up to the outside diameter and knuckle radii from 6 % of the outside
/// diameter and from three thicknesses (UG-32(i)), which bounds `L / r` to 16.7.
///
/// ```
/// let factor: f64 = hoopline::vessel::code_formulas::torisphere_factor(1.0, 0.06);
/// assert!((factor - 1.77).abs() < 0.005);
/// ```
pub fn torisphere_factor<R: Real>(crown_radius: R, knuckle_radius: R) -> R {
    ((crown_radius / knuckle_radius).sqrt() + 3.0) / 4.0
}

/// Required thickness of a torisphere of inside crown radius L and factor M of [`torisphere_factor`]:
/// `t = P L M / (2 S E - 0.2 P)`, appendix 1-4(d); for `r = 0.06 L` UG-32 prints it as
/// `t = 0.885 P L / (S E - 0.1 P)`.
///
/// Units as for [`cylinder_thickness_by_hoop_stress`]; for `t / L >= 0.002`; below, the buckling of the
/// knuckle is to be checked by appendix 1-4(f), which is not here.
///
/// ```
/// use hoopline::vessel::code_formulas::{torisphere_factor, torisphere_thickness};
/// let factor = torisphere_factor(72.0, 0.06 * 72.0);
/// let inches = torisphere_thickness(235.0, 72.0, factor, 20_000.0, 1.0);
/// assert!((inches - 0.7499_f64).abs() < 5e-5);
/// ```
pub fn torisphere_thickness<R: Real>(
    pressure: R,
    crown_radius: R,
    factor: R,
    stress: R,
    efficiency: R,
) -> R {
    sphere_thickness(pressure, crown_radius * factor, stress, efficiency)
}

/// Required thickness of a flat unstayed circular head or cover of diameter d: `t = d sqrt(C P / (S E))`,
/// UG-34(c)(2).
///
/// Units as for [`cylinder_thickness_by_hoop_stress`]; `C` by the way of attachment, 0.1 to 0.33: it is
/// read off the code's figure UG-34 and has no default here. For covers bolted through a gasket a moment
/// term comes on top, which is not here.
///
/// ```
/// use hoopline::vessel::code_formulas::flat_head_thickness;
/// let metres = flat_head_thickness(9e6, 0.140, 0.3, 69e6, 1.0);
/// assert!((metres - 0.02769_f64).abs() < 5e-6);
/// ```
pub fn flat_head_thickness<R: Real>(
    pressure: R,
    diameter: R,
    attachment: R,
    stress: R,
    efficiency: R,
) -> R {
    diameter * (attachment * pressure / (stress * efficiency)).sqrt()
}

/// Wall stress of a seamless aluminium transport cylinder at its test pressure P:
/// `S = P (1.3 D^2 + 0.4 d^2) / (D^2 - d^2)`, D outside and d inside diameter, 49 CFR 178.46 (DOT 3AL, wall thickness;
/// the same formula in 178.36 for steel).
///
/// Any consistent units; no limit of thickness is printed. It is the hoop strain at the bore of a closed
/// thick cylinder times the elastic modulus, with a Poisson's ratio of 0.3 (Lame's stresses, largest
/// strain).
///
/// ```
/// let psi: f64 = hoopline::vessel::code_formulas::transport_cylinder_stress(3000.0, 6.0, 5.6);
/// assert!((psi - 38_369.0).abs() < 0.5);
/// ```
pub fn transport_cylinder_stress<R: Real>(pressure: R, outside: R, inside: R) -> R {
    let (outer, inner) = (outside.squared(), inside.squared());
    pressure * (outer * 1.3 + inner * 0.4) / (outer - inner)
}
