//! Inputs that may be left out because one value of theirs changes nothing: what-if masses and
//! multipliers. They can be replaced and varied like any other input.

use crate::stage::chain::schema::{INPUT_COUNT, INPUTS};

/// Path of each such input, and the value that changes nothing.
const NEUTRAL: &[(&str, f64)] = &[
    ("mass.added", 0.0),
    ("drag.table_multiplier", 1.0),
    ("drag.friction_multiplier", 1.0),
    ("drag.wave_multiplier", 1.0),
    ("drag.base_multiplier", 1.0),
];

/// Whether an input has a neutral value.
pub(super) fn is_neutral(path: &str) -> bool {
    NEUTRAL.iter().any(|(known, _)| *known == path)
}

/// Inputs of a stage that stand off their neutral value, as slots.
pub(in crate::stage) fn departures(slots: &[f64; INPUT_COUNT]) -> Vec<usize> {
    let entries = NEUTRAL.iter();
    entries
        .filter_map(|(path, value)| Some((INPUTS.slot(path)?, *value)))
        .filter(|(slot, value)| slots[*slot] != *value)
        .map(|(slot, _)| slot)
        .collect()
}

/// Slots of a stage of which nothing is given yet: the neutral value where there is one, else zero.
pub(super) fn slots() -> Box<[f64; INPUT_COUNT]> {
    let mut slots = Box::new([0.0; INPUT_COUNT]);
    for (path, value) in NEUTRAL {
        if let Some(slot) = INPUTS.slot(path) {
            slots[slot] = *value;
        }
    }
    slots
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_an_input_within_its_limits() {
        for (path, value) in NEUTRAL {
            let field = &INPUTS.fields[INPUTS.slot(path).expect(path)];
            assert!(
                field.lower <= *value && *value <= field.upper && is_neutral(path),
                "{path}"
            );
        }
    }
}
