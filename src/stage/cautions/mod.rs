//! Cautions: where a model is used outside its range, and what a reader must not overlook.

mod flight;
mod pressure;
mod wall;

use super::given::Stage;
use super::outcome::Outcome;
use flight::{curve, flight};
use pressure::{day, pressure};
use wall::wall;

/// Cautions for one design, in words.
pub(super) fn cautions(stage: &Stage, outcome: &Outcome<f64>) -> Vec<String> {
    let form = stage.form();
    let mut cautions = Vec::new();
    pressure(stage, outcome, &mut cautions);
    day(stage, &mut cautions);
    wall(stage, outcome, &mut cautions);
    flight(form, outcome, &mut cautions);
    curve(stage, outcome, &mut cautions);
    cautions
}
