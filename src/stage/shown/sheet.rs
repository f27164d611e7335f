//! Columns with their units, for other programs.

use crate::ascent::Flight;
use crate::error::Result;
use crate::quantity::{Field, Slots};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::{Settled, columns as drag_columns, evaluate, flight, settle};
use crate::stage::given::Stage;
use serde_json::{Value, json};

/// Rows of a group of slots as columns: what each is, its units, its values in SI. Columns that do
/// not apply to the stage are left out.
pub(super) fn columns<T: Slots<f64>>(stage: &Stage, fields: &[Field], rows: &[T]) -> Vec<Value> {
    let slots: Vec<Vec<f64>> = rows
        .iter()
        .map(|row| {
            let mut slots = vec![0.0; fields.len()];
            row.write(&mut slots, &mut 0);
            slots
        })
        .collect();
    fields
        .iter()
        .enumerate()
        .filter(|(_, field)| stage.form().applies(field.applies, field.index))
        .map(|(slot, field)| {
            let values: Vec<f64> = slots.iter().map(|row| row[slot]).collect();
            json!({"field": field.json(), "values": values})
        })
        .collect()
}

/// Hands a design's flight to a reader, with what was settled before it and what came of it.
///
/// Errors: the design has a fault and no ascent.
pub(super) fn read_flight<T>(
    stage: &Stage,
    read: impl FnOnce(&Flight<'_, f64>, &Settled<f64>, &Outcome<f64>) -> T,
) -> Result<T> {
    let (form, point) = (stage.form(), stage.point());
    let outcome = evaluate(form, &point).outcome;
    outcome.status.refuse_fault()?;
    let settled = settle(form, &point);
    let drag = drag_columns(form, &point, &settled.vehicle);
    let flight = flight(
        form,
        &point,
        &settled.vehicle,
        &settled.load,
        settled.drive,
        &drag,
    );
    Ok(read(&flight, &settled, &outcome))
}
