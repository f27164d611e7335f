//! How many bands cover the cylinder, and a pattern of circuits that closes.

use crate::numerics::Real;
use std::f64::consts::PI;

/// Bands beyond the least number among which a pattern is looked for, as a share of it (own choice).
const SPARE: f64 = 0.05;

/// Bands of `band_width` at `angle` side by side around a cylinder, the least whole number that leaves no gap:
/// `n b >= 2 pi R cos a`.
///
/// ```
/// // 28.45 bands would do.
/// assert_eq!(hoopline::vessel::winding::bands_for_cover(0.075, 15f64.to_radians(), 0.016), 29.0);
/// ```
pub fn bands_for_cover(radius: f64, angle: f64, band_width: f64) -> f64 {
    let cos: f64 = Real::cos(angle);
    // What is whole but for the last digits counts as whole.
    (2.0 * PI * radius * cos / band_width - 1e-9)
        .ceil()
        .max(1.0)
}

/// A pattern of circuits that closes after one cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pattern {
    /// Circuits of one cover, each a band out and back.
    pub circuits: u64,
    /// Turns of the mandrel in one cover; without a divisor in common with the circuits.
    pub turns: u64,
    /// Which circuit after the first lies beside it, on either side.
    pub neighbour: u64,
    /// What each circuit has to turn farther than it would by itself, in turns; negative for less far.
    pub nudge: f64,
}

/// The pattern of at least `bands` circuits that closes nearest to `sweep`, the turns of the mandrel in one
/// circuit as it lies by itself.
///
/// After n circuits and T whole turns the last band comes to lie where the first one lay; if n and T have no
/// divisor in common, no place is covered twice before. Up to 5 % more bands than are needed are tried (own
/// choice), the fewest of those that are equally near.
pub fn closing_pattern(sweep: f64, bands: f64) -> Pattern {
    let least = bands.max(1.0) as u64;
    let most = (bands * (1.0 + SPARE)).ceil() as u64;
    let mut best: Option<Pattern> = None;
    for circuits in least..=most.max(least) {
        let natural = (sweep * circuits as f64).floor() as u64;
        let around = natural.saturating_sub(circuits)..=natural + circuits + 1;
        for turns in around.filter(|turns| *turns > 0 && divisor(*turns, circuits) == 1) {
            let nudge = turns as f64 / circuits as f64 - sweep;
            if best.is_none_or(|known| nudge.abs() < known.nudge.abs() - 1e-12) {
                best = Some(Pattern {
                    circuits,
                    turns,
                    neighbour: neighbour(circuits, turns),
                    nudge,
                });
            }
        }
    }
    best.unwrap_or(Pattern {
        circuits: least,
        turns: 1,
        neighbour: 1,
        nudge: 1.0 / least as f64 - sweep,
    })
}

/// Greatest common divisor.
fn divisor(one: u64, other: u64) -> u64 {
    if other == 0 {
        one
    } else {
        divisor(other, one % other)
    }
}

/// The smallest number of circuits after which the band lies one place beside the first.
fn neighbour(circuits: u64, turns: u64) -> u64 {
    let beside = |count: &u64| {
        let at = count * turns % circuits;
        at == 1 % circuits || at == circuits - 1
    };
    (1..=circuits).find(beside).unwrap_or(1)
}
