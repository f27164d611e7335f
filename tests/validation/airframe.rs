//! Friction, roughness, pressure drag and stability.

use crate::assert_printed;
use hoopline::airframe::{
    Fins, NoseShape, base_drag, compressibility, cut_off_reynolds, fin_normal_force, fin_wave_drag,
    nose_centre_of_pressure, nose_wave_drag, nose_wetted_area, planform, turbulent_plate,
};
use hoopline::quantity::Slots;

/// Old Dominion University, open course book "Aircraft Design", chapter "Drag build-up", printed
/// output: air of 0.962870 kg/m3 and 1.73188e-5 Pa s at 102.89 m/s over lengths of 4.3, 2.4 and
/// 3.7 ft gives turbulent friction 0.003147, 0.003467, 0.003225. An exam problem (plate 5 m long,
/// 0.5 m wide, water at 3 m/s, 0.01 stokes, both sides) prints 63.38 N.
#[test]
fn turbulent_friction() {
    for (feet, printed) in [(4.3, 0.003147), (2.4, 0.003467), (3.7, 0.003225)] {
        let reynolds: f64 = 0.962870 * 102.89 * feet * 0.3048 / 1.73188e-5;
        assert_printed("plate", turbulent_plate(reynolds.log10()), printed, 1e-6);
    }
    let drag = turbulent_plate(1.5e7_f64.log10()) * 0.5 * 1000.0 * 9.0 * 5.0;
    assert_printed("both sides, N", drag, 63.38, 0.02);
}

/// Prandtl and Schlichting's formula with the Mach correction of Raymer's equation 12.27 at Reynolds
/// number 1e7 and Mach 0.5: 0.00294 (hand value to three figures in a public code citing it).
#[test]
fn compressible_friction() {
    let friction = turbulent_plate(7.0) * compressibility(0.5);
    assert_printed("Mach 0.5", friction, 0.00294, 1e-5);
}

/// D. P. Raymer, "Aircraft Design: A Conceptual Approach", equation 12.28: a length of 1 m with
/// roughness 4.05e-5 m has cut-off Reynolds number 1.6126e6 (printed by a public test file that cites
/// the equation).
#[test]
fn cut_off_by_roughness() {
    let cut_off = 10f64.powf(cut_off_reynolds(1.0, 4.05e-5, 0.3));
    assert_printed("cut-off", cut_off / 1e6, 1.6126, 1e-4);
}

/// Schlichting's fully rough plate, (1.89 + 1.62 log10(l/k))^-2.5, is another way to the same
/// friction; over 4 m with 20 to 200 um it prints 0.00281, 0.00341, 0.00428 (computed twice
/// independently). Friction at the cut-off Reynolds number agrees within 1.5 %.
#[test]
fn rough_plate_two_ways() {
    for (micrometres, schlichting) in [(20.0, 0.00281), (60.0, 0.00341), (200.0, 0.00428)] {
        let rough = turbulent_plate(cut_off_reynolds(4.0, micrometres * 1e-6, 0.5));
        approx::assert_relative_eq!(rough, schlichting, max_relative = 0.015);
    }
}

/// E. L. Fleeman, "Missile Design and System Engineering", AIAA 2012, chapter 2.4, worked example as
/// quoted from his course slides: nose fineness 2.4, Mach 2: wave drag 0.14, base drag 0.13 in the
/// coast, 0.10 powered. To two figures.
#[test]
fn missile_example() {
    assert_printed(
        "wave",
        nose_wave_drag(NoseShape::Cone, 2.4, 2.0),
        0.14,
        0.01,
    );
    assert_printed("base", base_drag(2.0), 0.13, 0.0101);
}

/// Exact conical flow (Taylor and Maccoll; integrated twice independently): drag coefficient of a cone
/// of fineness 3 and 5 at Mach 1.5 and 2. The fit is documented to agree within 2.5 %.
#[test]
fn cone_against_exact_flow() {
    for (fineness, mach, exact) in [
        (3.0, 1.5, 0.1132),
        (3.0, 2.0, 0.0955),
        (5.0, 1.5, 0.0494),
        (5.0, 2.0, 0.0422),
    ] {
        let fit = nose_wave_drag(NoseShape::Cone, fineness, mach);
        approx::assert_relative_eq!(fit, exact, max_relative = 0.025);
    }
}

/// C. Airiau et al., exercise book on fundamental aerodynamics, exercise 9.2 "Linearized theory:
/// diamond airfoil": CD = 4 theta^2 / sqrt(M^2 - 1) at no incidence; Mach 1.4, tan(theta) = 0.05 gives
/// 0.0101892 (computed twice independently). Thickness ratio stands for theta, here exactly.
#[test]
fn double_wedge() {
    let theta = 0.05f64.atan();
    assert_printed("wedge", fin_wave_drag(theta, 1.4), 0.0101892, 1e-7);
}

/// J. S. and J. A. Barrowman, "The Theoretical Prediction of the Center of Pressure", NARAM-8, 1966,
/// equation 32: a cone's centre of pressure lies at two thirds; von Karman's profile holds half of its
/// cylinder's volume, so equation 29 puts it at one half.
#[test]
fn nose_centres() {
    assert_printed(
        "cone",
        nose_centre_of_pressure(NoseShape::Cone, 3.0),
        2.0,
        0.1,
    );
    assert_printed(
        "von Karman",
        nose_centre_of_pressure(NoseShape::VonKarman, 3.0),
        1.5,
        0.1,
    );
}

/// The same paper, equations 58 (four fins), 77 (interference): inputs of a university homework (UCI
/// MAE 157A): four fins, root 60, tip 25, span 40, sweep 45 mm on a body of 50 mm: 5.6307 per radian,
/// computed twice independently.
#[test]
fn four_fins() {
    let mut fins: Fins<f64> = Slots::read(&[0.0; 16], &mut 0);
    fins.taper_ratio = 25.0 / 60.0;
    fins.span_ratio = 40.0 / 60.0;
    fins.sweep_ratio = 45.0 / 60.0;
    let fin = planform(&fins, 0.060);
    assert_printed("slope", fin_normal_force(4, &fin, 0.050), 5.6307, 1e-4);
}

/// Lateral area of a cone, pi r sqrt(r^2 + h^2) (geometry). A von Karman nose of the same size has
/// more, and less than the cylinder around it.
#[test]
fn nose_areas() {
    let cone = nose_wetted_area(NoseShape::Cone, 6.0, 4.0);
    approx::assert_relative_eq!(cone, std::f64::consts::PI * 15.0, max_relative = 1e-12);
    let karman = nose_wetted_area(NoseShape::VonKarman, 0.2, 1.0);
    assert!(nose_wetted_area(NoseShape::Cone, 0.2, 1.0) < karman);
    assert!(karman < std::f64::consts::PI * 0.2);
}
