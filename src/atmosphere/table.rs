//! The tables behind [`standard`](super::standard) and [`standard_stream`](super::standard_stream): one
//! cubic per quantity and cell, against geopotential altitude; value and slope are exact at both ends of
//! a cell.

use super::exact::{self, LOWEST_GEOPOTENTIAL};
use crate::numerics::{EvenTable, hermite_cell};
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
