//! Vehicles at random over far more than what anybody would build.

use super::physics::Vehicle;
use super::shapes::drawn;
use hoopline::airframe::{Drag, DragTable, GivenDrag, stated_drag};
use hoopline::atmosphere::STANDARD_GRAVITY;
use std::f64::consts::FRAC_PI_4;

/// A row of numbers that look random and are the same in every run (the generator "SplitMix64", from
/// memory).
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^= mixed >> 31;
        (mixed >> 11) as f64 / (1u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    /// Even in the logarithm.
    fn around(&mut self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.next())
    }
}

/// A vehicle that owns its parts.
pub struct Varied<'a> {
    thrust: Vec<(f64, f64)>,
    reference_pressure: f64,
    exit_area: f64,
    exhaust_speed: f64,
    mass: f64,
    drag: Drag<'a, f64>,
    site: f64,
    rail: f64,
    elevation: Option<f64>,
}

impl Varied<'_> {
    pub fn vehicle(&self) -> Vehicle<'_> {
        Vehicle {
            name: "varied",
            thrust: &self.thrust,
            reference_pressure: self.reference_pressure,
            exit_area: self.exit_area,
            exhaust_speed: self.exhaust_speed,
            mass: self.mass,
            drag: &self.drag,
            site: self.site,
            rail: self.rail,
            elevation: self.elevation,
        }
    }
}

/// The `index`-th vehicle, every third of them vertical; none where it would be all propellant or
/// hardly any. `table` is the drag of every fourth.
pub fn varied(index: u64, table: &DragTable) -> Option<Varied<'_>> {
    let mut draw = Draw(index.wrapping_mul(0xD134_2543_DE82_EF95));
    let exhaust_speed = draw.between(1700.0, 2500.0);
    let lift = draw.around(1.5, 20.0);
    let burn_time = draw.around(1.5, 40.0);
    // Propellant over lift-off mass.
    let spent = lift * STANDARD_GRAVITY * burn_time / exhaust_speed;
    if !(0.08..0.75).contains(&spent) {
        return None;
    }
    let diameter = draw.around(0.05, 0.4);
    let frontal = FRAC_PI_4 * diameter * diameter;
    let mass = frontal * draw.around(1000.0, 8000.0);
    let exit_area = frontal * draw.between(0.05, 0.35);
    let length = diameter * draw.between(12.0, 26.0);
    let roughness = draw.around(1e-6, 2e-4);
    let drag = if index % 4 == 3 {
        stated_drag(table, &GivenDrag::on(diameter))
    } else {
        drawn(diameter, length, roughness, exit_area)
    };
    let mean = lift * STANDARD_GRAVITY * mass;
    let elevation = draw.between(60.0, 89.5);
    Some(Varied {
        thrust: thrust(&mut draw, burn_time, mean),
        reference_pressure: if draw.next() < 0.2 { 0.0 } else { 101_325.0 },
        exit_area,
        exhaust_speed,
        mass,
        drag,
        site: draw.between(0.0, 3000.0),
        rail: draw.around(0.3, 12.0),
        elevation: (!index.is_multiple_of(3)).then_some(elevation),
    })
}

/// A curve of one of five shapes: constant, falling, with ramp and tail, of many points that jitter, with
/// a spike.
fn thrust(draw: &mut Draw, burn_time: f64, mean: f64) -> Vec<(f64, f64)> {
    let shape: Vec<(f64, f64)> = match (5.0 * draw.next()) as usize {
        0 => vec![(0.0, 1.0), (1.0, 1.0)],
        1 => vec![(0.0, 1.0), (1.0, draw.between(0.0, 0.9))],
        2 => {
            let (rise, tail) = (draw.around(0.003, 0.1), draw.between(0.5, 0.95));
            let low = draw.between(0.05, 0.4);
            vec![
                (0.0, 0.0),
                (rise, 1.0),
                (tail, draw.between(0.6, 1.1)),
                (tail + 0.25 * (1.0 - tail), low),
                (1.0, 0.0),
            ]
        }
        3 => {
            let count = draw.between(12.0, 120.0).floor();
            let inner = (1..count as usize).map(|k| {
                let time = (k as f64 + draw.between(-0.4, 0.4)) / count;
                (time, (1.2 - 0.5 * time) * draw.between(0.9, 1.1))
            });
            let inner: Vec<_> = inner.collect();
            [vec![(0.0, 0.0)], inner, vec![(1.0, 0.0)]].concat()
        }
        _ => {
            let (start, width) = (draw.between(0.001, 0.9), draw.around(0.002, 0.05));
            let height = draw.between(1.5, 4.0);
            vec![
                (0.0, 1.0),
                (start, 1.0),
                (start + 0.5 * width, height),
                (start + width, 1.0),
                (1.0, 0.8),
            ]
        }
    };
    let area = |pair: &[(f64, f64)]| 0.5 * (pair[0].1 + pair[1].1) * (pair[1].0 - pair[0].0);
    let force = mean / shape.windows(2).map(area).sum::<f64>();
    let scaled = shape.into_iter();
    scaled
        .map(|(time, share)| (time * burn_time, share * force))
        .collect()
}
