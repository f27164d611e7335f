//! A wrap that something has hit.

use super::given::Damage;
use crate::quantity::slots;

slots! {
    /// Burst pressure of a damaged tank.
    pub struct DamageResult<R> {
        /// Burst pressure of the sound tank, by the smallest of its margins.
        sound_burst: GaugePressure, Damage;
        /// Burst pressure after the damage.
        damaged_burst: GaugePressure, Damage;
        /// Required burst pressure.
        required_burst: GaugePressure, Damage;
        /// Margin against burst of the damaged tank.
        damaged_margin: Ratio, Damage;
        /// Largest knock-down at which the required burst pressure is still met; zero where it is not met at all.
        allowable_knock_down: Share, Damage;
    }
}

/// Burst pressure after damage, from the required one, Pa gauge, and the smallest margin against it. The knock-down
/// counts on the whole, metal and fibre.
pub fn damage(given: &Damage<f64>, required: f64, margin: f64) -> DamageResult<f64> {
    let sound = required * (1.0 + margin);
    let damaged = sound * (1.0 - given.knock_down);
    DamageResult {
        sound_burst: sound,
        damaged_burst: damaged,
        required_burst: required,
        damaged_margin: damaged / required - 1.0,
        allowable_knock_down: (1.0 - required / sound).max(0.0),
    }
}
