//! The table behind [`standard`](super::standard): one cubic per quantity and cell.

use super::exact::{self, LOWEST_GEOPOTENTIAL};
use crate::numerics::{EvenTable, hermite_cell};
use std::sync::LazyLock;

/// Height of a cell, m of geopotential altitude. It divides every layer limit, so that no cell
/// straddles one of the kinks there.
const CELL: f64 = 125.0;
/// Enough cells to reach above the highest altitude; the law of the last layer goes on there.
const CELLS: usize = 1024;

pub(super) const TEMPERATURE: usize = 0;
pub(super) const PRESSURE: usize = 1;
pub(super) const DENSITY: usize = 2;
pub(super) const SOUND_SPEED: usize = 3;
pub(super) const UNIT_REYNOLDS: usize = 4;
pub(super) const PER_SOUND_SPEED: usize = 5;

/// Against geopotential altitude, m; value and slope are exact at both ends of a cell.
pub(super) static TABLE: LazyLock<EvenTable<6, CELLS>> = LazyLock::new(|| {
    // One cell more than is read, where rounding may put the lowest altitude.
    let start = LOWEST_GEOPOTENTIAL - CELL;
    EvenTable::new(start, CELL, |index| {
        let base = start + CELL * index as f64;
        let layer = exact::layer(base);
        let [bottom, top] = [base, base + CELL].map(|edge| exact::columns(edge, layer));
        std::array::from_fn(|column| match column {
            PER_SOUND_SPEED => {
                let inverse = |(speed, slope): (f64, f64)| (1.0 / speed, -slope / (speed * speed));
                hermite_cell(CELL, [bottom, top].map(|edge| inverse(edge[SOUND_SPEED])))
            }
            _ => hermite_cell(CELL, [bottom[column], top[column]]),
        })
    })
});
