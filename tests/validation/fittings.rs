//! Fittings: force of a wrap on a pad, shear lag in glue, fasteners in shear and tension.

use crate::Outside;
use hoopline::quantity::Slots;
use hoopline::vessel::fitting::{
    CaseLoad, Fitting, clamping_force, fastener_share, growth_peak, transfer_peak,
};

const STRING: Outside = Outside {
    room: "vessel",
    source: "a taut string over a circle and a pad, computed twice independently: as the convex hull of 400 000 \
             points, summing the forces at the pad's corners, and as pressure on the pad's top plus its two kinks",
};
const BOND_LINE: Outside = Outside {
    room: "vessel",
    source: "bond line of two strips, computed twice independently: scipy 1.17.1, solve_bvp, for the line load of \
             the pad, and 200 001 finite differences for the slip in the glue",
};
const VOLKERSEN: Outside = Outside {
    room: "vessel",
    source: "O. Volkersen, Luftfahrtforschung 15, 1938, pages 41 to 47, from memory: alike adherends, peak over mean \
             of l L / 2 coth(l L / 2), here of 1.31304 at l L / 2 = 1",
};
const EUROCODE: Outside = Outside {
    room: "vessel",
    source: "EN 1993-1-8:2005, table 3.4, combined shear and tension, as printed in collections of formulas: \
             Fv,Ed/Fv,Rd + Ft,Ed/(1.4 Ft,Rd) <= 1; shares 0.3 and 0.42 come to 0.6",
};

#[test]
fn a_wrap_presses_on_a_pad_as_a_taut_string() {
    let force = clamping_force(50e3, 0.1, 0.04, 0.02, 0.004);
    STRING.relative("force on a pad of 20 mm x 4 mm", force, 1477.1671, 1e-7);
}

#[test]
fn glue_shears_as_the_bond_line_does() {
    for (case, strain, pad, glue, length, peak) in [
        (
            "0.2 % under a stiff pad",
            0.002,
            3.5e8,
            5e12,
            0.04,
            82.2740e6,
        ),
        ("0.09 % under soft glue", 0.0009, 6e7, 2e11, 0.12, 3.11159e6),
    ] {
        BOND_LINE.relative(case, growth_peak(strain, pad, glue, length), peak, 2e-6);
    }
    for (case, load, pad, wall, glue, length, peak) in [
        (
            "load into a softer wall",
            1e5,
            3.5e8,
            1.5e8,
            5e12,
            0.04,
            15.27737e6,
        ),
        (
            "load into a stiffer wall",
            4e4,
            2e8,
            3e8,
            1.5e12,
            0.025,
            2.922849e6,
        ),
        (
            "load into a rigid wall",
            1e5,
            3.5e8,
            1e30,
            5e12,
            0.04,
            11.95397e6,
        ),
    ] {
        let computed = transfer_peak(load, pad, wall, glue, length);
        BOND_LINE.relative(case, computed, peak, 1e-6);
    }
}

#[test]
fn a_lap_of_like_strips_peaks_as_volkersen_says() {
    // k (1 / K + 1 / K) = 1 at a length of 2.
    let peak = transfer_peak(2.0, 2.0, 2.0, 1.0, 2.0);
    VOLKERSEN.printed("alike, l L / 2 = 1", peak, 1.31304, 1e-5);
    // A lap that is short against the fading of shear has the mean: within a third of (l L / 2)^2.
    let mean = transfer_peak(2.0, 2.0, 2.0, 1.0, 0.02) * 0.02 / 2.0;
    VOLKERSEN.within("alike, l L / 2 = 0.01: the mean", mean, 1.0, 4e-5);
}

#[test]
fn fasteners_add_shear_and_tension() {
    let nothing: Fitting<f64> = Slots::uniform(0.0);
    let fitting = Fitting {
        fasteners: 2.0,
        fastener_area: 10e-6,
        fastener_shear_strength: 400e6,
        fastener_tensile_strength: 700e6,
        fastener_lever: 0.02,
        load_height: 0.01,
        ..nothing
    };
    // 2400 N cut two of 8000 N; 3480 N pull and half of 2400 N tilts: 2940 N of 7000 N.
    let load = CaseLoad {
        axial: 2400.0,
        tangential: 0.0,
        radial: 3480.0,
        tank_pressure: 0.0,
        flies: false,
    };
    EUROCODE.within(
        "share of two bolts",
        fastener_share(&fitting, &load),
        0.6,
        1e-12,
    );
}
