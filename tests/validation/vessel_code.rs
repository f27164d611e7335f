//! Tank: the boiler code's thicknesses, the transport cylinder's wall stress.

use crate::Outside;
use hoopline::quantity::Slots;
use hoopline::vessel::code_formulas::{
    cylinder_thickness_by_axial_stress, cylinder_thickness_by_hoop_stress, ellipsoid_factor,
    ellipsoid_thickness, flat_head_thickness, sphere_thickness, torisphere_factor,
    torisphere_thickness, transport_cylinder_stress,
};
use hoopline::vessel::rule_set::RuleSet;
use hoopline::vessel::thick_wall::thick_cylinder_stress;
use hoopline::vessel::{Closure, ClosureKind, axial_line_load, closure_stress};

const SHELL: Outside = Outside {
    room: "vessel",
    source: "inputs of ASME PTB-4, examples E4.3.1 and E4.3.5, from memory (356 psi, 90 in, 20,000 psi, \
             corrosion allowance 0.125 in); arithmetic computed twice independently",
};
const SHEET: Outside = Outside {
    room: "vessel",
    source: "\"Hemispherical Head Design Tool\", calculation sheet of UG-32(f), scribd.com, document 62916131: \
             3584.6 psi, L 96.418 in, 19,585 psi, corrosion allowance 0.157 in, required 9.145 in",
};
const EXAM: Outside = Outside {
    room: "vessel",
    source: "API 510 preparatory examination, open book, Dammam, September 2004, questions 1 and 2 (scribd.com, \
             document 542968623): torisphere 235 psi, 72 in, 20,000 psi, 0.7496 in; 2:1 ellipsoid 332 psi, \
             60 in, 20,000 psi, 0.4988 in",
};

#[test]
fn thickness_of_shells() {
    let (pressure, stress) = (356.0, 20_000.0);
    // The corrosion allowance is taken off both sides of what is needed: off the radius, and on top.
    let hoop = cylinder_thickness_by_hoop_stress(pressure, 45.125, stress, 1.0);
    SHELL.printed("cylinder by hoop stress, in", hoop, 0.8119, 1e-4);
    let head = ellipsoid_thickness(
        pressure,
        90.25,
        ellipsoid_factor(90.25, 22.5625),
        stress,
        1.0,
    );
    SHELL.printed("2:1 ellipsoid, in", head, 0.8047, 1e-4);
    let sphere = sphere_thickness(3584.6, 96.418, 19_585.0, 1.0) + 0.157;
    SHEET.printed("hemisphere, in", sphere, 9.145, 0.001);
    let dish = torisphere_thickness(235.0, 72.0, 1.77, 20_000.0, 1.0);
    EXAM.printed("torisphere with M = 1.77, in", dish, 0.7496, 1e-4);
    let head = ellipsoid_thickness(332.0, 60.0, 1.0, 20_000.0, 1.0);
    EXAM.printed("2:1 ellipsoid, in", head, 0.4988, 1e-4);
}

const FIXED_TUBE: Outside = Outside {
    room: "vessel",
    source: "Paget Equipment Co., \"Example Vessels - Fixed Tube\", 27 February 2006, pages 1 and 56 (boiler \
             code 2004 with addenda 2005), as listed in a public note: corroded inside diameter 42.125 in, \
             efficiency 1, corrosion allowance 0.0625 in",
};

/// Shell of 200 psi and 18,800 psi allowed, channel of 150 and 20,000.
#[test]
fn thickness_of_a_heat_exchanger() {
    for (part, pressure, stress, axial, hoop) in [
        ("shell", 200.0, 18_800.0, 0.1743, 0.2880),
        ("channel", 150.0, 20_000.0, 0.1414, 0.2212),
    ] {
        let radius = 42.125 / 2.0;
        let along = cylinder_thickness_by_axial_stress(pressure, radius, stress, 1.0) + 0.0625;
        FIXED_TUBE.printed(&format!("{part} by axial stress, in"), along, axial, 1e-4);
        let around = cylinder_thickness_by_hoop_stress(pressure, radius, stress, 1.0) + 0.0625;
        FIXED_TUBE.printed(&format!("{part} by hoop stress, in"), around, hoop, 1e-4);
    }
}

const DISHED: Outside = Outside {
    room: "vessel",
    source: "Pressure Vessel Engineering Ltd., \"External Pressure Calculations\", PVEcalc-3473-1.0, 2010, page \
             6 (boiler code 2007 with addenda 2009), as listed in a public note: crown 48.000, knuckle 2.88 \
             in, M 1.771, 18,350 psi allowed, efficiency 0.85, 30 psi, least thickness 0.082 in",
};

#[test]
fn thickness_of_a_dished_head_of_less_than_full_efficiency() {
    let factor = torisphere_factor(48.0, 2.88);
    DISHED.printed("factor M", factor, 1.771, 1e-3);
    let thickness = torisphere_thickness(30.0, 48.0, factor, 18_350.0, 0.85);
    DISHED.printed("torisphere, in", thickness, 0.082, 1e-3);
}

const FORMULAS: Outside = Outside {
    room: "vessel",
    source: "\"Mechanical Engineering hand book\", page 225, table 1 \"General Vessel Formulas\" (fliphtml5.com, \
             zroi/gnce; boiler code of 1983): 100 %-6 % torisphere t = 0.885 P L / (S E - 0.1 P); 2:1 \
             ellipsoid P D / (2 S E - 0.2 P)",
};

#[test]
fn factors_of_heads() {
    let factor = torisphere_factor(1.0, 0.06);
    FORMULAS.printed("half of M, L / r 16.7", factor / 2.0, 0.885, 0.001);
    FORMULAS.relative(
        "K of a 2:1 ellipsoid",
        ellipsoid_factor(1.0, 0.25),
        1.0,
        1e-15,
    );
    // The closure's stress at the code's thickness is the stress the code allows.
    let mut head: Closure<f64> = Closure::uniform(0.0);
    (head.crown_radius_ratio, head.knuckle_radius_ratio) = (1.0, 0.06);
    head.thickness = 0.885 * 6.0 * 150.0 / (138.0 - 0.6);
    let stress = closure_stress(ClosureKind::Torisphere, &head, 6.0, 150.0, 0.33);
    FORMULAS.relative(
        "stress of a torisphere at the code's thickness, MPa",
        stress,
        138.0,
        5e-4,
    );
}

const EQUILIBRIUM: Outside = Outside {
    room: "vessel",
    source: "equilibrium of a closed cylinder, pi R^2 P over the metal's section, against UG-27(c)(2)",
};

/// The code's 0.4 P stands for the half wall between inside and mean radius, which is 0.5 P.
#[test]
fn thickness_along_the_axis() {
    let wall = cylinder_thickness_by_axial_stress(6.0, 75.0, 138.0, 1.0);
    let stress = axial_line_load(6.0, 75.0, 75.0 + wall / 2.0) / wall;
    EQUILIBRIUM.relative(
        "axial stress at the code's thickness, MPa",
        stress,
        138.0,
        3e-3,
    );
}

const COVER: Outside = Outside {
    room: "vessel",
    source: "form of UG-34(c)(2) as used in public calculation sheets; 140 mm, 9 MPa, 69 MPa, C 0.3 computed \
             twice independently",
};

#[test]
fn thickness_of_a_flat_head() {
    let millimetres = flat_head_thickness(9.0, 140.0, 0.3, 69.0, 1.0);
    COVER.printed("flat head, mm", millimetres, 27.69, 0.01);
}

const TRANSPORT: Outside = Outside {
    room: "vessel",
    source: "49 CFR 178.46, S = P (1.3 D^2 + 0.4 d^2) / (D^2 - d^2); D 6.0, d 5.6 in, 3000 psi computed twice \
             independently",
};

/// The formula is the hoop strain at the bore times the modulus, by Lame with Poisson's ratio 0.3.
#[test]
fn transport_cylinder() {
    let stress = transport_cylinder_stress(3000.0, 6.0, 5.6);
    TRANSPORT.printed("wall stress at test pressure, psi", stress, 38_369.0, 1.0);
    let bore = thick_cylinder_stress(2.8, 3.0, 2.8, 3000.0, 0.0);
    let strain = bore.hoop - 0.3 * (bore.axial + bore.radial);
    TRANSPORT.relative(
        "hoop strain times modulus by Lame, psi",
        strain,
        stress,
        1e-12,
    );
}

/// Test pressure over service pressure, and minimum safety factor, as a comparison of three cylinder
/// standards prints them: CFFC 8333 psi at 5000 psi and 3.4, ISO 11119-2 9428 psi at 6285 psi and 3.0.
#[test]
fn factors_of_cylinder_standards() {
    let comparison = Outside {
        room: "vessel",
        source: "comparison of CFFC, ISO 11119-2 and FRP-1, section CFFC-2 (scribd.com, document 485205996)",
    };
    for (name, test, service, burst) in [
        ("DOT-CFFC, fifth revision", 8333.0, 5000.0, 3.4),
        ("ISO 11119-2:2020", 9428.0, 6285.0, 3.0),
    ] {
        let known = hoopline::vessel::rule_set::PUBLISHED.iter();
        let rules = known
            .into_iter()
            .find(|rules| rules.name == name)
            .expect("on record");
        let case = |what: &str| format!("{what} factor of {name}");
        let proof = rules.proof_factor.expect("a proof factor");
        comparison.within(&case("proof"), proof, test / service, 2e-4);
        comparison.printed(&case("burst"), rules.burst, burst, 0.1);
    }
}

/// Burst over test pressure: what the carriage of gases asks for, and what the standard of fully wrapped cylinders
/// comes to.
#[test]
fn burst_ratio_on_test_pressure() {
    let carriage = Outside {
        room: "vessel",
        source: "ADR 2017, 6.2.5.5: minimum burst ratio (burst pressure divided by test pressure)",
    };
    let known = |name: &str| {
        let mut rules = hoopline::vessel::rule_set::PUBLISHED.iter();
        rules.find(|rules| rules.name == name).expect("on record")
    };
    for (name, ratio) in [
        ("ADR 2017, hoop wrapped", 1.67),
        ("ADR 2017, fully wrapped", 2.0),
    ] {
        let rules = known(name);
        assert_eq!(
            rules.proof_factor, None,
            "the packing instruction sets the test pressure"
        );
        let factors = RuleSet {
            proof_factor: 1.5,
            burst_factor: f64::NAN,
            burst_ratio: rules.burst,
        };
        let burst = factors.burst_over_meop(rules.basis) / factors.proof_factor;
        carriage.printed(
            &format!("burst over test pressure, {name}"),
            burst,
            ratio,
            0.01,
        );
    }
    let wrapped = known("ISO 11119-2:2020");
    carriage.printed(
        "burst over test pressure, fully wrapped, of ISO 11119-2",
        wrapped.burst / wrapped.proof_factor.expect("a proof factor"),
        2.0,
        0.01,
    );
}
