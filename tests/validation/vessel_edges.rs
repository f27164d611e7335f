//! Edge bending where cylinder and closure meet, against its limits in closed form.

use crate::Outside;
use crate::vessel::{form, size, tank};
use hoopline::vessel::{
    Closure, ClosureKind, Junction, Part, SeamBasis, Stress, Tank, TankForm, axial_line_load,
    edge_limits,
};
use std::f64::consts::{FRAC_PI_2, FRAC_PI_4};

/// Largest number of a place, and where: part and angle of the cylinder's wave.
fn largest(
    form: &TankForm,
    tank: &Tank<f64>,
    bore: f64,
    wall: f64,
    number: impl Fn(&Stress<f64>) -> f64,
) -> (f64, Part, f64) {
    let size = size(bore, wall);
    let junction = Junction::new(form, tank, &size, form.fore_closure, &tank.fore_closure);
    let mut found = (f64::MIN, Part::Cylinder, 0.0);
    let angles = (0..=400).map(|step| f64::from(step) / 200.0 * FRAC_PI_2);
    junction.visit(angles, &mut |place| {
        let here = number(&place.with([1.0, 1.0]));
        if place.part == Part::Cylinder && here > found.0 {
            found = (here, place.part, place.distance / junction.decay_length());
        }
    });
    found
}

fn closed(kind: ClosureKind, thickness: f64) -> (TankForm, Tank<f64>) {
    let form = TankForm {
        fore_closure: kind,
        ..form(0)
    };
    let mut tank = tank(70e9, 0.33, 240e6);
    tank.fore_closure = Closure {
        thickness,
        thickness_under_tolerance: 0.0,
        crown_radius_ratio: 1.0,
        knuckle_radius_ratio: 0.1,
        turning_radius_ratio: 0.3,
        ..tank.fore_closure
    };
    (form, tank)
}

fn axial(stress: &Stress<f64>) -> f64 {
    stress.inner[0].max(stress.outer[0])
}

const TIMOSHENKO: Outside = Outside {
    room: "vessel",
    source: "S. Timoshenko and S. Woinowsky-Krieger, \"Theory of Plates and Shells\", 2nd edition, 1959, \
             sections 115 and 116 (from memory; derived again, and held against finite elements in tests/python)",
};

/// A wall of a hundredth of the radius, which is 1: thin, and the cells along a dome are still fine.
const WALL: f64 = 0.01;

/// The edge on a bulkhead thick beyond measure can neither grow nor turn.
#[test]
fn a_thick_bulkhead_clamps_the_wall() {
    let (form, tank) = closed(ClosureKind::FlatClamped, 100.0);
    let (stress, _, angle) = largest(&form, &tank, 2.0, WALL, axial);
    // The pressure acts on the bore, half a thickness within the mean radius.
    TIMOSHENKO.within(
        "axial stress at a clamped end, of p R / t, nu 0.33",
        stress * WALL,
        2.03,
        WALL,
    );
    assert_eq!(angle, 0.0);
    let formula = edge_limits::clamped_end_stress(1.0, 1.0, WALL, 0.33);
    assert!((stress / formula - 1.0).abs() < WALL, "{stress} {formula}");
}

/// A bulkhead whose edge is free to turn bends nothing at the edge.
#[test]
fn a_hinged_edge_has_no_couple() {
    let (form, tank) = closed(ClosureKind::FlatSupported, 0.1);
    let size = size(2.0, WALL);
    let junction = Junction::new(&form, &tank, &size, form.fore_closure, &tank.fore_closure);
    junction.visit([0.0].into_iter(), &mut |place| {
        let Stress { inner, outer } = place.stress[0];
        if place.part == Part::Cylinder {
            assert!((inner[0] / outer[0] - 1.0).abs() < 1e-9);
            let membrane = axial(&place.stress[0]) * WALL;
            assert!((membrane - 0.5).abs() < WALL, "{membrane}");
        }
    });
}

#[test]
fn a_hemisphere_of_equal_thickness() {
    let (form, mut tank) = closed(ClosureKind::Hemisphere, WALL);
    tank.liner.metal.poisson_ratio = 0.3;
    let (stress, _, angle) = largest(&form, &tank, 2.0, WALL, axial);
    let membrane = axial_line_load(1.0, 1.0, 1.0 + 0.5 * WALL) / WALL;
    TIMOSHENKO.within(
        "largest axial stress beside a hemisphere, of p R / (2 t), nu 0.3",
        stress / membrane,
        1.293,
        0.5 * WALL,
    );
    assert!((angle - FRAC_PI_4).abs() < 0.05, "{angle}");
    let (hoop, _, angle) = largest(&form, &tank, 2.0, WALL, |stress| {
        stress.inner[1].max(stress.outer[1])
    });
    TIMOSHENKO.within(
        "largest hoop stress beside a hemisphere, of p R / t, nu 0.3",
        hoop * WALL,
        1.032,
        0.5 * WALL,
    );
    assert!((angle - 1.85).abs() < 0.1, "{angle}");
}

const STEP_OF_PRESSURE: Outside = Outside {
    room: "vessel",
    source: "code_aster, validation manual V3.03.144, section 2 (Love and Kirchhoff): half a cylinder under \
             pressure, hoop force and deflection at the step are half those far from it",
};

/// Where two like edges that would grow unlike meet, they meet half way: the solution printed for a step of
/// pressure, here of a hemisphere, which grows (1 - nu) / (2 - nu) times as much.
#[test]
fn like_edges_meet_half_way() {
    let nu = 0.3;
    let (form, mut tank) = closed(ClosureKind::Hemisphere, WALL);
    tank.liner.metal.poisson_ratio = nu;
    let size = size(2.0, WALL);
    let junction = Junction::new(&form, &tank, &size, form.fore_closure, &tank.fore_closure);
    let mut hoop = [0.0; 2];
    let mut number = 0;
    junction.visit([0.0, 12.0].into_iter(), &mut |place| {
        if place.part == Part::Cylinder {
            let Stress { inner, outer } = place.stress[0];
            let mean = 0.5 * (inner[1] + outer[1]);
            let axial = 0.5 * (inner[0] + outer[0]);
            hoop[number] = mean - nu * axial;
            number += 1;
        }
    });
    // Radial growth of the edge, of that far away: the mean of cylinder and hemisphere.
    let expected = 0.5 * (1.0 + (1.0 - nu) / (2.0 - nu));
    STEP_OF_PRESSURE.within(
        "growth where cylinder and hemisphere meet, of the cylinder's own",
        hoop[0] / hoop[1],
        expected,
        3e-3,
    );
}

const EQUILIBRIUM: Outside = Outside {
    room: "vessel",
    source: "equilibrium: a couple of line load times offset, or a force of line load times kink, shared by two \
             like beams on elastic foundations",
};

/// Misalignment of like walls adds 3 e / t, peaking adds 3 N f / (2 b t^2).
#[test]
fn an_imperfect_seam_bends_both_sides() {
    let (mut form, mut tank) = closed(ClosureKind::Hemisphere, WALL);
    form.girth_seam = SeamBasis::WeldZone;
    let at_edge = |tank: &Tank<f64>| {
        let size = size(2.0, WALL);
        let junction = Junction::new(&form, tank, &size, form.fore_closure, &tank.fore_closure);
        let mut stress = None;
        junction.visit([0.0].into_iter(), &mut |place| {
            stress.get_or_insert((place.stress, junction.decay_length()));
        });
        stress.expect("the edge comes first")
    };
    tank.liner.girth_seam.misalignment = 0.4 * WALL;
    let ([perfect, misaligned, _], _) = at_edge(&tank);
    let mean = 0.5 * (perfect.inner[0] + perfect.outer[0]);
    EQUILIBRIUM.within(
        "axial stress by an offset of 0.4 t, of the mean",
        1.0 + misaligned.inner[0].abs() / mean,
        edge_limits::offset_factor(0.4 * WALL, WALL),
        0.01,
    );
    tank.liner.girth_seam.peaking = 0.02;
    let ([_, _, peaked], decay) = at_edge(&tank);
    EQUILIBRIUM.relative(
        "axial stress by a kink of 0.02, of the mean",
        peaked.inner[0].abs() / mean,
        1.5 * 0.02 * decay / WALL,
        0.02,
    );
    // A root not fused to a quarter: the mean over what is left, and its arm of an eighth.
    tank.liner.girth_seam.lack_of_penetration = 0.25 * WALL;
    let ([thinned, ..], _) = at_edge(&tank);
    EQUILIBRIUM.within(
        "axial stress at the root of a seam fused to three quarters, of the mean",
        (thinned.inner[0] - (perfect.inner[0] - mean) / 0.5625) / mean,
        1.0 / 0.75 + 6.0 * 0.125 / 0.5625,
        1e-9,
    );
}
