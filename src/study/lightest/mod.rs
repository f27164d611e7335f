//! The lightest tank of a list of options: liner metal, wall, seams, plies, closures, whatever a stage
//! names, in every combination.
//!
//! Takes a plan like a sweep's; hands over the winner, its runners-up and, for every other option, what
//! stands in its way. In reading order: `search` (what is asked, and the three steps), `held` (the bounds
//! of each form), `screen` (necessary conditions, without flight), `flown` (what is left, lightest first),
//! `found` (the answer).

mod flown;
mod found;
mod held;
mod screen;
mod search;

pub use found::{LightestTank, Ranked, Verdict};
pub use search::{MAX_KEPT, TankSearch, lightest_tank};
