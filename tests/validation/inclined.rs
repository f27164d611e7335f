//! The ascent from an inclined rail against closed forms.

use crate::Outside;
use crate::ascent::{UNIT_DIAMETER, constant_thrust, even_air, table, upright};
use hoopline::airframe::{GivenDrag, stated_drag};
use hoopline::ascent::{AirModel, Course, Flight, Trajectory, fly};
use hoopline::atmosphere::{EARTH_RADIUS, STANDARD_GRAVITY as G};
use hoopline::motor::Curve;

/// Constant thrust on a constant mass without drag, from a rail at an elevation.
fn slanted(
    air: AirModel<f64>,
    (thrust, burn_time): (f64, f64),
    mass: f64,
    (length, degrees): (f64, f64),
) -> Trajectory<f64> {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::constant();
    let drive = constant_thrust(thrust, burn_time, 1e15);
    fly(&Flight {
        course: Course::Inclined,
        elevation: f64::to_radians(degrees),
        rail_length: length,
        ..upright(&curve, air, drive, mass, &drag)
    })
}

/// A body thrown at a speed from the end of a rail of one metre, where its thrust ends too.
fn thrown(air: AirModel<f64>, speed: f64, degrees: f64) -> Trajectory<f64> {
    let force = speed * speed / 2.0 + G * f64::to_radians(degrees).sin();
    let burn_time = 2.0 / speed * (1.0 + 1e-9);
    slanted(air, (force, burn_time), 1.0, (1.0, degrees))
}

const EVEN_ACCELERATION: Outside = Outside {
    room: "ascent",
    source: "v = sqrt(2 a L), t = v / a with a = T / m - g sin(elevation): Newton's second law; \
             numbers computed twice independently (closed form, Runge-Kutta in Python)",
};

#[test]
fn rail_exit_under_even_acceleration() {
    for (length, degrees, printed) in [
        (6.0, 90.0, 24.92),
        (5.2, 90.0, 23.20),
        (6.0, 80.0, 24.95),
        (6.0, 45.0, 25.60),
    ] {
        let flight = slanted(even_air(1.225), (8000.0, 5.0), 130.0, (length, degrees));
        let acceleration = 8000.0 / 130.0 - G * f64::to_radians(degrees).sin();
        let speed = (2.0 * acceleration * length).sqrt();
        let case = format!("rail exit, {length} m at {degrees} deg");
        let check = EVEN_ACCELERATION;
        check.printed(&case, flight.rail_exit_speed, printed, 0.01);
        check.relative(&case, flight.rail_exit_speed, speed, 1e-10);
        let time = speed / acceleration;
        check.relative(&case, flight.rail_exit_time, time, 1e-10);
    }
}

/// On a rail at 30 degrees half the weight has to be overcome: a thrust k t lifts at m g / 2k.
#[test]
fn lift_off_along_the_rail() {
    let table = table(0.0);
    let drag = stated_drag(&table, &GivenDrag::on(UNIT_DIAMETER));
    let curve = Curve::new(&[(0.0, 0.0), (2.0, 4000.0), (6.0, 4000.0)]).expect("a curve");
    let mut drive = constant_thrust(1.0, 1.0, 1e15);
    drive.mean_thrust = curve.mean();
    let flight = fly(&Flight {
        course: Course::Inclined,
        elevation: f64::to_radians(30.0),
        rail_length: 20.0,
        ..upright(&curve, even_air(1.225), drive, 60.0, &drag)
    });
    let start = 60.0 * G / 4000.0;
    let check = EVEN_ACCELERATION;
    check.relative(
        "lift-off time at 30 deg",
        flight.lift_off_time,
        start,
        1e-10,
    );
    // From there the acceleration rises evenly, by j = k / m each second: s = j t^3 / 6.
    let jerk = 2000.0 / 60.0;
    let time = f64::cbrt(6.0 * 20.0 / jerk);
    assert!(start + time < 2.0);
    let speed = jerk * time * time / 2.0;
    check.relative(
        "rail exit of a rising thrust",
        flight.rail_exit_speed,
        speed,
        1e-9,
    );
    check.relative("its time", flight.rail_exit_time, start + time, 1e-9);
}

/// Gravity turn at a constant ratio n of thrust to weight over a plane: v = C z^(n - 1) (1 + z^2),
/// t = (C / g) z^(n - 1) (1 / (n - 1) + z^2 / (n + 1)), z = tan(theta / 2), theta from the vertical.
const GRAVITY_TURN: Outside = Outside {
    room: "ascent",
    source: "Culler and Fried, gravity turn at constant thrust over weight (1957; formula from \
             memory); numbers computed twice independently (closed form, Runge-Kutta in Python)",
};

/// The rail ends at 50 m/s and one degree from the vertical; thrust ends at each angle in turn. The
/// horizontal speed stays from there to the apogee and so tells the angle. The fine grid divides burns of
/// up to four minutes by its 512 steps here.
#[test]
fn gravity_turn_at_constant_thrust_over_weight() {
    let (n, start) = (2.0, f64::to_radians(1.0));
    let acceleration = (n - start.cos()) * G;
    let length = 50.0 * 50.0 / (2.0 * acceleration);
    let z = (start / 2.0).tan();
    let constant = 50.0 / (z * (1.0 + z * z));
    let clock = |z: f64| constant / G * z * (1.0 + z * z / 3.0);
    for (degrees, speed, time) in [
        (5.0f64, 250.610, 20.4244),
        (10.0, 505.059, 46.1425),
        (20.0, 1041.584, 98.9786),
        (45.0, 2780.175, 250.7223),
    ] {
        let angle = degrees.to_radians();
        let turned = (angle / 2.0).tan();
        let since = clock(turned) - clock(z);
        GRAVITY_TURN.printed("time of the turn", since, time, 1e-4);
        let burn = 50.0 / acceleration + since;
        let flight = slanted(even_air(1.225), (n * G, burn), 1.0, (length, 89.0));
        let case = format!("speed at {degrees} deg from the vertical");
        let exact = constant * turned * (1.0 + turned * turned);
        GRAVITY_TURN.printed(&case, flight.burnout_speed, speed, 1e-3);
        GRAVITY_TURN.relative(&case, flight.burnout_speed, exact, 1e-7);
        let case = format!("horizontal speed at {degrees} deg from the vertical");
        GRAVITY_TURN.relative(&case, flight.apogee_speed, exact * angle.sin(), 5e-7);
    }
}

const PARABOLA: Outside = Outside {
    room: "ascent",
    source: "Throw without drag over a plane: h = (v sin)^2 / 2g, x = v^2 sin cos / g, t = v sin / g \
             (Newton's second law); numbers computed twice independently (closed form, Runge-Kutta in \
             Python)",
};

/// 200 m/s at 70 degrees from the end of a rail of one metre.
#[test]
fn throw_over_a_plane() {
    let flight = thrown(even_air(1.225), 200.0, 70.0);
    PARABOLA.printed("apogee", flight.apogee, 1801.804, 1e-3);
    PARABOLA.printed("downrange", flight.downrange, 1311.264, 1e-3);
    PARABOLA.printed("speed at apogee", flight.apogee_speed, 68.4040, 1e-4);
    PARABOLA.printed("time of apogee", flight.apogee_time, 19.1744, 1e-4);
    let angle = 70f64.to_radians();
    let (up, along) = (200.0 * angle.sin(), 200.0 * angle.cos());
    let apogee = angle.sin() + up * up / (2.0 * G);
    PARABOLA.relative("apogee", flight.apogee, apogee, 1e-8);
    let downrange = angle.cos() + up * along / G;
    PARABOLA.relative("downrange", flight.downrange, downrange, 1e-8);
}

/// Conserved energy and angular momentum: from r, v and the angle to apoapsis radius, speed there,
/// the angle swept and the time by Kepler's equation.
const ELLIPSE: Outside = Outside {
    room: "ascent",
    source: "two-body problem, conserved energy and angular momentum, Kepler's equation (from \
             memory); numbers computed twice independently (closed form, Runge-Kutta in Python in \
             rectangular coordinates)",
};

/// 3000 m/s at 60 degrees from the end of a rail of one metre, over the sphere of the standard
/// atmosphere.
#[test]
fn throw_over_a_sphere() {
    let flight = thrown(AirModel::Standard, 3000.0, 60.0);
    ELLIPSE.printed("apogee", flight.apogee, 377_868.742, 1e-2);
    ELLIPSE.printed("downrange", flight.downrange, 411_699.370, 1e-2);
    ELLIPSE.printed("speed at apogee", flight.apogee_speed, 1415.8378, 1e-4);
    ELLIPSE.printed("time of apogee", flight.apogee_time, 296.4751, 1e-4);
    let angle = 60f64.to_radians();
    let (radius, speed) = (EARTH_RADIUS + angle.sin(), 3000.0);
    let attraction = G * EARTH_RADIUS * EARTH_RADIUS;
    let momentum = radius * speed * angle.cos();
    let energy = speed * speed / 2.0 - attraction / radius;
    let axis = -attraction / (2.0 * energy);
    let eccentricity = (1.0 + 2.0 * energy * (momentum / attraction).powi(2)).sqrt();
    let top = axis * (1.0 + eccentricity);
    ELLIPSE.relative("apogee", flight.apogee, top - EARTH_RADIUS, 1e-8);
    ELLIPSE.relative("speed at apogee", flight.apogee_speed, momentum / top, 1e-8);
    let anomaly = ((momentum * momentum / (attraction * radius) - 1.0) / eccentricity).acos();
    let swept = std::f64::consts::PI - anomaly;
    let downrange = EARTH_RADIUS * swept + angle.cos();
    ELLIPSE.relative("downrange", flight.downrange, downrange, 1e-7);
    let eccentric = ((1.0 - radius / axis) / eccentricity).acos();
    let mean = eccentric - eccentricity * eccentric.sin();
    let time = (std::f64::consts::PI - mean) * (axis.powi(3) / attraction).sqrt() + 2.0 / speed;
    ELLIPSE.relative("time of apogee", flight.apogee_time, time, 1e-7);
}
