//! Exact supersonic flow past a cone without incidence: the equation of Taylor and Maccoll, integrated
//! from the shock to the cone. Air, ratio of specific heats 1.4.

use crate::Outside;

const GAMMA: f64 = 1.4;

/// A cone in supersonic flow: half angle and shock angle, rad, pressure and density at its surface over
/// those of the stream.
struct ConeFlow {
    half_angle: f64,
    shock: f64,
    pressure: f64,
    density: f64,
}

/// Pressure coefficient on a cone of `half_angle` radians; referred to its base this is the cone's
/// drag coefficient.
pub fn surface_pressure(half_angle: f64, mach: f64) -> f64 {
    (past(half_angle, mach).pressure - 1.0) * 2.0 / (GAMMA * mach * mach)
}

/// The flow past a cone of `half_angle` radians.
fn past(half_angle: f64, mach: f64) -> ConeFlow {
    let (mut low, mut high) = ((1.0 / mach).asin() + 1e-9, 1.0);
    for _ in 0..60 {
        let shock = 0.5 * (low + high);
        if behind(shock, mach).half_angle < half_angle {
            low = shock;
        } else {
            high = shock;
        }
    }
    behind(0.5 * (low + high), mach)
}

/// The flow past the cone that a shock of this angle stands on.
fn behind(shock: f64, mach: f64) -> ConeFlow {
    let normal = (mach * shock.sin()).powi(2);
    let jump = 1.0 + 2.0 * GAMMA / (GAMMA + 1.0) * (normal - 1.0);
    let density = (GAMMA + 1.0) * normal / ((GAMMA - 1.0) * normal + 2.0);
    // Speeds over the largest speed, along the ray and across it.
    let speed = 1.0 / (1.0 + 2.0 / ((GAMMA - 1.0) * mach * mach)).sqrt();
    let mut state = [speed * shock.cos(), -speed * shock.sin() / density];
    let left = |state: [f64; 2]| 1.0 - state[0] * state[0] - state[1] * state[1];
    let start = left(state);
    let rate = |theta: f64, [along, across]: [f64; 2]| {
        let sound = 0.5 * (GAMMA - 1.0) * left([along, across]);
        let bend = (across * across * along - sound * (2.0 * along + across / theta.tan()))
            / (sound - across * across);
        [across, bend]
    };
    let advance = |theta: f64, state: [f64; 2], step: f64| {
        let add = |slope: [f64; 2], part: f64| {
            [
                state[0] + part * step * slope[0],
                state[1] + part * step * slope[1],
            ]
        };
        let first = rate(theta, state);
        let second = rate(theta + 0.5 * step, add(first, 0.5));
        let third = rate(theta + 0.5 * step, add(second, 0.5));
        let fourth = rate(theta + step, add(third, 1.0));
        std::array::from_fn(|k| {
            state[k] + step / 6.0 * (first[k] + 2.0 * (second[k] + third[k]) + fourth[k])
        })
    };
    let step = -shock / 4000.0;
    let mut theta = shock;
    let mut before = (theta, state);
    while state[1] < 0.0 && theta > -2.0 * step {
        before = (theta, state);
        state = advance(theta, state, step);
        theta += step;
    }
    // Where nothing flows across the ray lies the cone: Newton steps on the length of the last step.
    let mut last = step;
    for _ in 0..3 {
        state = advance(before.0, before.1, last);
        last -= state[1] / rate(before.0 + last, state)[1];
    }
    let cone = before.0 + last;
    let surface = advance(before.0, before.1, last);
    let warmer = left(surface) / start;
    ConeFlow {
        half_angle: cone,
        shock,
        pressure: jump * warmer.powf(GAMMA / (GAMMA - 1.0)),
        density: density * warmer.powf(1.0 / (GAMMA - 1.0)),
    }
}

const TABLES: Outside = Outside {
    room: "drag",
    source: "J. L. Sims, \"Tables for Supersonic Flow Around Right Circular Cones at Zero Angle of \
             Attack\", NASA SP-3004, 1964, page in brackets, as transcribed in a public data file",
};

/// Half angle in degrees, Mach number, page, shock angle, pressure and density ratio at the surface.
type Row = (f64, f64, u32, f64, f64, f64);

fn compare(row: Row, check: impl Fn(&str, f64, f64, f64)) {
    let (degrees, mach, page, shock, pressure, density) = row;
    let flow = past(degrees.to_radians(), mach);
    let at = |what: &str| format!("{what} of a {degrees} degree cone, Mach {mach} ({page})");
    check(&at("shock angle, rad,"), flow.shock, shock, 1e-8);
    check(&at("pressure ratio"), flow.pressure, pressure, 1e-7);
    check(&at("density ratio"), flow.density, density, 1e-7);
}

/// What Bonney's fit is compared with, to the printed digits.
#[test]
fn integration_against_printed_tables() {
    for row in [
        (17.5, 2.0, 233, 0.62370275, 1.7301690, 1.4774127),
        (20.0, 1.5, 263, 0.85572391, 1.6095199, 1.4039368),
        (20.0, 2.0, 267, 0.65966357, 1.9115269, 1.5839800),
        (20.0, 3.0, 271, 0.51687270, 2.7908995, 2.0421192),
        (22.5, 3.0, 305, 0.55844683, 3.1980214, 2.2254827),
        (30.0, 3.0, 407, 0.69436436, 4.6227658, 2.7579892),
    ] {
        compare(row, |case, computed, printed, unit| {
            TABLES.printed(case, computed, printed, unit);
        });
    }
}

/// The rows of cones to 15 degrees depart from the equation by up to 4e-5, as another integration
/// confirms (SciPy 1.17.1, DOP853, relative tolerance 1e-12).
#[test]
fn integration_against_printed_tables_of_slender_cones() {
    for row in [
        (5.0, 2.0, 63, 0.52524879, 1.0950480, 1.0670052),
        (10.0, 1.5, 127, 0.74466072, 1.1949823, 1.1356839),
        (10.0, 2.0, 131, 0.54464827, 1.2924832, 1.2011081),
        (10.0, 3.0, 135, 0.37899374, 1.5510936, 1.3677168),
        (15.0, 2.0, 199, 0.59192180, 1.5662549, 1.3771650),
    ] {
        compare(row, |case, computed, printed, _| {
            TABLES.relative(case, computed, printed, 4e-5);
        });
    }
}
