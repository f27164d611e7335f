//! Cautions: where a model is used outside its range, and what a reader must not overlook.

mod autofrettage;
mod bolts;
mod fittings;
mod flight;
mod junctions;
mod load_history;
mod metal;
mod pressure;
pub(super) mod service;
mod wall;
pub(super) mod winding;

use crate::quantity::field::is_below;
use crate::quantity::show;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::schema::INPUTS;
use crate::stage::given::neutral;
use crate::stage::given::{Origin, Stage};
use flight::{curve, flight, stepping};
use load_history::load_history;
use metal::metal;
use pressure::{day, pressure};
use wall::wall;

/// Cautions for one design, in words.
pub(super) fn cautions(stage: &Stage, outcome: &Outcome<f64>) -> Vec<String> {
    let form = stage.form();
    let mut cautions = Vec::new();
    // What yields comes first, and what nobody vouches for; then the order of the chain.
    load_history(stage, &outcome.pressures, &mut cautions);
    autofrettage::autofrettage(stage, outcome, &mut cautions);
    junctions::junctions(stage, outcome, &mut cautions);
    junctions::seam(stage, &mut cautions);
    bolts::bolts(stage, outcome, &mut cautions);
    winding::winding(stage, &mut cautions);
    service::service(stage, outcome, &mut cautions);
    fittings::fittings(stage, outcome, &mut cautions);
    unsourced(stage, &mut cautions);
    metal(stage, outcome, &mut cautions);
    pressure(stage, outcome, &mut cautions);
    day(stage, &mut cautions);
    wall(stage, outcome, &mut cautions);
    flight(form, outcome, &mut cautions);
    curve(stage, outcome, &mut cautions);
    stepping(form, outcome, &mut cautions);
    estimate(outcome, &mut cautions);
    what_if(stage, &mut cautions);
    cautions
}

/// Departure of the closed-form estimate's apogee from the ascent's beyond which it is told (own limit:
/// twice what the estimate's known error is for a large share of propellant).
const FAR_OFF: f64 = 0.25;

/// The closed form is there to catch what no grid shows; where the two part, a reader should know why.
fn estimate(outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let off = outcome.estimate.apogee / outcome.ascent.apogee - 1.0;
    if off.is_nan() || off.abs() > FAR_OFF {
        cautions.push(format!(
            "the closed-form estimate of the apogee departs by {:+.0} %: look for the reason before \
             trusting either (a low rail, thrust hardly above weight, a burn that is most of the mass; \
             own limit: {:.0} %)",
            100.0 * off,
            100.0 * FAR_OFF
        ));
    }
}

/// Strengths and factors of one's own of which nothing says where they come from.
fn unsourced(stage: &Stage, cautions: &mut Vec<String>) {
    let given = |table: &str| {
        INPUTS.fields.iter().enumerate().any(|(slot, field)| {
            is_below(table, &field.path)
                && stage.origin(slot) == Origin::Given
                && stage.input(slot).is_ok()
        })
    };
    let named: Vec<&str> = stage
        .sourced()
        .filter(|(table, (_, source))| source.trim().is_empty() && given(table))
        .map(|(table, _)| table)
        .collect();
    if !named.is_empty() {
        cautions.push(format!(
            "no source is stated for the values of {}: write source = \"...\" beside them, or name a \
             row on record",
            named.join(", ")
        ));
    }
}

/// What-if masses and multipliers, which no drawing or weighing stands behind.
fn what_if(stage: &Stage, cautions: &mut Vec<String>) {
    let departures = neutral::departures(stage.slots());
    let named: Vec<String> = departures
        .into_iter()
        .filter(|slot| stage.input(*slot).is_ok())
        .map(|slot| {
            let field = &INPUTS.fields[slot];
            format!(
                "{} = {}",
                field.path,
                show(stage.slots()[slot], field.quantity)
            )
        })
        .collect();
    if !named.is_empty() {
        cautions.push(format!("what-if: {}", named.join(", ")));
    }
}
