//! On what the metal's strengths rest, and at what thickness they hold.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::given::Stage;

/// What the row that the liner's metal is named by says of its strengths.
pub(super) fn metal(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(row) = stage.metal_on_record() else {
        return;
    };
    match row.text("basis") {
        "typical" => cautions.push(format!(
            "the strengths of \"{}\" are typical, an average: about half of such metal is weaker; state minima, \
             or coupons of your own lot, before metal is cut",
            row.name
        )),
        "B-basis" => cautions.push(format!(
            "the strengths of \"{}\" are B-basis: one part in ten may be weaker, and a tank has no second load \
             path; take A- or S-basis values",
            row.name
        )),
        _ => {}
    }
    let tank = &stage.point().tank;
    let parts = [
        ("the liner's wall", outcome.geometry.liner_wall),
        ("the fore closure", tank.fore_closure.thickness),
        ("the aft closure", tank.aft_closure.thickness),
    ];
    let limit = |key: &str| row.value(key).map(|value| value.number);
    let least = limit("least_thickness").unwrap_or(0.0);
    let greatest = limit("greatest_thickness").unwrap_or(f64::INFINITY);
    // What is as thick as the limit to a rounding is within it.
    let outside =
        |thickness: f64| thickness < least * (1.0 - 1e-9) || thickness > greatest * (1.0 + 1e-9);
    let told: Vec<String> = parts
        .into_iter()
        .filter(|(_, thickness)| outside(*thickness))
        .map(|(part, thickness)| format!("{part} is {}", show(thickness, Quantity::Length)))
        .collect();
    if !told.is_empty() {
        let range = match (limit("least_thickness"), limit("greatest_thickness")) {
            (Some(least), Some(greatest)) => format!(
                "from {} to {}",
                show(least, Quantity::Length),
                show(greatest, Quantity::Length)
            ),
            (Some(least), None) => format!("from {} on", show(least, Quantity::Length)),
            _ => format!("up to {}", show(greatest, Quantity::Length)),
        };
        cautions.push(format!(
            "the strengths of \"{}\" hold {range} of thickness; {}: find the strength of that thickness",
            row.name,
            told.join(", ")
        ));
    }
}
