//! Invented airframes for the comparison with the integrator.

use hoopline::airframe::{
    BayRule, Body, BodyForm, Drag, DragTerms, FinForm, FinRule, GivenDrag, NoseRule, NoseShape,
    Planform, SkinRule, build_drag,
};
use std::f64::consts::PI;

/// A slender body with four fins, of a diameter, length, sand-grain roughness and exit area.
pub fn drawn(diameter: f64, length: f64, roughness: f64, exit_area: f64) -> Drag<'static, f64> {
    let form = BodyForm {
        nose: NoseShape::VonKarman,
        nose_rule: NoseRule::Length,
        bay_rule: BayRule::Length,
        skin_rule: SkinRule::TankIsAirframe,
        fins: FinForm {
            count: 4,
            rule: FinRule::Size,
        },
    };
    let body = Body {
        diameter,
        frontal_diameter: diameter,
        nose_length: 4.0 * diameter,
        payload_bay_length: 0.0,
        recovery_bay_length: 0.0,
        tank_station: 0.0,
        motor_station: 0.0,
        length,
        wetted_area: PI * diameter * (length - 1.5 * diameter),
        nose_area: 0.0,
        nose_centroid: 0.0,
    };
    let fin = Planform {
        root_chord: 1.5 * diameter,
        tip_chord: 0.5 * diameter,
        span: diameter,
        sweep: diameter,
        area: diameter * diameter,
        mean_chord: diameter,
        mass: 0.0,
        centroid: 0.0,
    };
    let given = GivenDrag::on(diameter);
    build_drag(&DragTerms::new(
        &form, &body, &fin, 0.005, roughness, exit_area, &given,
    ))
}

/// Drag coefficient over Mach, invented, on a body of 0.17 m.
pub const STATED: [(f64, f64); 7] = [
    (0.0, 0.42),
    (0.6, 0.4),
    (0.9, 0.48),
    (1.05, 0.72),
    (1.3, 0.66),
    (2.0, 0.5),
    (5.0, 0.3),
];
