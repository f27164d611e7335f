//! A vehicle and the forces on it, from the physics.

use hoopline::airframe::Drag;
use hoopline::atmosphere::{EARTH_RADIUS, STANDARD_GRAVITY, exact};

/// An invented vehicle on a standard day.
pub struct Vehicle<'a> {
    pub name: &'static str,
    /// Time s, from zero, and thrust N at the reference pressure, straight between.
    pub thrust: &'a [(f64, f64)],
    /// Ambient pressure the thrust refers to, Pa.
    pub reference_pressure: f64,
    /// Exit area of the nozzle, m2.
    pub exit_area: f64,
    /// Impulse per mass burned, m/s.
    pub exhaust_speed: f64,
    /// Mass at ignition, kg.
    pub mass: f64,
    pub drag: &'a Drag<'a, f64>,
    /// Altitude of the site, m.
    pub site: f64,
    /// Length of the rail, m.
    pub rail: f64,
    /// Angle of the rail above the horizon, degrees; none for a vertical course.
    pub elevation: Option<f64>,
}

/// A stretch of the burn in which thrust is a straight line and nothing has a kink.
#[derive(Clone, Copy)]
pub struct Stretch {
    pub start: f64,
    pub end: f64,
    force: f64,
    rise: f64,
    /// Impulse up to its start, N s.
    spent: f64,
}

impl Stretch {
    fn force(&self, time: f64) -> f64 {
        self.force + self.rise * (time - self.start)
    }

    fn spent(&self, time: f64) -> f64 {
        self.spent + 0.5 * (self.force + self.force(time)) * (time - self.start)
    }
}

/// Inverse square of the distance from the centre of the Earth.
pub fn gravity(altitude: f64) -> f64 {
    STANDARD_GRAVITY * (EARTH_RADIUS / (EARTH_RADIUS + altitude)).powi(2)
}

/// Dynamic pressure, Pa, and Mach number.
pub fn flow(altitude: f64, speed: f64) -> [f64; 2] {
    let air = exact::air(altitude);
    [0.5 * air.density * speed.powi(2), speed / air.sound_speed]
}

impl Vehicle<'_> {
    /// Direction of the rail: upward and along the ground.
    pub fn direction(&self) -> [f64; 2] {
        self.elevation
            .map_or([1.0, 0.0], |degrees| degrees.to_radians().sin_cos().into())
    }

    pub fn burn_time(&self) -> f64 {
        self.thrust[self.thrust.len() - 1].0
    }

    fn impulse(&self) -> f64 {
        let area = |pair: &[(f64, f64)]| 0.5 * (pair[0].1 + pair[1].1) * (pair[1].0 - pair[0].0);
        self.thrust.windows(2).map(area).sum()
    }

    pub fn mean_thrust(&self) -> f64 {
        self.impulse() / self.burn_time()
    }

    /// Between the points of the curve, divided where thrust passes its mean and a tenth of it.
    pub fn stretches(&self) -> Vec<Stretch> {
        let mean = self.mean_thrust();
        let mut stretches: Vec<Stretch> = Vec::new();
        for pair in self.thrust.windows(2) {
            let [(start, first), (end, last)] = [pair[0], pair[1]];
            let rise = (last - first) / (end - start);
            let mut times = vec![start];
            times.extend([0.1, 1.0].map(|share| start + (share * mean - first) / rise));
            times.retain(|time| (start..end).contains(time));
            times.push(end);
            times.sort_by(f64::total_cmp);
            for bounds in times.windows(2) {
                let before = stretches.last();
                stretches.push(Stretch {
                    start: bounds[0],
                    end: bounds[1],
                    force: first + rise * (bounds[0] - start),
                    rise,
                    spent: before.map_or(0.0, |before| before.spent(before.end)),
                });
            }
        }
        stretches
    }

    /// Thrust at an ambient pressure, N, and its share of full thrust. The pressure term fades below a
    /// tenth of the mean thrust.
    fn push(&self, stretch: &Stretch, time: f64, pressure: f64) -> [f64; 2] {
        let force = stretch.force(time);
        let share = force / self.mean_thrust();
        let relief = (self.reference_pressure - pressure) * self.exit_area;
        [force + relief * (share / 0.1).min(1.0), share.min(1.0)]
    }

    /// Thrust less drag, over mass, m/s2; without a stretch of the burn it is that of the coast.
    pub fn axial(&self, burn: Option<(&Stretch, f64)>, altitude: f64, speed: f64) -> f64 {
        let air = exact::air(altitude);
        let ([force, share], spent) = match burn {
            Some((stretch, time)) => (self.push(stretch, time, air.pressure), stretch.spent(time)),
            None => ([0.0, 0.0], self.impulse()),
        };
        let [dynamic_pressure, mach] = flow(altitude, speed);
        let coefficient = self.drag.coefficient(mach, air.unit_reynolds, share);
        let drag = dynamic_pressure * coefficient * self.drag.reference_area;
        (force - drag) / (self.mass - spent / self.exhaust_speed)
    }

    /// When thrust first exceeds the weight along the rail, by bisection.
    pub fn lift_off(&self, stretches: &[Stretch]) -> f64 {
        let pull = gravity(self.site) * self.direction()[0];
        let lifts =
            |stretch: &Stretch, time: f64| self.axial(Some((stretch, time)), self.site, 0.0) > pull;
        let stretch = stretches
            .iter()
            .find(|stretch| lifts(stretch, stretch.end))
            .expect("a lift-off");
        let [mut low, mut high] = [stretch.start, stretch.end];
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if lifts(stretch, middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        low
    }
}
