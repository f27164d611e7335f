//! The stage as given, the chain and the assessment: the only place where domains meet.

mod chain;
mod digested;
mod form;
mod outcome;
mod point;
mod schema;
mod vehicle;

pub use chain::assess;
pub use digested::Digested;
pub use form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
pub use outcome::{Fault, Outcome, Status};
pub use point::Point;
pub use schema::{INPUT_COUNT, INPUTS, RESULT_COUNT, RESULTS, Table, outcome_slots, point};
