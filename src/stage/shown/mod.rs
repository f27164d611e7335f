//! What a reader gets of one design beside its numbers.
//!
//! Takes a [`Stage`](crate::stage::Stage) and its outcome, hands text and columns to Python. In
//! reading order:
//!
//! - `assessment` brings all together: `matrix` (requirements), `bands` (known errors of the drag
//!   models), `cautions/`;
//! - `explain/`: a result back to its inputs, formula by formula;
//! - columns for other programs, all through `sheet`: `history`, `drag_sheet` (and `drag_terms`, the
//!   terms of one column), `thrust_sheet`, `load_history`, `junctions`;
//!   terms of one column), `thrust_sheet`, `load_history`, `winding`, `service`;
//!   terms of one column), `thrust_sheet`, `load_history`, `winding`, `fittings`;
//! - `layout`: outlines for drawings to scale.

pub(super) mod assessment;
pub(super) mod bands;
pub(super) mod cautions;
pub(super) mod drag_sheet;
pub(super) mod drag_terms;
pub(super) mod explain;
pub(super) mod fittings;
pub(super) mod history;
pub(super) mod junctions;
pub(super) mod layout;
pub(super) mod load_history;
pub(super) mod matrix;
pub(super) mod service;
pub(super) mod sheet;
pub(super) mod thrust_sheet;
pub(super) mod winding;
