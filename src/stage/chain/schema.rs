//! The tables of all inputs and results, built once from the declarations of the rooms.

use super::form::Form;
use super::outcome::Outcome;
use super::point::Point;
use crate::error::{Error, Result};
use crate::likeness::near_paths;
use crate::quantity::field::is_below;
use crate::quantity::{Field, Slots, fields};
use std::collections::HashMap;
use std::sync::LazyLock;

/// Number of input slots.
pub const INPUT_COUNT: usize = <Point<f64> as Slots<f64>>::COUNT;
/// Number of result slots.
pub const RESULT_COUNT: usize = <Outcome<f64> as Slots<f64>>::COUNT;

/// A table of fields and the way back from path to slot.
#[derive(Debug)]
pub struct Table {
    /// The entries, in slot order.
    pub fields: Vec<Field>,
    slots: HashMap<String, usize>,
}

impl Table {
    fn of<T: Slots<f64>>() -> Self {
        let fields = fields::<T>();
        let slots = fields
            .iter()
            .enumerate()
            .map(|(slot, field)| (field.path.clone(), slot))
            .collect();
        Self { fields, slots }
    }

    /// Slot of a path.
    pub fn slot(&self, path: &str) -> Option<usize> {
        self.slots.get(path).copied()
    }

    /// Slot of a path, or an error naming the nearest one.
    pub fn find(&self, path: &str, kind: &'static str) -> Result<usize> {
        self.slot(path).ok_or_else(|| Error::Unknown {
            kind,
            given: path.to_owned(),
            suggestions: near_paths(
                path,
                self.fields
                    .iter()
                    .map(|field| field.path.as_str())
                    .filter(|path| !path.starts_with("status.")),
            ),
        })
    }
}

/// All inputs.
pub static INPUTS: LazyLock<Table> = LazyLock::new(Table::of::<Point<f64>>);
/// All results.
pub static RESULTS: LazyLock<Table> = LazyLock::new(Table::of::<Outcome<f64>>);

/// The group of margins of safety; as a name by itself it stands for every one that applies.
pub(crate) const MARGINS: &str = "margins";

/// Whether a result is a margin of safety.
pub(crate) fn is_margin(path: &str) -> bool {
    is_below(MARGINS, path)
}

impl Form {
    /// Slots of the margins of safety that stages of this form have.
    pub(crate) fn margin_slots(&self) -> impl Iterator<Item = usize> {
        let fields = RESULTS.fields.iter().enumerate();
        let margins = fields.filter(|(_, field)| {
            is_margin(&field.path) && self.applies(field.applies, field.index)
        });
        margins.map(|(slot, _)| slot)
    }
}

/// A point from its slots.
pub fn point<R: Copy>(slots: &[R; INPUT_COUNT]) -> Point<R> {
    Point::read(slots, &mut 0)
}

/// The slots of an outcome.
pub fn outcome_slots<R: Copy>(outcome: &Outcome<R>, zero: R) -> [R; RESULT_COUNT] {
    let mut slots = [zero; RESULT_COUNT];
    outcome.write(&mut slots, &mut 0);
    slots
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inputs_and_results_never_share_a_path() {
        assert_eq!(INPUTS.fields.len(), INPUT_COUNT);
        assert_eq!(RESULTS.fields.len(), RESULT_COUNT);
        for field in &RESULTS.fields {
            assert!(INPUTS.slot(&field.path).is_none(), "{} is both", field.path);
        }
    }

    #[test]
    fn a_uniform_group_has_its_value_in_every_slot() {
        let results = outcome_slots(&Outcome::uniform(7.0), 0.0);
        assert_eq!(results, [7.0; RESULT_COUNT]);
        let mut inputs = [0.0; INPUT_COUNT];
        Point::uniform(7.0).write(&mut inputs, &mut 0);
        assert_eq!(inputs, [7.0; INPUT_COUNT]);
    }

    #[test]
    fn slots_round_trip_in_table_order() {
        let mut slots = [0.0; INPUT_COUNT];
        for (slot, value) in slots.iter_mut().enumerate() {
            *value = slot as f64;
        }
        let given = point(&slots);
        let path = "tank.overwrap.ply[3].fibre_thickness";
        let slot = INPUTS.slot(path).expect("a known path");
        assert_eq!(given.tank.overwrap.ply[3].fibre_thickness, slot as f64);
    }
}
