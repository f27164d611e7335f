//! The stage as given, the chain and the assessment: the only place where domains meet.

mod assessment;
mod cautions;
mod chain;
mod choices;
mod columns;
mod digested;
mod document;
mod drag_terms;
mod follow;
mod form;
mod given;
mod leaves;
mod loads;
mod maturity;
mod neutral;
mod on_record;
mod outcome;
mod point;
mod replace;
mod resolve;
mod schema;
mod skeleton;
mod tables;
mod vehicle;

pub use assessment::{Assessment, MassLine, SAFETY};
pub use chain::assess;
pub use choices::{CHOICES, ChoiceField, find as find_choice};
pub use digested::Digested;
pub use form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
pub use given::{Labels, Origin, Stage};
pub use leaves::TEXTS;
pub use outcome::{Fault, Outcome, Status};
pub use point::Point;
pub use schema::{INPUT_COUNT, INPUTS, RESULT_COUNT, RESULTS, Table, outcome_slots, point};
