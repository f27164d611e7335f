//! Tank: netting, fibre on closures, burst of wrapped tanks.

use crate::Outside;
use crate::vessel::{form, loads, size, tank};
use hoopline::vessel::{
    ClosureKind, PlyKind, bore_stress, helical_closure_fibre, hoop_line_load, margins,
    netting_thickness,
};
use std::f64::consts::PI;

const ANGLE: Outside = Outside {
    room: "vessel",
    source: "S. Grove, \"Optimum fiber orientation in filament wound structures\", Journal of Materials Science \
             Letters 18, 1999, page 1203: tan^2 a = 2, a = 54.7 degrees",
};

/// At that angle helical plies alone carry the closed cylinder: no hoop ply is left to wind.
#[test]
fn netting_angle() {
    let hoop = |angle: f64| netting_thickness(18e6, 0.075, angle, 2500e6, 2500e6).1;
    let (mut low, mut high) = (0.5f64, 1.5f64);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if hoop(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    ANGLE.printed("netting angle, degrees", low.to_degrees(), 54.7, 0.1);
    ANGLE.relative("tan^2 of the netting angle", low.tan().powi(2), 2.0, 1e-12);
}

const NETTING: Outside = Outside {
    room: "vessel",
    source: "netting equilibrium, t_helical + t_hoop = 1.5 p R / s at any angle, derived; 18 MPa, 75 mm, 2500 \
             MPa, 15 degrees computed twice independently",
};
const INVARIANT: Outside = Outside {
    room: "vessel",
    source: "fibre mass 3 p V rho / s where fibres alone carry hoop and axial load: trace of the stress over \
             all parts (virial), derived; 0.0389 kg per litre at 18 MPa, 1800 kg/m3, 2500 MPa computed twice \
             independently",
};

#[test]
fn netting_total() {
    let plies = |degrees: f64| netting_thickness(18e6, 0.075, degrees.to_radians(), 2500e6, 2500e6);
    let (helical, hoop) = plies(15.0);
    NETTING.printed(
        "helical fibre at 15 degrees, mm",
        helical * 1e3,
        0.28939,
        1e-5,
    );
    NETTING.printed("hoop fibre at 15 degrees, mm", hoop * 1e3, 0.52061, 1e-5);
    let total = 1.5 * hoop_line_load(18e6, 0.075) / 2500e6;
    for degrees in [5.0, 30.0, 50.0] {
        let (helical, hoop) = plies(degrees);
        NETTING.relative(
            &format!("fibre in all at {degrees} degrees"),
            helical + hoop,
            total,
            1e-12,
        );
        let per_volume = 2.0 * (helical + hoop) / 0.075 * 1800.0;
        INVARIANT.printed(
            &format!("fibre at {degrees} degrees, kg per litre"),
            per_volume / 1e3,
            0.0389,
            1e-4,
        );
    }
}

const ONE_WALL: Outside = Outside {
    room: "vessel",
    source: "a wrap as stiff as the liner is more of the same wall: Lame's stress at the bore of the whole, p \
             (b^2 + a^2) / (b^2 - a^2); 2 mm and 1 mm on a bore of 150 mm, Poisson's ratio 0: 25.510 p, computed \
             twice independently",
};

/// Thin-wall shares, and a wrap taken as a layer without thickness (here a third of the wall), put the
/// liner's bore 0.7 % below the exact stress.
#[test]
fn bore_under_a_wrap_of_the_same_stiffness() {
    let mut form = form(1);
    form.ply_kinds[0] = PlyKind::Hoop;
    let mut vessel = tank(70e9, 0.0, 240e6);
    vessel.overwrap.fibre.elastic_modulus = 70e9;
    vessel.overwrap.ply[0].angle = PI / 2.0;
    vessel.overwrap.ply[0].fibre_thickness = 0.001;
    let bore = bore_stress(&form, &vessel, &size(0.15, 0.002), 1.0, 0.0);
    ONE_WALL.relative(
        "hoop stress at the bore under a wrap, over p",
        bore.hoop,
        25.510,
        0.008,
    );
    ONE_WALL.relative(
        "radial stress at the bore under a wrap, over p",
        bore.radial,
        -1.0,
        1e-12,
    );
}

const CIRCLE: Outside = Outside {
    room: "vessel",
    source: "geometry of the sphere: a quarter of a great circle is pi R / 2",
};

/// A fibre of cross-section A crossing the equator of a hemisphere once lays A pi R / 2. At 0 degrees,
/// thickness t, the fibres crossing are 2 pi R t; against a skin of even thickness the hemisphere holds
/// pi / 2 as much.
#[test]
fn fibre_on_a_hemisphere() {
    let closure = tank(70e9, 0.33, 240e6).fore_closure;
    let fibre = helical_closure_fibre(ClosureKind::Hemisphere, &closure, 0.08, 0.0003, 0.0);
    let even_skin = 2.0 * PI * 0.08 * 0.08 * 0.0003;
    CIRCLE.relative(
        "fibre on a hemisphere over an even skin",
        fibre / even_skin,
        PI / 2.0,
        1e-12,
    );
}

const LIMIT: Outside = Outside {
    room: "vessel",
    source: "limit analysis by linear programming (SciPy 1.17.1, written independently of this code)",
};

/// A helical ply carries hoop load only as far as the end load balances its axial pull. Inside radius 75.5
/// mm, liner yield 240 MPa, strand strength 3530 MPa at 60 % (helical, 30 degrees) and 70 % (hoop): 1.5 mm
/// of liner under 0.6 mm helical alone bursts at 56.4 bar; 1 mm under 0.9 mm helical and 0.2 mm hoop at
/// 115.5 bar. The plain sums of strengths would be 95.8 and 159.2 bar.
#[test]
fn helical_plies_are_balanced() {
    for (wall, helical, hoop, printed) in
        [(1.5e-3, 0.6e-3, 0.0, 56.4), (1e-3, 0.9e-3, 0.2e-3, 115.5)]
    {
        let mut form = form(2);
        form.ply_kinds[1] = PlyKind::Hoop;
        let mut vessel = tank(68e9, 0.33, 240e6);
        vessel.overwrap.fibre.strength = 3530e6;
        vessel.overwrap.fibre.elastic_modulus = 230e9;
        for (ply, degrees, thickness, share) in [(0, 30.0f64, helical, 0.6), (1, 90.0, hoop, 0.7)] {
            vessel.overwrap.ply[ply].angle = degrees.to_radians();
            vessel.overwrap.ply[ply].fibre_thickness = thickness;
            vessel.overwrap.ply[ply].translation_efficiency = share;
        }
        let burst = margins(&form, &vessel, &size(0.151, wall), &loads(1e6, 1e5)).hoop_burst + 1.0;
        let case = format!(
            "burst of a liner of {:.1} mm under helical plies, bar",
            wall * 1e3
        );
        LIMIT.within(&case, burst, printed, 0.15);
    }
}
