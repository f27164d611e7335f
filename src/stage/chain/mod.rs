//! The chain: from form and point to outcome, for one design, a block or derivatives.
//!
//! Takes a [`form::Form`] and a [`point::Point`], hands an [`outcome::Outcome`] to `shown` and to the
//! study. In reading order:
//!
//! - what goes in and out: `form` (with `digested` tables), `point`, `outcome`, `fault`, `schema`
//!   (the tables of all inputs and results);
//! - the walk itself: `walk`; as much of it as no flight is needed for: `at_rest`;
//! - its steps, where the rooms need more than a call: `charge` (load, pressures), `vehicle` with
//!   `mass_lines` (body, mass statement, fins), `flight_loads` (what the flight brings to the tank),
//!   `results` (what the rooms hand over, laid out).
//!
//! Not in it yet: the tank's state over the burn will stand beside `charge`; its load history beside
//! `flight_loads`, where bending comes too.

pub(super) mod at_rest;
pub(super) mod charge;
pub(super) mod digested;
pub(super) mod fault;
pub(super) mod flight_loads;
pub(super) mod form;
pub(super) mod mass_lines;
pub(super) mod outcome;
pub(super) mod point;
pub(super) mod results;
pub(super) mod schema;
pub(super) mod vehicle;
pub(super) mod walk;

pub use at_rest::at_rest;
pub use walk::assess;
pub(super) use walk::{Evaluation, Settled, columns, drag_terms, evaluate, flight, settle};
