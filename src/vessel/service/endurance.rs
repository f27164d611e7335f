//! Pressure cycles of the metal, time under pressure of the fibre.

use super::given::{Cycles, Hold};
use crate::numerics::bracketed_newton;
use crate::quantity::slots;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::flow::equivalent_stress;
use crate::vessel::form::TankForm;
use crate::vessel::seam::{girth_strength, longitudinal_strength};
use crate::vessel::shared_wall::Strained;
use crate::vessel::tank::Tank;
use crate::vessel::walls::{Ahead, Pressed, Walls};

/// Steps of each change of pressure.
const STEPS: usize = 32;
/// Longest life told, cycles: the rule is one for short lives.
const LONGEST: f64 = 1e8;

slots! {
    /// Pressure cycles of the metal.
    pub struct CyclesResult<R> {
        /// Range of plastic strain in each cycle, of the place that lasts shortest; zero where it is elastic after the
        /// tests.
        plastic_strain_range: Share, Cycles;
        /// Range of strain in each cycle there, elastic and plastic.
        strain_range: Share, Cycles;
        /// Mean of the larger principal stress in each cycle there; zero where it is pressed on average.
        mean_stress: Stress, Cycles;
        /// Cycles to failure there by the method of universal slopes, the ultimate strength less the mean stress; 1e8
        /// stands for that many or more.
        life: Ratio, Cycles;
        /// Cycles to see, times the factor on life.
        required_life: Ratio, Cycles;
        /// Life over required life.
        life_share: Ratio, Cycles;
    }
}

slots! {
    /// Time of the fibre under pressure.
    pub struct HoldResult<R> {
        /// Largest share of its strength in the vessel that a fibre bears at MEOP.
        fibre_utilisation: Share, Hold;
        /// Its stress at burst over that at MEOP, the inverse.
        stress_ratio: Ratio, Hold;
        /// Stress ratio that is asked for.
        required_stress_ratio: Ratio, Hold;
        /// Time at MEOP, times the factor on life.
        required_time: Duration, Hold;
        /// Time that the stress ratio is stated for.
        rated_time: Duration, Hold;
    }
}

/// Strain of a place of the wall in one cycle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Range of the elastic strain: equivalent range of stress over the elastic modulus.
    pub elastic: f64,
    /// Range of the equivalent plastic strain.
    pub plastic: f64,
    /// Mean of the larger principal stress, Pa; zero where it is pressed on average.
    pub mean: f64,
    /// Ultimate strength of the metal there, Pa.
    pub ultimate: f64,
}

/// A tank after its tests, in service.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Endured {
    /// Cylinder, girth seam's weld zone, longitudinal seam's weld zone.
    pub ranges: [Option<Range>; 3],
    /// Largest share of its strength in the vessel that a fibre bears at the last pressure, away from seams.
    pub fibre_utilisation: f64,
}

/// Follows the wall through pressures, Pa gauge, and tells the strains of the last two changes: back and up again.
/// The thicknesses, m, are those of the liner and of the girth seam's weld zone. None where the wall does not hold.
///
/// A metal that hardens evenly settles more in each cycle than a real one does, one that does not harden settles
/// at once.
pub fn cycle(
    form: &TankForm,
    tank: &Tank<f64>,
    size: &Dimensions<f64>,
    thicknesses: [f64; 2],
    pressures: &[f64],
) -> Option<Endured> {
    let walls = Walls::new(form, tank, size, thicknesses);
    let mut states = vec![walls.at_rest()?];
    let mut from = 0.0;
    for to in pressures {
        let mut state = *states.last()?;
        let mut ahead = Ahead::default();
        for step in 1..=STEPS {
            let pressure = from + (to - from) * step as f64 / STEPS as f64;
            let next = walls.next(&state, pressure, &ahead).ok()?;
            ahead = ahead.after(&state, &next);
            state = next;
        }
        states.push(state);
        from = *to;
    }
    let [.., first, low, high] = states[..] else {
        return None;
    };
    let metal = &tank.liner.metal;
    let (parent, zone) = (metal.ultimate_strength, metal.weld_zone_ultimate_strength);
    let strengths = [
        parent,
        girth_strength(form, tank, parent, zone),
        longitudinal_strength(form, tank, parent, zone),
    ];
    let at = |state: &Pressed, place: usize| -> Option<Strained> {
        match place {
            0 => Some(state.wall),
            seam => state.zones[seam - 1],
        }
    };
    let ranges = [0, 1, 2].map(|place| {
        let [first, low, high] =
            [at(&first, place)?, at(&low, place)?, at(&high, place)?].map(|state| state.liner);
        let change = [0, 1].map(|i| high.stress[i] - low.stress[i]);
        let means = [0, 1].map(|i| 0.5 * (high.stress[i] + low.stress[i]));
        let flowed = [first, low, high].map(|answer| answer.flowed.equivalent);
        Some(Range {
            elastic: equivalent_stress(change) / metal.elastic_modulus,
            plastic: (flowed[1] - flowed[0]).max(flowed[2] - flowed[1]),
            mean: means[0].max(means[1]).max(0.0),
            ultimate: strengths[place],
        })
    });
    let worst = walls.wall.nearest_to_break(high.wall.strain);
    Some(Endured {
        ranges,
        fibre_utilisation: worst.map_or(0.0, |(_, share)| share),
    })
}

/// Ductility of a tensile test, true strain at fracture, of its reduction of area: `ln(1 / (1 - RA))`.
pub fn ductility(reduction_of_area: f64) -> f64 {
    -libm::log(1.0 - reduction_of_area)
}

/// Range of strain that a metal bears for a number of cycles, by the method of universal slopes:
/// `3.5 (Su / E) N^-0.12 + D^0.6 N^-0.6`, with `Su / E` as `strength` and the true strain at fracture D.
///
/// For strain back and forth about none at room temperature. Lives of most metals tested lie within a factor of five
/// of it, of some farther off (from memory). A mean tension, as in a tank that is never pressed, shortens lives that
/// are mostly elastic: [`cycles`] takes it off the strength. Scratches, and corrosion, shorten all.
///
/// Source: S. S. Manson, "Fatigue: A Complex Subject - Some Simple Approximations", Experimental Mechanics 5 (1965)
/// 193-226 (from memory); its constants as "Comparison of Fatigue Property Estimation Methods with Physical Test
/// Data", Metals 15 (2025) 780, uses them (row "universal slope method").
///
/// ```
/// use hoopline::vessel::service::{ductility, universal_slopes};
/// let range = universal_slopes(260e6 / 68.3e9, ductility(0.4), 1000.0);
/// assert!((range - 0.0164).abs() < 1e-4);
/// ```
pub fn universal_slopes(strength: f64, ductility: f64, cycles: f64) -> f64 {
    strength * 3.5 * libm::pow(cycles, -0.12) + libm::pow(ductility, 0.6) * libm::pow(cycles, -0.6)
}

/// Cycles that a metal bears of a range of strain, by [`universal_slopes`]: from 1e-3, which is none, to 1e8, which
/// stands for that many or more.
pub fn universal_slopes_life(strength: f64, ductility: f64, range: f64) -> f64 {
    let bounds = [1e-3, LONGEST].map(libm::log);
    let [elastic, plastic] = [strength * 3.5, libm::pow(ductility, 0.6)].map(libm::log);
    // Between logarithms the curve is nearly straight.
    let miss = |log: f64| {
        let [a, b] = [
            libm::exp(elastic - 0.12 * log),
            libm::exp(plastic - 0.6 * log),
        ];
        let slope = (0.12 * a + 0.6 * b) / (a + b);
        (libm::log(range / (a + b)), slope)
    };
    if range <= 0.0 || miss(bounds[1]).0 <= 0.0 {
        return LONGEST;
    }
    if miss(bounds[0]).0 >= 0.0 {
        return 1e-3;
    }
    libm::exp(bracketed_newton(bounds[0], bounds[1], 40, miss))
}

/// Life of the place that lasts shortest, and its number: cylinder, girth seam, longitudinal seam.
///
/// The elastic part of the universal slopes takes the ultimate strength less the mean stress, as Morrow's rule takes
/// the true stress at fracture less it (from memory): that stress is higher, so that this is on the safe side.
pub fn cycles(
    given: &Cycles<f64>,
    tank: &Tank<f64>,
    endured: &Endured,
) -> (usize, CyclesResult<f64>) {
    let ductility = ductility(given.reduction_of_area);
    let modulus = tank.liner.metal.elastic_modulus;
    let required = given.pressure_cycles * given.life_factor;
    let mut worst = (0, f64::INFINITY, [0.0; 3]);
    for (place, range) in endured.ranges.iter().enumerate() {
        let Some(range) = range else { continue };
        let total = range.elastic + range.plastic;
        let left = (range.ultimate - range.mean).max(0.0) / modulus;
        let life = universal_slopes_life(left, ductility, total);
        if life < worst.1 || (life == worst.1 && total > worst.2[1]) {
            worst = (place, life, [range.plastic, total, range.mean]);
        }
    }
    let (place, life, [plastic, total, mean]) = worst;
    let result = CyclesResult {
        plastic_strain_range: plastic,
        strain_range: total,
        mean_stress: mean,
        life,
        required_life: required,
        life_share: life / required,
    };
    (place, result)
}

/// The fibre's stress at MEOP against the stress ratio asked for.
pub fn hold(given: &Hold<f64>, endured: &Endured) -> HoldResult<f64> {
    HoldResult {
        fibre_utilisation: endured.fibre_utilisation,
        stress_ratio: 1.0 / endured.fibre_utilisation,
        required_stress_ratio: given.stress_ratio,
        required_time: given.time_at_meop * given.life_factor,
        rated_time: given.rated_time,
    }
}
