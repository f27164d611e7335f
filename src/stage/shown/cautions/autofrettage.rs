//! What an autofrettage above the proof pressure asks of the closures and their junctions.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::schema::{RESULTS, outcome_slots};
use crate::stage::given::Stage;

/// Margins that stand at proof pressure and go with it in proportion.
const JUDGED: [&str; 4] = [
    "margins.fore_closure_proof",
    "margins.aft_closure_proof",
    "margins.fore_junction_proof",
    "margins.aft_junction_proof",
];

pub(super) fn autofrettage(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let (reached, proof) = (
        stage.point().tank.autofrettage_pressure,
        outcome.pressures.proof,
    );
    if stage.form().tank.is_none() || reached <= proof {
        return;
    }
    let slots = outcome_slots(outcome, f64::NAN);
    let beyond: Vec<String> = JUDGED
        .iter()
        .filter_map(|path| {
            let slot = RESULTS.slot(path)?;
            let field = &RESULTS.fields[slot];
            let margin = (1.0 + slots[slot]) * proof / reached - 1.0;
            let beyond = stage.form().applies(field.applies, field.index) && margin < 0.0;
            beyond.then(|| format!("{path} {:+.2}", (margin * 100.0).floor() / 100.0))
        })
        .collect();
    if !beyond.is_empty() {
        cautions.push(format!(
            "the autofrettage at {} is above the proof pressure, at which these margins stand; there they would be {}: \
             closures and edges flow too, and no load history follows them",
            show(reached, Quantity::GaugePressure),
            beyond.join(", ")
        ));
    }
}
