//! Inputs that may be left out because one value of theirs changes nothing: what-if masses and
//! multipliers, and what a vessel may do without. They can be replaced and varied like any other input.

use super::choices::split_index;
use crate::stage::chain::schema::{INPUT_COUNT, INPUTS};

/// Path of each what-if mass or multiplier, and the value that changes nothing.
const WHAT_IF: &[(&str, f64)] = &[
    ("mass.added", 0.0),
    ("drag.table_multiplier", 1.0),
    ("drag.friction_multiplier", 1.0),
    ("drag.wave_multiplier", 1.0),
    ("drag.base_multiplier", 1.0),
];

/// Path of what a vessel may do without, and the value that says so.
const WITHOUT: &[(&str, f64)] = &[
    ("tank.autofrettage_pressure", 0.0),
    ("tank.liner.plastic_modulus", 0.0),
    ("tank.overwrap.winding_stress", 0.0),
    ("tank.overwrap.gap", 0.0),
    ("tank.overwrap.cracking_strain", 0.0),
    ("tank.liner.girth_seam.misalignment", 0.0),
    ("tank.liner.girth_seam.peaking", 0.0),
    ("tank.liner.girth_seam.lack_of_penetration", 0.0),
];

/// Loads of a fitting of which there need not be any, `[]` for its number; zero is none.
const LOADS: &[&str] = &[
    "tank.fitting[].thrust.carried_mass",
    "tank.fitting[].thrust.axial_force",
    "tank.fitting[].thrust.tangential_force",
    "tank.fitting[].thrust.radial_force",
    "tank.fitting[].thrust.tank_pressure",
    "tank.fitting[].drag.drag_area",
    "tank.fitting[].drag.axial_force",
    "tank.fitting[].drag.tangential_force",
    "tank.fitting[].drag.radial_force",
    "tank.fitting[].drag.tank_pressure",
    "tank.fitting[].ejection.axial_force",
    "tank.fitting[].ejection.tangential_force",
    "tank.fitting[].ejection.radial_force",
    "tank.fitting[].ejection.tank_pressure",
    "tank.fitting[].handling.axial_force",
    "tank.fitting[].handling.tangential_force",
    "tank.fitting[].handling.radial_force",
    "tank.fitting[].handling.tank_pressure",
];

fn all() -> impl Iterator<Item = &'static (&'static str, f64)> {
    WHAT_IF.iter().chain(WITHOUT)
}

/// Whether an input has a neutral value.
pub(super) fn is_neutral(path: &str) -> bool {
    all().any(|(known, _)| *known == path) || LOADS.contains(&split_index(path).0.as_str())
}

/// What-if inputs of a stage that stand off their neutral value, as slots.
pub(in crate::stage) fn departures(slots: &[f64; INPUT_COUNT]) -> Vec<usize> {
    let entries = WHAT_IF.iter();
    entries
        .filter_map(|(path, value)| Some((INPUTS.slot(path)?, *value)))
        .filter(|(slot, value)| slots[*slot] != *value)
        .map(|(slot, _)| slot)
        .collect()
}

/// Slots of a stage of which nothing is given yet: the neutral value where there is one, else zero.
pub(super) fn slots() -> Box<[f64; INPUT_COUNT]> {
    let mut slots = Box::new([0.0; INPUT_COUNT]);
    for (path, value) in all() {
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
        for (path, value) in all() {
            let field = &INPUTS.fields[INPUTS.slot(path).expect(path)];
            assert!(
                field.lower <= *value && *value <= field.upper && is_neutral(path),
                "{path}"
            );
        }
        for pattern in LOADS {
            let path = pattern.replace("[]", "[1]");
            let field = &INPUTS.fields[INPUTS.slot(&path).expect(&path)];
            assert!(field.lower == 0.0 && is_neutral(&path), "{path}");
        }
    }
}
