//! The vertical ascent of the fleet as plain numbers, for other programs to solve.

use crate::fleet::{
    Design, EXIT_AREA, FIN_THICKNESS, FINS, REFERENCE_PRESSURE, SITE_ALTITUDE, VARIED, curve,
    design, shapes, terms,
};
use hoopline::airframe::build_drag;
use hoopline::atmosphere::STANDARD_GRAVITY;
use serde_json::{Value, json};

/// Thrust curve, Mach knots and the first designs.
///
/// The pressure drag of a design is a natural cubic spline through its coefficients at the Mach
/// knots, without and with full thrust, linear in the share of full thrust between them. Friction has
/// a law of its own for each surface: see `hoopline::airframe`.
pub fn problem(count: usize) -> Value {
    let curve = curve();
    let first = terms(&design(0));
    let drag = build_drag(&first);
    json!({
        "curve": {"time": curve.times, "force": curve.forces},
        "mach": drag.mach(),
        "site_altitude": SITE_ALTITUDE,
        "exit_area": EXIT_AREA,
        "reference_pressure": REFERENCE_PRESSURE,
        "designs": (0..count).map(|index| described(&design(index))).collect::<Vec<_>>(),
    })
}

fn described(design: &Design<f64>) -> Value {
    let [
        _,
        _,
        dry,
        propellant,
        thrust,
        specific_impulse,
        roughness,
        _,
    ] = *design;
    let terms = terms(design);
    let drag = build_drag(&terms);
    // Any Reynolds number will do: friction is taken off again.
    let unit_reynolds = 7.0;
    let pressure = |power: f64| -> Vec<f64> {
        let at = |mach: &f64| {
            let friction = drag.friction(*mach, unit_reynolds).unwrap_or_default();
            drag.coefficient(*mach, unit_reynolds, power) - friction[0] - friction[1]
        };
        drag.mach().iter().map(at).collect()
    };
    let (body, fin) = shapes(design);
    let fineness = body.length / body.diameter;
    let named: serde_json::Map<_, _> = VARIED
        .iter()
        .zip(design)
        .map(|((name, ..), value)| ((*name).to_owned(), json!(value)))
        .collect();
    json!({
        "inputs": named,
        "lift_off_mass": dry + propellant,
        "exhaust_speed": specific_impulse * STANDARD_GRAVITY,
        "propellant": propellant,
        "mean_thrust": thrust,
        "reference_area": terms.reference_area,
        "pressure_drag_power_off": pressure(0.0),
        "pressure_drag_power_on": pressure(1.0),
        "surfaces": [
            {
                "length": body.length,
                "roughness": roughness,
                "wetted_over_reference_area": body.wetted_area / terms.reference_area,
                "form_factor_less_one": 60.0 / fineness.powi(3) + fineness / 400.0,
            },
            {
                "length": fin.mean_chord,
                "roughness": roughness,
                "wetted_over_reference_area":
                    fin.area * (2 * FINS) as f64 / terms.reference_area,
                "form_factor_less_one": 2.0 * FIN_THICKNESS / fin.mean_chord,
            },
        ],
    })
}
