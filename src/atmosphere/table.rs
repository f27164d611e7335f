//! The table behind [`standard`](super::standard): one cubic per quantity and cell.

use super::EARTH_RADIUS;
use super::exact::{self, HIGHEST_ALTITUDE, LOWEST_ALTITUDE, LOWEST_GEOPOTENTIAL};
use std::sync::LazyLock;

/// Height of a cell, m of geopotential altitude. It divides every layer limit, so that no cell
/// straddles one of the kinks there.
const CELL: f64 = 125.0;
/// Enough cells to reach above the highest altitude.
const CELLS: usize = 719;

/// Coefficients of `c0 + c1 s + c2 s2 + c3 s3`, `s` from 0 to 1 across the cell.
type Cubic = [f64; 4];

/// Temperature, pressure, density, speed of sound, logarithm of the unit Reynolds number.
static CUBICS: LazyLock<Vec<[Cubic; 5]>> = LazyLock::new(|| (0..CELLS).map(cell).collect());

/// Cubics that meet value and slope of the exact functions at both ends of a cell.
fn cell(index: usize) -> [Cubic; 5] {
    let base = LOWEST_GEOPOTENTIAL + CELL * index as f64;
    let layer = exact::layer(base);
    let bottom = exact::columns(base, layer);
    let top = exact::columns(base + CELL, layer);
    std::array::from_fn(|column| {
        let (low, slope) = bottom[column];
        let (high, top_slope) = top[column];
        let (rise, slope, top_slope) = (high - low, slope * CELL, top_slope * CELL);
        [
            low,
            slope,
            3.0 * rise - 2.0 * slope - top_slope,
            slope + top_slope - 2.0 * rise,
        ]
    })
}

/// Value and slope across the cell.
fn evaluate([c0, c1, c2, c3]: Cubic, s: f64) -> (f64, f64) {
    (
        c0 + s * (c1 + s * (c2 + s * c3)),
        c1 + s * (2.0 * c2 + s * (3.0 * c3)),
    )
}

/// Temperature, pressure, density, density slope, speed of sound and logarithm of the unit Reynolds
/// number at a geometric altitude, each with its derivative with respect to that altitude. Inlined
/// so that kinds without derivatives do not compute them.
#[inline]
pub(super) fn look_up(altitude: f64) -> [(f64, f64); 6] {
    // Not a number stays so: `clamp` passes it on, where `min` and `max` would hide it.
    let reached = altitude.clamp(LOWEST_ALTITUDE, HIGHEST_ALTITUDE);
    let stretch = EARTH_RADIUS / (EARTH_RADIUS + reached);
    let place = (stretch * reached - LOWEST_GEOPOTENTIAL) / CELL;
    let index = place as usize;
    let s = place - index as f64;
    let [temperature, pressure, density, sound_speed, unit_reynolds] = &CUBICS[index];

    let rate = if reached == altitude {
        stretch * stretch / CELL
    } else {
        0.0
    };
    let presence = if altitude > HIGHEST_ALTITUDE {
        0.0
    } else {
        1.0
    };
    let column = |cubic: &Cubic| {
        let (value, slope) = evaluate(*cubic, s);
        (value, slope * rate)
    };

    let (density_value, density_slope) = column(density);
    let bend = 2.0 * density[2] + 6.0 * density[3] * s;
    let density_bend = rate * rate * bend - 2.0 * density_slope / (EARTH_RADIUS + reached);
    let (pressure_value, pressure_slope) = column(pressure);
    [
        column(temperature),
        (pressure_value * presence, pressure_slope),
        (density_value * presence, density_slope),
        (density_slope, density_bend),
        column(sound_speed),
        column(unit_reynolds),
    ]
}
