//! Winding: geodesics, isotensoid domes, turns, build-up, patterns, collapse of a liner.

use crate::Outside;
use hoopline::vessel::winding::{
    Dome, banded_thickness, bands_for_cover, closing_pattern, dome_path, edge_slippage,
    elastic_collapse_pressure, geodesic_angle, isotensoid_depth, needed_slippage, turning_length,
};

const LEMNISCATE: Outside = Outside {
    room: "vessel",
    source: "V. I. Pulov, V. Kovalchuk, I. M. Mladenov, \"Geometry of Enumerable Class of Surfaces Associated \
             with Mylar Balloons\", Mathematics 12(4), 557, 2024: a balloon of two discs is half as thick as B \
             times its radius, B the second lemniscate constant; 0.5990701173 as printed in the encyclopaedia \
             article on that shape",
};
const TWICE: Outside = Outside {
    room: "vessel",
    source: "winding of a vessel of 75 mm (dome, angles, turns, build-up), computed twice independently, by \
             quadrature of the textbook equations",
};

/// Fibres towards the pole without an opening lie along meridians, and the isotensoid is the shape of a balloon
/// that carries load along its meridians only.
#[test]
fn depth_of_an_isotensoid_dome() {
    // Printed without rounding: the last digit may be one low.
    LEMNISCATE.within(
        "isotensoid without an opening, depth over radius",
        isotensoid_depth(1.0, 0.0),
        0.5990701173,
        1e-10,
    );
    for (opening, printed) in [
        (0.1, 0.602987),
        (0.2, 0.611140),
        (0.3, 0.618108),
        (0.4, 0.618917),
    ] {
        TWICE.printed(
            &format!("isotensoid turning at {opening} R, depth over radius"),
            isotensoid_depth(1.0, opening),
            printed,
            1e-6,
        );
    }
}

#[test]
fn geodesic_angles() {
    for (radius, printed) in [
        (60.0, 19.471),
        (45.0, 26.388),
        (30.0, 41.810),
        (25.0, 53.130),
    ] {
        TWICE.printed(
            &format!("geodesic turning at 20 mm, degrees at {radius} mm"),
            geodesic_angle(radius, 20.0).to_degrees(),
            printed,
            1e-3,
        );
    }
}

#[test]
fn length_that_turns_a_band() {
    for (degrees, printed) in [(15.0f64, 1073.9), (30.0, 375.0), (45.0, 155.3)] {
        TWICE.printed(
            &format!("cylinder of 75 mm that turns {degrees} degrees at 0.2, mm"),
            turning_length(75.0, degrees.to_radians(), 0.2),
            printed,
            0.1,
        );
    }
    TWICE.printed(
        "bands of 16 mm that cover at 15 degrees",
        bands_for_cover(75.0, 15f64.to_radians(), 16.0),
        29.0,
        1.0,
    );
}

/// Two plies of 1 mm to a cover, bands of 10 mm beside an opening of 20 mm.
#[test]
fn build_up_beside_an_opening() {
    let rim = geodesic_angle(75.0, 25.0);
    let flux = 75.0 * 2.0 * rim.cos();
    for (radius, printed) in [
        (75.0, 2.00230),
        (60.0, 2.59879),
        (45.0, 3.80669),
        (35.0, 5.96022),
    ] {
        TWICE.printed(
            &format!("build-up at {radius} mm, mm"),
            banded_thickness(radius, 25.0, 10.0, flux),
            printed,
            1e-5,
        );
    }
}

const SPHERE: Outside = Outside {
    room: "vessel",
    source: "geometry of the sphere: every tangent path has the same normal curvature 1/R, so an even coefficient \
             c draws a circle in a plane at c R / sqrt(1 + c^2) from the centre",
};

/// A path of even slippage on a sphere is a small circle: it leaves the rim at 30 degrees on a sphere of 100 mm and
/// turns where `r0 = R sin a + c z0`.
#[test]
fn non_geodesic_on_a_hemisphere() {
    let dome = Dome::ellipsoid(0.1, 0.1);
    for turning in [0.03, 0.06, 0.08] {
        let angle = 30f64.to_radians();
        let coefficient = needed_slippage(&dome, angle, turning).expect("a turn");
        let by_hand = (turning - 0.05) / (0.01f64 - turning * turning).sqrt();
        SPHERE.relative(
            &format!("slippage that turns 30 degrees at {turning} m on a sphere of 0.1 m"),
            coefficient,
            by_hand,
            1e-9,
        );
        // All places lie in one plane: fit it through three, ask a fourth.
        let path = dome_path(&dome, angle, coefficient, 0.01).expect("a turn");
        let last = path.places.len() - 1;
        let at = |share: f64| {
            let place = path.places[(share * last as f64) as usize];
            let (sin, cos) = place.azimuth.sin_cos();
            [place.radius * cos, place.radius * sin, place.axial]
        };
        let [p, q, r] = [0.0, 0.4, 1.0].map(at);
        let less = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
        let (u, v) = (less(q, p), less(r, p));
        let normal = [
            u[1] * v[2] - u[2] * v[1],
            u[2] * v[0] - u[0] * v[2],
            u[0] * v[1] - u[1] * v[0],
        ];
        let size = normal.iter().map(|part| part * part).sum::<f64>().sqrt();
        let along = |a: [f64; 3]| (0..3).map(|k| a[k] * normal[k]).sum::<f64>() / size;
        SPHERE.within(
            &format!("distance of that circle's plane from the centre, m, turning at {turning} m"),
            along(p).abs(),
            0.1 * coefficient.abs() / (1.0 + coefficient * coefficient).sqrt(),
            1e-9,
        );
        SPHERE.within(
            &format!("a place off that plane, m, turning at {turning} m"),
            along(at(0.75)),
            along(p),
            1e-9,
        );
    }
}

const PARALLELS: Outside = Outside {
    room: "vessel",
    source: "geometry of the sphere: the circle at a distance d beside a great circle has k_g / k_n = tan(d / R)",
};

#[test]
fn edge_of_a_band_on_a_sphere() {
    let dome = Dome::ellipsoid(0.08, 0.08);
    PARALLELS.relative(
        "slippage at the edge of a band of 12 mm on a sphere of 80 mm",
        edge_slippage(&dome.at(0.7), 0.4, 0.0, 0.012),
        (0.006f64 / 0.08).tan(),
        0.005,
    );
}

const ROARK: Outside = Outside {
    room: "vessel",
    source: "W. C. Young, \"Roark's Formulas for Stress and Strain\", table 35, case 19a, worked: 29e6 psi, nu \
             0.29, r 6.75 in, t 0.375 in: 1357 psi",
};

#[test]
fn collapse_of_a_long_tube() {
    let psi = 6894.757293168361;
    let pressure = elastic_collapse_pressure(29e6 * psi, 0.29, 0.375 * 0.0254, 6.75 * 0.0254);
    ROARK.printed("collapse of a long tube, psi", pressure / psi, 1357.0, 1.0);
}

const RESIDUES: Outside = Outside {
    room: "vessel",
    source: "arithmetic of residues, by hand: 7 circuits in 2 turns put the first band beside the fourth and \
             eighth, 4 x 2 = 1 (mod 7), 3 x 2 = -1 (mod 7)",
};

#[test]
fn pattern_that_closes() {
    let pattern = closing_pattern(0.29, 7.0);
    RESIDUES.printed("turns of seven circuits", pattern.turns as f64, 2.0, 1.0);
    RESIDUES.printed(
        "circuit beside the first",
        pattern.neighbour as f64,
        3.0,
        1.0,
    );
    RESIDUES.within(
        "nudge per circuit, turns",
        pattern.nudge,
        2.0 / 7.0 - 0.29,
        1e-12,
    );
}
