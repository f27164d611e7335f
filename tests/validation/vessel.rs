//! Tank: liner metal, seams, thick wall, burst of bare metal, rows of metals.

use crate::Outside;
use hoopline::material::{METALS, find};
use hoopline::quantity::{Quantity, Slots, read};
use hoopline::vessel::fitting::{FittingHold, Flown};
use hoopline::vessel::thick_wall::thick_cylinder_stress;
use hoopline::vessel::{
    ClosureKind, DiameterPair, Dimensions, MAX_FITTINGS, MAX_PLIES, PlyKind, SeamBasis,
    ServiceForm, Tank, TankForm, VesselLoads, margins, membrane_response, metal_burst,
    seam_strength,
};

/// A form with hemispheres and without seams.
pub fn form(plies: usize) -> TankForm {
    TankForm {
        diameters: DiameterPair::InnerAndWall,
        fore_closure: ClosureKind::Hemisphere,
        aft_closure: ClosureKind::Hemisphere,
        girth_seam: SeamBasis::None,
        longitudinal_seam: SeamBasis::None,
        plies,
        ply_kinds: [PlyKind::Helical; MAX_PLIES],
        winding: false,
        girth_allowance: false,
        service: ServiceForm::default(),
        fittings: 0,
        fitting_kinds: [FittingHold::WoundIn; MAX_FITTINGS],
    }
}

/// A tank of one metal, everything else zero.
pub fn tank(elastic_modulus: f64, poisson_ratio: f64, strength: f64) -> Tank<f64> {
    let mut tank: Tank<f64> = Slots::uniform(0.0);
    tank.liner.metal.elastic_modulus = elastic_modulus;
    tank.liner.metal.poisson_ratio = poisson_ratio;
    tank.liner.metal.yield_strength = strength;
    tank.liner.metal.ultimate_strength = strength;
    tank.fore_closure.thickness = 0.01;
    tank.aft_closure.thickness = 0.01;
    tank
}

/// A tank of inside diameter and wall, a metre long.
pub fn size(inner_diameter: f64, wall: f64) -> Dimensions<f64> {
    Dimensions {
        outer_diameter: inner_diameter + 2.0 * wall,
        liner_outer_diameter: inner_diameter + 2.0 * wall,
        inner_diameter,
        wall,
        minimum_wall: wall,
        wrap: 0.0,
        cylinder_length: 1.0,
        length: 1.2,
        volume: 0.02,
    }
}

/// Pressures on the test stand, without flight.
pub fn loads(proof: f64, burst: f64) -> VesselLoads<f64> {
    VesselLoads {
        proof,
        burst,
        meop: proof,
        head: 0.0,
        compression: 0.0,
        yield_factor: 1.0,
        burst_factor: 1.0,
        flown: Flown::at_rest(),
    }
}

const CAN: Outside = Outside {
    room: "vessel",
    source: "S. P. Carroll, ENG1001 course, \"Week 12: Pressure Vessels\", September 2021, after J. M. Gere, \
             \"Mechanics of Materials\", chapter 8, question 7",
};

/// A drinks can of r/t = 200, E 70 GPa, nu 0.33 whose axial strain changes by 170e-6 on opening had been
/// under 0.35 MPa.
#[test]
fn closed_cylinder_strain() {
    let (radius, wall, pressure) = (0.2, 0.001, 0.35e6);
    let can = tank(70e9, 0.33, 1.0);
    let (axial, hoop) = (pressure * radius / 2.0, pressure * radius);
    let response = membrane_response(&form(0), &can, wall, axial, hoop);
    CAN.printed(
        "axial strain of a drinks can, 1e-6",
        response.axial_strain * 1e6,
        170.0,
        1.0,
    );
}

const TWO_PRESSURES: Outside = Outside {
    room: "vessel",
    source: "solved problem \"Determine the radial and circumferential stresses\", expertsmind.com, question \
             30129029",
};

/// Thick cylinder, inside 80 and outside 120 mm, 120 N/mm2 within and 40 without.
#[test]
fn thick_cylinder_under_two_pressures() {
    let at = |radius: f64| thick_cylinder_stress(40.0, 60.0, radius, 120.0, 40.0);
    for (case, computed, printed, unit) in [
        ("hoop stress at the bore", at(40.0).hoop, 168.0, 1.0),
        ("hoop stress outside", at(60.0).hoop, 88.0, 1.0),
        ("hoop stress half way", at(50.0).hoop, 116.16, 0.01),
        (
            "radial stress half way, compression",
            -at(50.0).radial,
            68.16,
            0.01,
        ),
    ] {
        TWO_PRESSURES.printed(
            &format!("thick cylinder, {case}, N/mm2"),
            computed,
            printed,
            unit,
        );
    }
}

const EXTERNAL: Outside = Outside {
    room: "vessel",
    source: "solved problem \"Find out the intensity of the external pressure\", expertsmind.com, question \
             30129035",
};

/// Inside 0.4 and outside 0.5 m: under 25 MN/m2 within and 12.4 without the bore's hoop stress is 45.
#[test]
fn thick_cylinder_held_from_outside() {
    let bore = thick_cylinder_stress(0.2, 0.25, 0.2, 25.0, 12.4);
    EXTERNAL.relative(
        "thick cylinder squeezed from outside, hoop at the bore, MN/m2",
        bore.hoop,
        45.0,
        1e-12,
    );
}

const LONGITUDINAL: Outside = Outside {
    room: "vessel",
    source: "thread 117014 \"Thick wall cylinders\", mathhelpforum.com, longitudinal stress (printed there with \
             a slip in its unit)",
};

/// Inside 60 and outside 100 mm, 20 MPa within and 5 without: 5500 / 0.0016 Pa, printed as 3.44.
#[test]
fn thick_cylinder_along_its_axis() {
    let axial = thick_cylinder_stress(0.03, 0.05, 0.04, 20.0, 5.0).axial;
    LONGITUDINAL.printed("thick cylinder, axial stress, MPa", axial, 3.44, 0.01);
}

const YIELD: Outside = Outside {
    room: "vessel",
    source: "yield of a closed thick cylinder at its bore by von Mises, p = Sy (k^2 - 1) / (sqrt(3) k^2), k \
             outside over inside radius: from memory, in texts on thick cylinders",
};

/// The liner's margin of a bare thick tank is exact: it vanishes at that pressure.
#[test]
fn thick_liner_yields_at_its_bore() {
    for ratio in [1.02f64, 1.1, 1.4] {
        let pressure = 240e6 * (ratio * ratio - 1.0) / (3f64.sqrt() * ratio * ratio);
        let liner = size(0.15, 0.075 * (ratio - 1.0));
        let margins = margins(
            &form(0),
            &tank(70e9, 0.33, 240e6),
            &liner,
            &loads(pressure, 1e6),
        );
        let case = format!("yield over load of a bare liner, radius ratio {ratio}");
        YIELD.within(&case, margins.liner_yield_proof + 1.0, 1.0, 1e-12);
    }
}

const SEAM: Outside = Outside {
    room: "vessel",
    source: "largest hoop stress of a thick cylinder at its bore, p (ro^2 + ri^2) / (ro^2 - ri^2), curioustab.com, \
             strength of materials, question 47492",
};

/// A longitudinal seam of efficiency 0.60 yields first at its bore.
#[test]
fn longitudinal_seam_yields_at_its_bore() {
    let mut form = form(0);
    form.longitudinal_seam = SeamBasis::JointEfficiency;
    let mut tube = tank(70e9, 0.33, 240e6);
    tube.liner.longitudinal_seam.joint_efficiency = 0.60;
    let pressure = 0.6 * 240e6 * (90.0 * 90.0 - 75.0 * 75.0) / (90.0 * 90.0 + 75.0 * 75.0);
    let margins = margins(&form, &tube, &size(0.15, 0.015), &loads(pressure, 1e6));
    let over_load = margins.longitudinal_seam_proof + 1.0;
    SEAM.within(
        "yield over load of a longitudinal seam, radius ratio 1.2",
        over_load,
        1.0,
        1e-12,
    );
}

const BURST: Outside = Outside {
    room: "vessel",
    source: "computed twice independently, by two Python scripts, from the forms cited in \
             src/vessel/metal_burst.rs",
};

/// 6061-T6, inside radius 74 mm, wall 2 mm, yield 276, ultimate 310 MPa, hardening exponent 0.05: the
/// five estimates, the lowest of which is the margin's.
#[test]
fn bare_metal_burst() {
    let (wall, mean, inner, outer) = (2.0, 150.0, 74.0, 76.0);
    let estimates = [
        (
            "mean diameter",
            metal_burst::mean_diameter(wall, mean, 310.0),
            8.267,
        ),
        (
            "Zhu and Leis",
            metal_burst::zhu_leis(wall, mean, 310.0, 0.05),
            8.635,
        ),
        (
            "Svensson",
            metal_burst::svensson(inner, outer, 310.0, 0.05),
            9.111,
        ),
        (
            "Faupel",
            metal_burst::faupel(inner, outer, 276.0, 310.0),
            9.431,
        ),
        (
            "von Mises",
            metal_burst::von_mises_limit(wall, mean, 310.0),
            9.546,
        ),
    ];
    for (name, computed, printed) in estimates {
        BURST.printed(
            &format!("burst of a bare tube by {name}, MPa"),
            computed,
            printed,
            0.001,
        );
    }
    let margins = margins(
        &form(0),
        &tank(70e9, 0.33, 310e6),
        &size(0.148, 0.002),
        &loads(1e6, 1e6),
    );
    BURST.printed(
        "burst of a bare tube by its margin, MPa",
        margins.hoop_burst + 1.0,
        8.267,
        0.001,
    );
}

const EUROCODE: Outside = Outside {
    room: "vessel",
    source: "EN 1999-1-1, table 3.2b, extruded 6061-T6 up to 20 mm: fo 240, fu 260, heat-affected zone fo \
             115, fu 175 MPa, printed factors 0.48 and 0.67",
};
const HANDBOOK: Outside = Outside {
    room: "vessel",
    source: "MIL-HDBK-5J, table 3.6.2.0(c1), 6061-T6 drawn tube: Fty 35 ksi = 241.3 MPa, Ftu 42 ksi = 289.6 \
             MPa (converted)",
};

#[test]
fn material_rows() {
    let value = |metal: &str, field: &str| {
        let row = find(&METALS, "", "metal", metal).expect("on record");
        let value = row.value(field).expect("field");
        read(&value.text, Quantity::Stress).expect("stress") / 1e6
    };
    let welded = "6061-T6 extrusion, as welded";
    for (parent, zone, factor) in [
        ("yield_strength", "weld_zone_yield_strength", 0.48),
        ("ultimate_strength", "weld_zone_ultimate_strength", 0.67),
    ] {
        let share = value(welded, zone) / value(welded, parent);
        EUROCODE.printed(
            &format!("{welded}: {zone} over parent"),
            share,
            factor,
            0.01,
        );
    }
    let drawn = "6061-T6 drawn tube";
    for (field, printed) in [("yield_strength", 241.3), ("ultimate_strength", 289.6)] {
        HANDBOOK.printed(
            &format!("{drawn}: {field}, MPa"),
            value(drawn, field),
            printed,
            0.1,
        );
    }
}

const JOINT: Outside = Outside {
    room: "vessel",
    source: "ASME Boiler and Pressure Vessel Code, section VIII division 1, 2019, table UW-12, type 3: \
             single-welded butt joint without backing strip, no radiography, 0.60; EN 1999-1-1, table 3.2b, \
             6061-T6: fu 260, weld zone 175 MPa",
};

/// The basis says whether the joint efficiency acts on the parent metal or on the weld zone.
#[test]
fn seam_strength_by_basis() {
    for (basis, expected) in [
        (SeamBasis::None, 260.0),
        (SeamBasis::WeldZone, 175.0),
        (SeamBasis::JointEfficiency, 156.0),
        (SeamBasis::Both, 105.0),
    ] {
        let strength = seam_strength(basis, 260.0, 175.0, 0.60);
        JOINT.relative(
            &format!("seam strength, {basis:?}, MPa"),
            strength,
            expected,
            1e-12,
        );
    }
}

/// A girth seam of that joint in a bare tube: at burst its line load is held by 105 MPa on the wall.
/// p pi Ri^2 = 105 MPa 2 pi Rm t (equilibrium).
#[test]
fn welded_girth_seam_bursts_by_equilibrium() {
    let mut form = form(0);
    form.girth_seam = SeamBasis::Both;
    let mut tube = tank(70e9, 0.33, 260e6);
    tube.liner.metal.weld_zone_yield_strength = 115e6;
    tube.liner.metal.weld_zone_ultimate_strength = 175e6;
    tube.liner.girth_seam.joint_efficiency = 0.60;
    let expected = 105.0 * 2.0 * 76.5 * 3.0 / (75.0 * 75.0);
    let margins = margins(&form, &tube, &size(0.15, 0.003), &loads(1e6, 1e6));
    JOINT.relative(
        "burst of a welded girth seam, MPa",
        margins.girth_seam_burst + 1.0,
        expected,
        1e-12,
    );
}
