//! Attachment fittings on the tank's cylinder: pads that the hoop plies hold, pads that glue holds.
//!
//! Takes fittings as given, the tank and what the flight brings; hands shares of strength per fitting and case
//! to the margins and the sheet. In reading order:
//!
//! - what is given: `given`, with the four load cases;
//! - the loads of a case: `case`;
//! - what holds: `wound_in` (clamping by the wrap, friction, lift-off), `bonded` (shear lag in the glue),
//!   `fastener` (studs between pad and part);
//! - all of them together: `judged`.
//!
//! First order: a pad is stiff in bending and its underside fits the shell; the wrap holds by friction alone; glue is
//! elastic and one-dimensional in each direction. Bending of the wall under a pad, bearing of pad and part, and
//! preload of the fasteners are not in it.

mod bonded;
mod case;
mod fastener;
mod given;
mod judged;
mod wound_in;

pub use bonded::{Bond, growth_peak, transfer_peak};
pub use case::{CASES, CaseLoad, Flown};
pub use fastener::fastener_share;
pub use given::{DragLoad, Fitting, FittingHold, StatedLoad, ThrustLoad};
pub use judged::{Shares, Worst, shares, worst};
pub use wound_in::{Clamp, bridged_length, clamping_force};
