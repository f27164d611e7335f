//! What is stated and read: from a document to a [`Stage`], and back.
//!
//! Takes a document and the shipped catalogues, hands form and point to `chain`. In reading order:
//!
//! - the stage itself: `stage`, its `choices`, its texts (`leaves`), what may be required of it
//!   (`requirement`);
//! - from document to stage: `resolve`, over the dotted paths (`leaves`), the form (`skeleton`),
//!   curves and tables (`tables`, `columns`), how many `plies` are wound, and what is `missing`;
//! - rows on record: `stock` (which row fills in what), `stocked` (the rows at hand), `on_record`
//!   (the values filled in), `maturity` (growth allowances by class);
//! - quantities that stand for each other: `follow` (which, and their values), `equivalents` (which
//!   of them a document gives), `neutral` (inputs that may be left out);
//! - what is stated about winding and fittings, against the tank: `openings`, `fittings`; of bolted bulkheads:
//!   `bolt_rows`;
//! - changing and telling: `replace`, `source` (where a number comes from), `chosen` (what a stage
//!   rests on besides numbers).

mod bolt_rows;
pub(super) mod choices;
pub(super) mod chosen;
pub(super) mod columns;
pub(super) mod equivalents;
pub(super) mod fittings;
pub(super) mod follow;
pub(super) mod leaves;
pub(super) mod maturity;
pub(super) mod missing;
pub(super) mod neutral;
pub(super) mod on_record;
pub(super) mod openings;
pub(super) mod plies;
pub(super) mod replace;
pub(super) mod requirement;
pub(super) mod resolve;
pub(super) mod skeleton;
pub(super) mod source;
pub(super) mod stage;
pub(super) mod stock;
pub(super) mod stocked;
pub(super) mod tables;

pub use stage::{Labels, Origin, Stage};
