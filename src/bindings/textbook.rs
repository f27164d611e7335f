//! Textbook formulas, bare: `hoopline.textbook` checks what goes in and says what comes out.

use crate::airframe::{self, NoseShape};
use crate::ascent::closed_form;
use crate::atmosphere;
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide;
use crate::likeness::near_names;
use crate::quantity::{Choice, Slots};
use crate::vessel::{
    self, Bolts, Closure, ClosureKind, code_formulas, edge_limits, metal_burst, thick_wall, winding,
};
use pyo3::prelude::*;

/// Wraps functions of numbers.
macro_rules! of_numbers {
    ($($(#[$doc:meta])+ $name:ident($($argument:ident),+) = $function:path;)+) => {
        $(
            $(#[$doc])+
            #[pyfunction]
            pub fn $name($($argument: f64),+) -> f64 {
                $function($($argument),+)
            }
        )+
    };
}

of_numbers! {
    /// Frontal area of a body, m2.
    frontal_area(diameter) = airframe::frontal_area;
    /// Hoop stress of a thin closed cylinder, Pa.
    hoop_stress(pressure, radius, thickness) = vessel::hoop_stress;
    /// Axial stress of a thin closed cylinder, Pa.
    axial_stress(pressure, radius, thickness) = vessel::axial_stress;
    /// Hoop line load of a cylinder, N/m.
    hoop_line_load(pressure, mean_radius) = vessel::hoop_line_load;
    /// Axial line load of a closed cylinder, N/m.
    axial_line_load(pressure, inner_radius, mean_radius) = vessel::axial_line_load;
    /// Largest axial stress at a clamped end, Pa.
    clamped_end_stress(pressure, radius, thickness, poisson_ratio) = edge_limits::clamped_end_stress;
    /// Largest axial stress beside a hemisphere of equal thickness, Pa.
    hemisphere_edge_stress(pressure, radius, thickness, poisson_ratio)
        = edge_limits::hemisphere_edge_stress;
    /// Surface over mean stress of like walls with offset middles.
    offset_factor(offset, thickness) = edge_limits::offset_factor;
    /// Burst pressure by the mean diameter, Pa.
    burst_by_mean_diameter(wall, mean_diameter, ultimate) = metal_burst::mean_diameter;
    /// Burst pressure by von Mises' condition, Pa.
    burst_by_von_mises_limit(wall, mean_diameter, ultimate) = metal_burst::von_mises_limit;
    /// Burst pressure by Faupel, Pa.
    burst_by_faupel(inner_radius, outer_radius, yields, ultimate) = metal_burst::faupel;
    /// Burst pressure by Svensson, Pa.
    burst_by_svensson(inner_radius, outer_radius, ultimate, hardening) = metal_burst::svensson;
    /// Burst pressure by Zhu and Leis, Pa.
    burst_by_zhu_leis(wall, mean_diameter, ultimate, hardening) = metal_burst::zhu_leis;
    /// Winding angle of a geodesic, rad.
    geodesic_angle(radius, turning_radius) = winding::geodesic_angle;
    /// Length of cylinder that turns a band, m.
    turning_length(radius, angle, slippage_coefficient) = winding::turning_length;
    /// Depth of an isotensoid dome, m.
    isotensoid_depth(radius, turning_radius) = winding::isotensoid_depth;
    /// Bands that cover a cylinder.
    bands_for_cover(radius, angle, band_width) = winding::bands_for_cover;
    /// Elastic collapse pressure of a long tube, Pa.
    elastic_collapse_pressure(elastic_modulus, poisson_ratio, thickness, mean_radius)
        = winding::elastic_collapse_pressure;
    /// Code thickness of a cylinder by its hoop stress, m.
    cylinder_thickness_by_hoop_stress(pressure, inside_radius, stress, efficiency)
        = code_formulas::cylinder_thickness_by_hoop_stress;
    /// Code thickness of a cylinder by its axial stress, m.
    cylinder_thickness_by_axial_stress(pressure, inside_radius, stress, efficiency)
        = code_formulas::cylinder_thickness_by_axial_stress;
    /// Code thickness of a sphere, m.
    sphere_thickness(pressure, inside_radius, stress, efficiency) = code_formulas::sphere_thickness;
    /// Factor K of an ellipsoid.
    ellipsoid_factor(inside_diameter, inside_depth) = code_formulas::ellipsoid_factor;
    /// Code thickness of an ellipsoid, m.
    ellipsoid_thickness(pressure, inside_diameter, factor, stress, efficiency)
        = code_formulas::ellipsoid_thickness;
    /// Factor M of a torisphere.
    torisphere_factor(crown_radius, knuckle_radius) = code_formulas::torisphere_factor;
    /// Code thickness of a torisphere, m.
    torisphere_thickness(pressure, crown_radius, factor, stress, efficiency)
        = code_formulas::torisphere_thickness;
    /// Code thickness of a flat head, m.
    flat_head_thickness(pressure, diameter, attachment, stress, efficiency)
        = code_formulas::flat_head_thickness;
    /// Wall stress of a transport cylinder at its test pressure, Pa.
    transport_cylinder_stress(pressure, outside, inside) = code_formulas::transport_cylinder_stress;
    /// Pressure of nitrous oxide, Pa absolute.
    nitrous_oxide_pressure(temperature, density) = nitrous_oxide::pressure;
    /// Mean friction of a smooth turbulent plate, from the decimal logarithm of its Reynolds number.
    turbulent_plate(log_reynolds) = airframe::turbulent_plate;
    /// Compressible over incompressible friction.
    compressibility(mach) = airframe::compressibility;
    /// Decimal logarithm of the cut-off Reynolds number.
    log_cut_off_reynolds(length, roughness, mach) = airframe::cut_off_reynolds;
    /// Friction by van Driest's second method, from the decimal logarithm of the Reynolds number.
    van_driest(mach, log_reynolds) = airframe::van_driest;
    /// Base drag in the coast.
    base_drag(mach) = airframe::base_drag;
    /// Wave drag of a double-wedge fin.
    fin_wave_drag(thickness_ratio, mach) = airframe::fin_wave_drag;
    /// Burnout speed without drag, m/s.
    drag_free_speed(exhaust_speed, lift_off, burnout, gravity, time) = closed_form::drag_free_speed;
    /// Distance to burnout without drag, m.
    drag_free_distance(exhaust_speed, lift_off, burnout, gravity, time)
        = closed_form::drag_free_distance;
    /// Height of a coast without drag, m.
    drag_free_coast(speed, gravity) = closed_form::drag_free_coast;
    /// Drag over mass and speed squared, 1/m.
    drag_factor(density, drag_area, mass) = closed_form::drag_factor;
    /// Speed after a burn with drag, m/s.
    burn_speed(acceleration, drag_factor, time) = closed_form::burn_speed;
    /// Distance of a burn with drag, m.
    burn_distance(acceleration, drag_factor, time) = closed_form::burn_distance;
    /// Height of a coast with drag, m.
    coast_height(speed, drag_factor, gravity) = closed_form::coast_height;
}

/// Hoop, radial, axial and von Mises stress in a thick closed cylinder, Pa.
#[pyfunction]
pub fn thick_cylinder_stress(
    inner_radius: f64,
    outer_radius: f64,
    radius: f64,
    internal: f64,
    external: f64,
) -> (f64, f64, f64, f64) {
    let at =
        thick_wall::thick_cylinder_stress(inner_radius, outer_radius, radius, internal, external);
    (at.hoop, at.radial, at.axial, at.equivalent())
}

/// Slippage coefficient that turns a band over a dome, if any does.
#[pyfunction]
pub fn needed_slippage(radius: f64, depth: f64, angle: f64, turning_radius: f64) -> Option<f64> {
    winding::needed_slippage(
        &winding::Dome::ellipsoid(radius, depth),
        angle,
        turning_radius,
    )
}

/// Helical and hoop fibre thickness by netting, m.
#[pyfunction]
pub fn netting_thickness(
    pressure: f64,
    radius: f64,
    angle: f64,
    helical_stress: f64,
    hoop_stress: f64,
) -> (f64, f64) {
    vessel::netting_thickness(pressure, radius, angle, helical_stress, hoop_stress)
}

/// Depth, m, volume, m3, and area, m2, of a closure; crown and knuckle only matter to a torisphere, the turning
/// radius to an isotensoid.
#[pyfunction]
pub fn closure(
    kind: &str,
    diameter: f64,
    crown_radius_ratio: f64,
    knuckle_radius_ratio: f64,
    turning_radius_ratio: f64,
) -> PyResult<(f64, f64, f64)> {
    let kind: ClosureKind = option("closure", kind)?;
    let closure = Closure {
        crown_radius_ratio,
        knuckle_radius_ratio,
        turning_radius_ratio,
        ..Closure::uniform(0.0)
    };
    Ok((
        vessel::closure_depth(kind, &closure, diameter),
        vessel::closure_volume(kind, &closure, diameter),
        vessel::closure_area(kind, &closure, diameter),
    ))
}

/// Area of an isotensoid closure's parallel surface at a distance outside, m2.
#[pyfunction]
pub fn isotensoid_area(diameter: f64, turning_radius_ratio: f64, offset: f64) -> f64 {
    vessel::closure_area_outside(turning_radius_ratio, diameter, offset)
}

/// Load of a bolt, N, of a row that holds a plug in a bore, and mean stresses in Pa: shear in the bolt, bearing on the
/// wall, shear-out of the wall, net section of the wall.
#[pyfunction]
#[pyo3(signature = (pressure, bore, wall, count, diameter, hole_diameter, shear_area, edge_distance))]
#[allow(clippy::too_many_arguments)]
pub fn bolt_row(
    pressure: f64,
    bore: f64,
    wall: f64,
    count: f64,
    diameter: f64,
    hole_diameter: f64,
    shear_area: f64,
    edge_distance: f64,
) -> [f64; 5] {
    let bolts = Bolts {
        count,
        diameter,
        hole_diameter,
        shear_area,
        edge_distance,
        ..Bolts::uniform(0.0)
    };
    let force = vessel::bolt_force(pressure, bore, count);
    let row = vessel::row_stress(force, &bolts, [wall, 0.5 * (bore + wall)]);
    [
        row.force,
        row.bolt_shear,
        row.bearing,
        row.shear_out,
        row.net_section,
    ]
}

/// Wave drag of a nose.
#[pyfunction]
pub fn nose_wave_drag(shape: &str, fineness_ratio: f64, mach: f64) -> PyResult<f64> {
    let shape: NoseShape = option("nose shape", shape)?;
    Ok(airframe::nose_wave_drag(shape, fineness_ratio, mach))
}

/// Vapour pressure, Pa absolute, and densities of liquid and vapour, kg/m3, of nitrous oxide.
#[pyfunction]
pub fn nitrous_oxide_saturation(temperature: f64) -> (f64, f64, f64) {
    let state = nitrous_oxide::saturation(temperature);
    (state.pressure, state.liquid_density, state.vapour_density)
}

/// Ends of the nitrous oxide equation of state: temperatures of triple and critical point and the highest,
/// K, critical and highest density, kg/m3, highest pressure, Pa absolute.
#[pyfunction]
pub fn nitrous_oxide_range() -> [f64; 6] {
    [
        nitrous_oxide::TRIPLE_TEMPERATURE,
        nitrous_oxide::CRITICAL_TEMPERATURE,
        nitrous_oxide::VALID_TEMPERATURE_MAX,
        nitrous_oxide::CRITICAL_DENSITY,
        nitrous_oxide::VALID_DENSITY_MAX,
        nitrous_oxide::VALID_PRESSURE_MAX,
    ]
}

/// Temperature, K, at which a closed tank of nitrous oxide is full of liquid, if there is one.
#[pyfunction]
pub fn nitrous_oxide_liquid_full_temperature(density: f64) -> Option<f64> {
    nitrous_oxide::liquid_full_temperature(density)
}

/// Temperature, K, pressure, Pa, density, kg/m3, sound speed, m/s, and dynamic viscosity, Pa s, of the
/// standard atmosphere.
#[pyfunction]
pub fn air(altitude: f64) -> (f64, f64, f64, f64, f64) {
    let air = atmosphere::standard(altitude);
    let unit_reynolds = libm::pow(10.0, air.unit_reynolds);
    let viscosity = air.density * air.sound_speed / unit_reynolds;
    (
        air.temperature,
        air.pressure,
        air.density,
        air.sound_speed,
        viscosity,
    )
}

/// The option of a word, or an error that names the nearest one.
fn option<C: Choice>(kind: &'static str, word: &str) -> Result<C> {
    C::from_word(word).ok_or_else(|| Error::Unknown {
        kind,
        given: word.to_owned(),
        suggestions: near_names(word, C::OPTIONS.iter().map(|(known, _)| *known)),
    })
}
