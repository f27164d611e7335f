//! A stage from its file to its assessment: the only place where domains meet.
//!
//! Takes a document from `document` and hands [`Assessment`]s to Python and `assess` to
//! [`crate::study`]. In reading order:
//!
//! 1. `given/`: what is stated and read. A document becomes a [`Stage`]: form, numbers, texts, and
//!    where each came from.
//! 2. `chain/`: the walk through the rooms, [`assess`]. It knows forms and numbers, no file and no
//!    text, and uses nothing of the other two.
//! 3. `shown/`: what a reader gets of one design: assessment, cautions, explanations, sheets,
//!    drawings.
//!
//! The walk takes, in this order: dimensions of the tank from `vessel`; the load that fills it and
//! its pressures, from `fluid`; the body from `airframe`; the mass statement from `mass`; thrust
//! from `motor`; drag columns from `airframe`; the flight from `ascent`; loads in flight; margins
//! from `vessel`.
//!
//! Not in it yet: the tank's state over the burn (blowdown, from `fluid`) between load and thrust,
//! bending (`airframe`) after the
//! ascent. Proof of a built stage will be a room of its own after this one, `src/proof`.

mod chain;
mod given;
mod shown;

pub use chain::digested::Digested;
pub use chain::fault::{Fault, Status};
pub use chain::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
pub use chain::outcome::Outcome;
pub use chain::point::Point;
pub use chain::schema::{INPUT_COUNT, INPUTS, RESULT_COUNT, RESULTS, Table, outcome_slots, point};
pub(crate) use chain::schema::{MARGINS, is_margin};
pub use chain::{assess, at_rest};
pub use given::choices::{CHOICES, ChoiceField, find as find_choice};
pub use given::leaves::{LISTED, LISTS, OTHERS, TEXTS};
pub use given::requirement::{Method, Requirement};
pub use given::stock::KINDS;
pub use given::stocked::{catalogue_file_json, check_catalogue};
pub use given::{Labels, Origin, Stage};
pub use shown::assessment::{Assessment, MassLine, SAFETY, SCHEMA};
pub use shown::drag_sheet::DragRow;
pub use shown::explain::{Explanation, Factor, Next, Step, Term, Unit};
pub use shown::fittings::{FittingRow, StageFitting};
pub use shown::junctions::{JunctionRow, StageJunction};
pub use shown::load_history::{LoadRow, StageLoads};
pub use shown::matrix::{Judgement, Standing};
pub use shown::service::{HotWallRow, ServiceSheet, StageService};
pub use shown::thrust_sheet::ThrustRow;
pub use shown::winding::{
    BuildUpRow, StageWinding, TurnRow, WindingPathRow, WindingTotals, WoundPlyRow,
};
