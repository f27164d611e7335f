//! A closed-form estimate to stand beside the ascent: every line of it can be followed with a
//! pocket calculator.

pub use super::estimate::{Estimate, estimate};

use crate::numerics::Real;

/// Speed at the end of thrust without drag, m/s: the rocket equation less what gravity takes,
/// `v = c ln(m0 / m1) - g t`.
///
/// Exhaust speed `c` in m/s, lift-off mass `m0` and burnout mass `m1` in kg, gravity along the path
/// in m/s2, burn time in s. An upper bound where there is drag and the thrust does not grow with
/// altitude. Source: ProofWiki, "Burnout Velocity of Upward Rocket under Constant Gravity" (title from
/// memory).
///
/// ```
/// use hoopline::ascent::closed_form::drag_free_speed;
/// let speed = drag_free_speed(2000.0, 130.0, 75.0, 9.80665, 15.0);
/// assert!((speed - 952.9929).abs() < 1e-4);
/// ```
pub fn drag_free_speed<R: Real>(
    exhaust_speed: R,
    lift_off: R,
    burnout: R,
    gravity: R,
    time: R,
) -> R {
    exhaust_speed * (lift_off / burnout).ln() - gravity * time
}

/// Distance covered to the end of thrust without drag, m:
/// `h = c t (1 - ln R / (R - 1)) - g t^2 / 2` with `R = m0 / m1`, for constant mass flow.
///
/// Arguments as in [`drag_free_speed`]. Source: ProofWiki, "Burnout Height of Upward Rocket under
/// Constant Gravity".
///
/// ```
/// use hoopline::ascent::closed_form::drag_free_distance;
/// let distance = drag_free_distance(2000.0, 130.0, 75.0, 9.80665, 15.0);
/// assert!((distance - 6394.8563).abs() < 1e-4);
/// ```
pub fn drag_free_distance<R: Real>(
    exhaust_speed: R,
    lift_off: R,
    burnout: R,
    gravity: R,
    time: R,
) -> R {
    let ratio = lift_off / burnout;
    let share = -(ratio.ln() / (ratio - 1.0)) + 1.0;
    exhaust_speed * time * share - gravity * time.squared() * 0.5
}

/// Height gained in a coast without drag, m: `v^2 / 2g` (conserved energy).
///
/// ```
/// use hoopline::ascent::closed_form::drag_free_coast;
/// assert!((drag_free_coast(100.0, 10.0) - 500.0).abs() < 1e-9);
/// ```
pub fn drag_free_coast<R: Real>(speed: R, gravity: R) -> R {
    speed.squared() / (gravity * 2.0)
}

/// Drag over mass and speed squared, 1/m: `k = rho CD A / 2m`, from density in kg/m3, drag
/// coefficient times area in m2 and mass in kg.
///
/// ```
/// use hoopline::ascent::closed_form::drag_factor;
/// assert!((drag_factor(1.225, 0.016, 100.0) - 9.8e-5).abs() < 1e-18);
/// ```
pub fn drag_factor<R: Real>(density: R, drag_area: R, mass: R) -> R {
    density * drag_area / (mass * 2.0)
}

/// Speed after a time under constant thrust, mass and density, m/s:
/// `v = sqrt(a / k) tanh(sqrt(a k) t)`, from rest.
///
/// `a` is thrust over mass less gravity along the path, m/s2, not below zero; `k` is the
/// [`drag_factor`]; without drag (`k = 0`) it is `a t`. Source: University of Southampton exercise
/// 7651; Fowles and Cassiday, "Analytical Mechanics", section 2.4.
///
/// ```
/// use hoopline::ascent::closed_form::burn_speed;
/// assert!((burn_speed(80.0 - 9.80665, 9.8e-5, 5.0) - 332.141649).abs() < 1e-6);
/// assert_eq!(burn_speed(20.0, 0.0, 5.0), 100.0);
/// ```
pub fn burn_speed<R: Real>(acceleration: R, drag_factor: R, time: R) -> R {
    let [share, _] = shares(acceleration * drag_factor * time.squared());
    acceleration * time * share
}

/// Distance covered in a time under constant thrust, mass and density, m:
/// `h = ln cosh(sqrt(a k) t) / k`, from rest. Arguments and source as in [`burn_speed`].
///
/// ```
/// use hoopline::ascent::closed_form::burn_distance;
/// assert!((burn_distance(80.0 - 9.80665, 9.8e-5, 5.0) - 853.364379).abs() < 1e-6);
/// assert_eq!(burn_distance(20.0, 0.0, 5.0), 250.0);
/// ```
pub fn burn_distance<R: Real>(acceleration: R, drag_factor: R, time: R) -> R {
    let [_, share] = shares(acceleration * drag_factor * time.squared());
    acceleration * time.squared() * 0.5 * share
}

/// Height gained in a vertical coast of constant mass and density, m: `h = ln(1 + k v^2 / g) / 2k`.
///
/// Speed in m/s, [`drag_factor`] in 1/m, gravity in m/s2; without drag it is [`drag_free_coast`].
/// Source as in [`burn_speed`].
///
/// ```
/// use hoopline::ascent::closed_form::coast_height;
/// assert!((coast_height(332.141649, 9.8e-5, 9.80665) - 3791.301471).abs() < 1e-5);
/// ```
pub fn coast_height<R: Real>(speed: R, drag_factor: R, gravity: R) -> R {
    // ln(1 + z) / z, with its slope; both by their series where z is too small for differences.
    let [share] = (drag_factor * speed.squared() / gravity).chart(|z| {
        if z < SERIES {
            return [(1.0 - z / 2.0 + z * z / 3.0, -0.5 + z * (2.0 / 3.0))];
        }
        let share = libm::log1p(z) / z;
        [(share, (1.0 / (1.0 + z) - share) / z)]
    });
    drag_free_coast(speed, gravity) * share
}

/// Argument below which the first three terms of a power series take over; the next one is below
/// 1e-12 there.
const SERIES: f64 = 1e-4;

/// What drag leaves of speed and distance, `tanh(x) / x` and `2 ln cosh(x) / x^2`, as functions of
/// `z = x^2`: both go smoothly to one as the drag vanishes, and neither overflows. Below zero (thrust
/// below weight) they stay at one.
fn shares<R: Real>(z: R) -> [R; 2] {
    z.chart(|z| {
        if z < 0.0 {
            return [(1.0, 0.0), (1.0, 0.0)];
        }
        if z < SERIES {
            return [
                (
                    1.0 - z / 3.0 + z * z * (2.0 / 15.0),
                    -1.0 / 3.0 + z * (4.0 / 15.0),
                ),
                (
                    1.0 - z / 6.0 + z * z * (2.0 / 45.0),
                    -1.0 / 6.0 + z * (4.0 / 45.0),
                ),
            ];
        }
        let x = z.sqrt();
        let tanh = libm::tanh(x);
        let log_cosh = if x < 1.0 {
            let sinh = libm::sinh(x);
            0.5 * libm::log1p(sinh * sinh)
        } else {
            x - std::f64::consts::LN_2 + libm::log1p(libm::exp(-2.0 * x))
        };
        let (speed, distance) = (tanh / x, 2.0 * log_cosh / z);
        [
            (speed, (1.0 - tanh * tanh - speed) / (2.0 * z)),
            (distance, (speed - distance) / z),
        ]
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::Dual;

    #[test]
    fn derivatives_agree_with_differences() {
        for k in [1e-8, 5e-5, 0.3, 2.0, 50.0] {
            let closed: [fn(Dual<1>) -> Dual<1>; 3] = [
                |k| burn_speed(Dual::splat(1.0), k, Dual::splat(1.0)),
                |k| burn_distance(Dual::splat(1.0), k, Dual::splat(1.0)),
                |k| coast_height(Dual::splat(1.0), k, Dual::splat(1.0)),
            ];
            for function in closed {
                let at = |k: f64| function(Dual::splat(k)).value;
                let step = 1e-3 * k.max(1e-2);
                let slope = function(Dual::variable(k, 0)).partials[0];
                let difference = if k < step {
                    (4.0 * at(k + step) - at(k + 2.0 * step) - 3.0 * at(k)) / (2.0 * step)
                } else {
                    (at(k + step) - at(k - step)) / (2.0 * step)
                };
                approx::assert_relative_eq!(slope, difference, max_relative = 1e-5);
            }
        }
    }
}
