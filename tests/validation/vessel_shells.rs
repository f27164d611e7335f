//! Tank: thin shells, closures, plates.

use crate::Outside;
use hoopline::quantity::Slots;
use hoopline::vessel::{
    Closure, ClosureKind, axial_stress, closure_area, closure_depth, closure_stress,
    closure_volume, hoop_stress,
};
use std::f64::consts::PI;

/// A closure of thickness and torisphere ratios, without tolerance.
fn closure(thickness: f64, crown: f64, knuckle: f64) -> Closure<f64> {
    let mut closure: Closure<f64> = Closure::uniform(0.0);
    closure.thickness = thickness;
    closure.crown_radius_ratio = crown;
    closure.knuckle_radius_ratio = knuckle;
    closure
}

const COURSE: Outside = Outside {
    room: "vessel",
    source: "S. P. Carroll, ENG1001 course, \"Week 12: Pressure Vessels\", September 2021, after J. M. Gere, \
             \"Mechanics of Materials\", chapter 8, questions 1 and 3",
};
const HIBBELER: Outside = Outside {
    room: "vessel",
    source: "R. C. Hibbeler, \"Mechanics of Materials\", problems 8-1 and 8-3, as transcribed in an open set",
};
const MALLICK: Outside = Outside {
    room: "vessel",
    source: "P. K. Mallick, \"Fiber-Reinforced Composites\", problem 3.23 (inputs); stresses computed twice \
             independently",
};

/// (3) A standpipe of 2 m diameter and 5 mm wall at 32 MPa hoop stress stands 16.31 m of water; (1) a
/// sphere of 20 m diameter for 3.5 MPa, yield 550 MPa, factor of safety 3.2 needs 102 mm.
#[test]
fn thin_shells() {
    let pressure = 1000.0 * 9.81 * 16.31;
    COURSE.printed(
        "hoop stress of a standpipe, MPa",
        hoop_stress(pressure, 1.0, 0.005) / 1e6,
        32.0,
        0.02,
    );
    let millimetres = axial_stress(3.5e6, 10.0, 1.0) * 3.2 / 550e6 * 1e3;
    COURSE.printed("wall of a sphere, mm", millimetres, 102.0, 1.0);
    HIBBELER.printed(
        "wall of a sphere, mm",
        axial_stress(0.3, 1500.0, 12.0),
        18.8,
        0.1,
    );
    HIBBELER.printed(
        "hoop stress of a pipe, psi",
        hoop_stress(65.0, 4.0, 0.25),
        1040.0,
        1.0,
    );
    MALLICK.printed(
        "hoop stress, MPa",
        hoop_stress(10.0, 150.0, 8.9),
        168.54,
        0.01,
    );
    MALLICK.printed(
        "axial stress, MPa",
        axial_stress(10.0, 150.0, 8.9),
        84.27,
        0.01,
    );
}

const PLATES: Outside = Outside {
    room: "vessel",
    source: "\"Mechanical Engineer's Data Handbook\", section 1.10.1 \"Loaded flat plates\", page 53: 1.238 \
             p r^2 / t^2 simply supported (nu 0.3), 3/4 p r^2 / t^2 clamped",
};
const BULKHEAD: Outside = Outside {
    room: "vessel",
    source: "computed twice independently from the same plate formulas: 140 mm, 9 MPa, 138 MPa, nu 0.33",
};

#[test]
fn flat_bulkheads() {
    let stress =
        |kind, thickness| closure_stress(kind, &closure(thickness, 0.0, 0.0), 9.0, 140.0, 0.33);
    let unit = |kind| closure_stress(kind, &closure(1.0, 0.0, 0.0), 1.0, 2.0, 0.3);
    PLATES.printed(
        "flat bulkhead, supported edge",
        unit(ClosureKind::FlatSupported),
        1.238,
        0.001,
    );
    PLATES.relative(
        "flat bulkhead, clamped edge",
        unit(ClosureKind::FlatClamped),
        0.75,
        1e-12,
    );
    // The stress varies by 0.2 MPa over the last digit of the thickness.
    BULKHEAD.within(
        "clamped, 15.48 mm, MPa",
        stress(ClosureKind::FlatClamped, 15.48),
        138.0,
        0.1,
    );
    BULKHEAD.within(
        "supported, 19.98 mm, MPa",
        stress(ClosureKind::FlatSupported, 19.98),
        138.0,
        0.1,
    );
}

const HEADS: Outside = Outside {
    room: "vessel",
    source: "A. Montemayor, \"Vessel Design Tips\", revision 2, 2003: a 2:1 head has \"50% of the volumetric \
             capacity of a hemispherical head with the same internal diameter\", inside depth a quarter of it",
};
const VOLUMES: Outside = Outside {
    room: "vessel",
    source: "eng-tips.com, thread 13725: hemisphere pi / 12 D^3, 2:1 ellipsoid pi / 24 D^3, dish of L = D, r = \
             0.06 D 0.0809 D^3",
};
const SPHEROID: Outside = Outside {
    room: "vessel",
    source: "area of half an oblate spheroid of 2:1, computed twice independently (closed form, quadrature)",
};

#[test]
fn domes() {
    let none = closure(0.0, 0.0, 0.0);
    let volume = |kind| closure_volume(kind, &none, 1.0);
    let (hemisphere, ellipsoid) = (
        volume(ClosureKind::Hemisphere),
        volume(ClosureKind::Ellipsoid),
    );
    VOLUMES.relative("volume of a hemisphere", hemisphere, PI / 12.0, 1e-15);
    VOLUMES.relative("volume of a 2:1 ellipsoid", ellipsoid, PI / 24.0, 1e-15);
    HEADS.relative(
        "volume of a 2:1 ellipsoid over a hemisphere's",
        ellipsoid / hemisphere,
        0.5,
        1e-15,
    );
    let depth = closure_depth(ClosureKind::Ellipsoid, &none, 1.0);
    HEADS.relative(
        "depth of a 2:1 ellipsoid over its diameter",
        depth,
        0.25,
        1e-15,
    );
    let area = closure_area(ClosureKind::Ellipsoid, &none, 1.0);
    SPHEROID.printed("area of a 2:1 ellipsoid over D^2", area, 1.083985, 1e-6);
}

const TORISPHERES: Outside = Outside {
    room: "vessel",
    source: "computed twice independently: closed form of cap and swept knuckle, and Simpson's rule along \
             the meridian, in Python",
};
const DISH: Outside = Outside {
    room: "vessel",
    source: "vcalc.com, \"Volume of a torispherical head\", comment by P. Kemp: D = R = 1000, a = 100, depth \
             193.774",
};

/// Depth, volume and area over the diameter's powers. The dish's 0.0809 is cut, not rounded.
#[test]
fn torispheres() {
    let kind = ClosureKind::Torisphere;
    for (crown, knuckle, printed) in [
        (1.0, 0.06, [0.169338, 0.080999, 0.930583]),
        (1.0, 0.1, [0.193774, 0.098966, 0.989987]),
        (0.8, 0.154, [0.254473, 0.130772, 1.087921]),
    ] {
        let head = closure(0.0, crown, knuckle);
        let computed = [
            closure_depth(kind, &head, 1.0),
            closure_volume(kind, &head, 1.0),
            closure_area(kind, &head, 1.0),
        ];
        for ((what, computed), printed) in ["depth", "volume", "area"]
            .iter()
            .zip(computed)
            .zip(printed)
        {
            let case = format!("{what} of a torisphere, L {crown} D, r {knuckle} D");
            TORISPHERES.printed(&case, computed, printed, 1e-6);
        }
    }
    let dish = closure_volume(kind, &closure(0.0, 1.0, 0.06), 1.0);
    VOLUMES.within("volume of a dish of L = D, r = 0.06 D", dish, 0.0809, 1e-4);
    let depth = closure_depth(kind, &closure(0.0, 1.0, 0.1), 1000.0);
    DISH.printed(
        "depth of a torisphere, L = D, r = 0.1 D",
        depth,
        193.774,
        0.001,
    );
}
