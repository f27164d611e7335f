//! The closed-form estimate against worked numbers.

use crate::Outside;
use crate::ascent::{UNIT_DIAMETER, constant_thrust, even_air, table, upright};
use hoopline::airframe::{GivenDrag, stated_drag};
use hoopline::ascent::closed_form::{
    burn_distance, burn_speed, coast_height, drag_factor, drag_free_coast, drag_free_distance,
    drag_free_speed, estimate,
};
use hoopline::atmosphere::STANDARD_GRAVITY as G;
use hoopline::motor::Curve;

const ROCKET_EQUATION: Outside = Outside {
    room: "ascent",
    source: "ProofWiki, Burnout Height of Upward Rocket under Constant Gravity; numbers computed \
             twice independently from its formula",
};

#[test]
fn drag_free_bounds() {
    let speed = drag_free_speed(2000.0, 130.0, 75.0, G, 15.0);
    let distance = drag_free_distance(2000.0, 130.0, 75.0, G, 15.0);
    ROCKET_EQUATION.printed("bound of burnout speed", speed, 952.9929, 1e-4);
    ROCKET_EQUATION.printed("bound of burnout altitude", distance, 6394.8563, 1e-4);
    let apogee = distance + drag_free_coast(speed, G);
    ROCKET_EQUATION.printed("bound of apogee", apogee, 52_699.941, 1e-3);
}

const QUADRATIC_DRAG: Outside = Outside {
    room: "ascent",
    source: "University of Southampton exercise 7651; Fowles and Cassiday, Analytical Mechanics, \
             section 2.4; numbers computed twice independently from its formulas",
};

#[test]
fn quadratic_drag() {
    let factor = drag_factor(1.225, 0.016, 100.0);
    let acceleration = 80.0 - G;
    let speed = burn_speed(acceleration, factor, 5.0);
    let height = burn_distance(acceleration, factor, 5.0);
    let coast = coast_height(speed, factor, G);
    QUADRATIC_DRAG.printed("burn speed", speed, 332.141649, 1e-6);
    QUADRATIC_DRAG.printed("burn distance", height, 853.364379, 1e-6);
    QUADRATIC_DRAG.printed("coast height", coast, 3791.301471, 1e-6);
}

/// From vanishing drag to terminal speed, on both sides of every seam between series and function.
#[test]
fn quadratic_drag_at_its_limits() {
    for x in [
        1e-9f64, 1e-3, 9.99e-3, 1.001e-2, 0.3, 0.999, 1.001, 3.0, 20.0, 2000.0,
    ] {
        // One second at an acceleration of one: k = x^2.
        let factor = x * x;
        let speed = if x < 1e-4 { 1.0 } else { x.tanh() / x };
        let distance = if x < 2e-2 {
            0.5 - x.powi(2) / 12.0 + x.powi(4) / 45.0
        } else if x < 300.0 {
            x.cosh().ln() / factor
        } else {
            (x - 2f64.ln()) / factor
        };
        let case = format!("sqrt(a k) t = {x}");
        QUADRATIC_DRAG.relative(&case, burn_speed(1.0, factor, 1.0), speed, 1e-11);
        QUADRATIC_DRAG.relative(&case, burn_distance(1.0, factor, 1.0), distance, 1e-11);
        let coast = if x < 1e-4 {
            0.5
        } else {
            factor.ln_1p() / (2.0 * factor)
        };
        QUADRATIC_DRAG.relative(&case, coast_height(1.0, factor, 1.0), coast, 1e-11);
    }
}

/// Where its assumptions hold (constant mass, even air, one drag coefficient) the estimate is exact.
#[test]
fn estimate_at_constant_mass_in_even_air() {
    let table = table(0.016);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::constant();
    let drive = constant_thrust(8000.0, 5.0, 1e12);
    let quick = estimate(&upright(&curve, even_air(1.225), drive, 100.0, &drag));
    let check = |case: &str, computed, expected| {
        QUADRATIC_DRAG.relative(case, computed, expected, 1e-8);
    };
    check("estimate of burnout speed", quick.burnout_speed, 332.141649);
    check(
        "estimate of burnout altitude",
        quick.burnout_altitude,
        853.364379,
    );
    check("estimate of apogee", quick.apogee, 4644.665850);
}
