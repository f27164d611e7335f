//! The tables that flights read the air from. Those of [`standard`](super::standard) and
//! [`standard_stream`](super::standard_stream) go by geopotential altitude, with value and slope exact at
//! both ends of a cell; those of an off-standard day, which differs from design to design, by temperature.

use super::exact::{self, GAS_CONSTANT, HEAT_CAPACITY_RATIO, LOWEST_GEOPOTENTIAL};
use crate::numerics::{EvenTable, hermite_cell, sampled_cell};
use std::sync::LazyLock;

/// Height of a cell, m of geopotential altitude. It divides every layer limit, so that no cell
/// straddles one of the kinks there.
const CELL: f64 = 125.0;
/// Enough cells to reach above the highest altitude; the law of the last layer goes on there.
const CELLS: usize = 1024;

/// Density, one over the speed of sound, logarithm of the unit Reynolds number, pressure.
pub(super) static STREAM: LazyLock<EvenTable<CELLS>> = LazyLock::new(|| {
    table(|[_, pressure, density, (speed, slope), unit_reynolds]| {
        let per_sound_speed = (1.0 / speed, -slope / (speed * speed));
        [density, per_sound_speed, unit_reynolds, pressure]
    })
});

/// Temperature, speed of sound; two places are empty.
pub(super) static WARMTH: LazyLock<EvenTable<CELLS>> = LazyLock::new(|| {
    table(|[temperature, _, _, sound_speed, _]| [temperature, sound_speed, (0.0, 0.0), (0.0, 0.0)])
});

/// What an off-standard day takes from the temperature: one over the speed of sound, the logarithm of
/// the unit Reynolds number less that of the pressure (both decimal), one over gas constant and
/// temperature, natural logarithm of the temperature. Cells of 1 K, off by less than 1e-11.
pub(super) static BY_TEMPERATURE: LazyLock<EvenTable<TEMPERATURES>> = LazyLock::new(|| {
    EvenTable::new(COLDEST, 1.0, |cell| {
        let start = COLDEST + cell as f64;
        let sampled = |function: &dyn Fn(f64) -> f64| sampled_cell(start, 1.0, function);
        let sound_speed = |t: f64| (HEAT_CAPACITY_RATIO * GAS_CONSTANT * t).sqrt();
        [
            sampled(&|t| 1.0 / sound_speed(t)),
            sampled(&|t| libm::log10(sound_speed(t) / (GAS_CONSTANT * t * exact::viscosity(t)))),
            sampled(&|t| 1.0 / (GAS_CONSTANT * t)),
            sampled(&libm::log),
        ]
    })
});
/// Below any temperature of any day; the table ends above every one.
const COLDEST: f64 = 60.0;
const TEMPERATURES: usize = 512;

/// The exponential in cells of a thirty-second, off by less than 1e-9; three places are empty. From far
/// below to far above the natural logarithm of any pressure in pascal.
pub(super) static EXPONENTIAL: LazyLock<EvenTable<CELLS>> = LazyLock::new(|| {
    const WIDTH: f64 = 1.0 / 32.0;
    const START: f64 = -16.0;
    EvenTable::new(START, WIDTH, |cell| {
        let start = START + WIDTH * cell as f64;
        [
            sampled_cell(start, WIDTH, libm::exp),
            [0.0; 4],
            [0.0; 4],
            [0.0; 4],
        ]
    })
});

/// A value and its slope.
type Edge = (f64, f64);

fn table(of: impl Fn([Edge; 5]) -> [Edge; 4]) -> EvenTable<CELLS> {
    // One cell more than is read, where rounding may put the lowest altitude.
    let start = LOWEST_GEOPOTENTIAL - CELL;
    EvenTable::new(start, CELL, |index| {
        let base = start + CELL * index as f64;
        let layer = exact::layer(base);
        let edges = [base, base + CELL].map(|edge| of(exact::columns(edge, layer)));
        std::array::from_fn(|column| hermite_cell(CELL, edges.map(|edge| edge[column])))
    })
}
