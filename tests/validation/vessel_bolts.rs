//! A row of radial bolts, and the gap at the seal beside it.

use crate::Outside;
use crate::vessel::{form, loads, size, tank};
use hoopline::quantity::Slots;
use hoopline::vessel::{
    Bolts, ClosureKind, RowStress, Tank, TankForm, bolt_force, margins, row_stress, wall_growth,
};
use std::f64::consts::PI;

const EXAMPLE: Outside = Outside {
    room: "vessel",
    source: "computed twice independently from force over area: bore 150 mm, wall 3 mm, 24 M6 of 20.12 mm2, 15 mm to the \
             end, 9 MPa",
};

/// Bolts in millimetres and newtons.
fn bolts(diameter: f64, hole_diameter: f64, edge_distance: f64, count: f64) -> Bolts<f64> {
    Bolts {
        count,
        diameter,
        hole_diameter,
        shear_area: 20.12,
        edge_distance,
        ..Bolts::uniform(1.0)
    }
}

#[test]
fn twenty_four_bolts_in_a_bore_of_150_mm() {
    let force = bolt_force(9.0, 150.0, 24.0);
    EXAMPLE.printed("end load, kN", 24.0 * force / 1e3, 159.0, 0.1);
    EXAMPLE.printed("load of a bolt, N", force, 6627.0, 1.0);
    let row = row_stress(force, &bolts(6.0, 6.0, 15.0, 24.0), [3.0, 76.5]);
    EXAMPLE.printed("shear in a bolt, MPa", row.bolt_shear, 329.4, 0.1);
    EXAMPLE.printed("bearing on the wall, MPa", row.bearing, 368.2, 0.1);
    EXAMPLE.printed("shear-out of the wall, MPa", row.shear_out, 92.0, 0.1);
    EXAMPLE.printed("net section of the wall, MPa", row.net_section, 157.5, 0.1);
}

const EXAMINATION: Outside = Outside {
    room: "vessel",
    source: "GATE 2013, mechanical engineering, single riveted lap joint: 200 mm wide, 5 mm thick, 3 rivets of 10 mm in \
             holes of 11 mm, 200 MPa in tension, 150 MPa in bearing (statement seen; answers from memory, and computed)",
};

/// The net section counts the hole, bearing the rivet.
#[test]
fn holes_wider_than_their_rivets() {
    // Three pitches of a flat plate make up its width: a circle of that circumference.
    let radius = 200.0 / (2.0 * PI);
    let RowStress {
        net_section,
        bearing,
        ..
    } = row_stress(1.0, &bolts(10.0, 11.0, 20.0, 3.0), [5.0, radius]);
    let load = |strength: f64, stress: f64| 3.0 * strength / stress / 1e3;
    EXAMINATION.printed(
        "load that tears the plate, kN",
        load(200.0, net_section),
        167.0,
        1.0,
    );
    EXAMINATION.printed(
        "load that crushes the plate, kN",
        load(150.0, bearing),
        22.5,
        0.1,
    );
}

const RIVET: Outside = Outside {
    room: "vessel",
    source: "A. Pytel and F. L. Singer, \"Strength of Materials\", 4th edition, problem 125: a 20 mm rivet joins plates 110 mm \
             wide, 60 MPa in shear, 120 MPa in bearing (thickness as transcribed in a set of slides, tension computed from its equation)",
};

#[test]
fn one_rivet_between_two_plates() {
    let force = 60.0 * PI / 4.0 * 20.0 * 20.0;
    let row = bolts(20.0, 20.0, 40.0, 1.0);
    let unit = row_stress(force, &row, [1.0, 110.0 / (2.0 * PI)]);
    RIVET.printed(
        "thickness for bearing, mm",
        unit.bearing / 120.0,
        7.85,
        0.01,
    );
    let stress = row_stress(force, &row, [7.85, 110.0 / (2.0 * PI)]);
    RIVET.printed(
        "tension beside the rivet, MPa",
        stress.net_section,
        26.7,
        0.1,
    );
}

const LAME: Outside = Outside {
    room: "vessel",
    source: "G. Lame's displacement of the bore of a closed thick cylinder, p a (a2 (1 - 2 nu) + b2 (1 + nu)) / (E (b2 - a2)) \
             (any text of elasticity; from memory, and derived again)",
};
const SEAL: Outside = Outside {
    room: "vessel",
    source: "geometry: 0.3 % of hoop strain on a radius of 78 mm",
};

fn bulkhead(plies: usize) -> (TankForm, Tank<f64>) {
    let form = TankForm {
        fore_closure: ClosureKind::FlatBolted,
        ..form(plies)
    };
    let mut tank = tank(68.9e9, 0.33, 240e6);
    tank.fore_closure.bolts = Bolts {
        count: 24.0,
        seal_gap: 1e-4,
        largest_seal_gap: 2.5e-4,
        ..Bolts::uniform(0.01)
    };
    (form, tank)
}

#[test]
fn a_wall_grows_away_from_its_seal() {
    let (form, tank) = bulkhead(0);
    let thin = size(0.150, 0.003);
    let (axial, _) = thin.loads_per_pressure();
    let growth = |pressure: f64| wall_growth(&form, &tank, &thin, axial * pressure, pressure);
    let (a, b): (f64, f64) = (0.075, 0.078);
    let (young, nu) = (68.9e9, 0.33);
    let bore =
        9e6 * a / (young * (b * b - a * a)) * (a * a * (1.0 - 2.0 * nu) + b * b * (1.0 + nu));
    LAME.relative("growth of a bare bore, m", growth(9e6), bore, 0.005);
    // The pressure that strains a middle radius of 78 mm by 0.3 %.
    let wide = size(0.156 - 0.002, 0.002);
    let (axial, hoop) = wide.loads_per_pressure();
    let pressure = 0.003 * young * 0.002 / (hoop - nu * axial);
    let opened = wall_growth(&form, &tank, &wide, axial * pressure, pressure);
    SEAL.printed("opening at a plug, mm", opened * 1e3, 0.23, 0.01);
    let told = margins(&form, &tank, &thin, &loads(9e6, 9e6));
    let gap = 1e-4 + growth(9e6);
    assert!((told.fore_seal_gap_proof - (2.5e-4 / gap - 1.0)).abs() < 1e-12);
}
