//! Exact supersonic flow past a cone without incidence: the equation of Taylor and Maccoll, integrated
//! from the shock to the cone. Air, ratio of specific heats 1.4.

const GAMMA: f64 = 1.4;

/// Pressure coefficient on a cone of `half_angle` radians; referred to its base this is the cone's
/// drag coefficient.
pub fn surface_pressure(half_angle: f64, mach: f64) -> f64 {
    let (mut low, mut high) = ((1.0 / mach).asin() + 1e-9, 1.0);
    for _ in 0..60 {
        let shock = 0.5 * (low + high);
        if behind(shock, mach).0 < half_angle {
            low = shock;
        } else {
            high = shock;
        }
    }
    behind(0.5 * (low + high), mach).1
}

/// Half angle of the cone that a shock of this angle stands on, and its pressure coefficient.
fn behind(shock: f64, mach: f64) -> (f64, f64) {
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
    let step = -shock / 4000.0;
    let mut theta = shock;
    let mut before = (theta, state);
    while state[1] < 0.0 && theta > -2.0 * step {
        before = (theta, state);
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
        state = std::array::from_fn(|k| {
            state[k] + step / 6.0 * (first[k] + 2.0 * (second[k] + third[k]) + fourth[k])
        });
        theta += step;
    }
    // Where nothing flows across the ray lies the cone.
    let share = before.1[1] / (before.1[1] - state[1]);
    let cone = before.0 + share * (theta - before.0);
    let surface = [before.1[0] + share * (state[0] - before.1[0]), 0.0];
    let ratio = jump * (left(surface) / start).powf(GAMMA / (GAMMA - 1.0));
    (cone, (ratio - 1.0) * 2.0 / (GAMMA * mach * mach))
}
