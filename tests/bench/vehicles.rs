//! Sets of vehicles to fly: the fleet, and two drawn far beyond its ranges.
//!
//! Of the wide ones some never lift off, some stop in the burn or on the rail, some leave for good, and
//! many need finer steps. The walled ones are the same with a stated drag that has a wall narrower than
//! the steps.

use crate::fleet::{self, Design, VARIED, curve, flight, terms};
use hoopline::airframe::{DragTable, GivenDrag, build_drag, stated_drag};
use hoopline::ascent::{Course, Flight, Grid};
use hoopline::atmosphere::STANDARD_GRAVITY;
use hoopline::motor::Curve;
use hoopline::numerics::Real;

/// Which vehicles.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Set {
    Fleet,
    Wide,
    Walled,
}

impl Set {
    pub fn from_word(word: &str) -> Option<Self> {
        match word {
            "fleet" => Some(Self::Fleet),
            "wide" => Some(Self::Wide),
            "walled" => Some(Self::Walled),
            _ => None,
        }
    }
}

/// A set, with what all of its vehicles share.
pub struct Vehicles {
    set: Set,
    curve: Curve,
    wall: DragTable,
}

impl Vehicles {
    pub fn of(set: Set) -> Self {
        // Mach number, drag coefficient: the wall is half as wide as the steps of the trade grid see.
        let rows = [
            (0.0, 0.35),
            (0.85, 0.35),
            (1.10, 0.62),
            (1.125, 0.75),
            (1.15, 0.60),
            (3.0, 0.40),
            (8.0, 0.30),
        ];
        Self {
            set,
            curve: curve(),
            wall: DragTable::new(&rows).expect("a drag table"),
        }
    }

    /// The `index`-th vehicle.
    pub fn design(&self, index: usize) -> Design<f64> {
        match self.set {
            Set::Fleet => fleet::design(index),
            Set::Wide | Set::Walled => drawn(index as u64),
        }
    }

    /// Does something with the flight of a vehicle, or of a block of them.
    pub fn with_flight<R: Real, T>(
        &self,
        design: &Design<R>,
        course: Course,
        grid: Grid,
        then: impl FnOnce(&Flight<'_, R>) -> T,
    ) -> T {
        let drag = match self.set {
            Set::Fleet | Set::Wide => build_drag(&terms(design)),
            Set::Walled => stated_drag(&self.wall, &GivenDrag::on(design[0])),
        };
        then(&flight(&self.curve, &drag, design, course, grid))
    }
}

/// Of so many wide vehicles one is heavy with propellant, enough to leave for good now and then, and one has
/// hardly enough to leave the rail.
const SELDOM: u64 = 64;

/// A vehicle drawn at random; all ranges but those of the elevation and the specific impulse are even in
/// the logarithm.
fn drawn(index: u64) -> Design<f64> {
    let mut draw = index * VARIED.len() as u64;
    let mut even = |low: f64, high: f64| {
        draw += 1;
        low + (high - low) * share(draw)
    };
    let specific_impulse = even(100.0, 400.0);
    let elevation = even(75.0, 90.0);
    let mut spread = |low: f64, high: f64| libm::exp(even(libm::log(low), libm::log(high)));
    let diameter = spread(0.1, 0.6);
    let length = diameter * spread(12.0, 35.0);
    let dry = spread(30.0, 2000.0);
    let times = match index % SELDOM {
        0 => 50.0,
        1 => 0.03,
        _ => 1.0,
    };
    let propellant = dry * times * spread(0.04, 1.2);
    let weight = (dry + propellant) * STANDARD_GRAVITY;
    let mean_thrust = weight * spread(0.5, 30.0);
    let roughness = spread(1e-7, 5e-4);
    [
        diameter,
        length,
        dry,
        propellant,
        mean_thrust,
        specific_impulse,
        roughness,
        elevation,
    ]
}

/// From 0 to below 1: the generator SplitMix64, whose `draw`-th number is had without those before
/// (G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom number generators", 2014; constants
/// from memory).
fn share(draw: u64) -> f64 {
    let mut mixed = draw.wrapping_mul(0x9e37_79b9_7f4a_7c15);
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^= mixed >> 31;
    (mixed >> 11) as f64 / (1u64 << 53) as f64
}
