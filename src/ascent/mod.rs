//! Ascent of a point mass, vertical or from an inclined rail: lift-off, rail, burn, coast to apogee.
//!
//! The burn steps on a grid fixed by the thrust curve: every interval between two thrust knots gets
//! its own number of equal steps, so no step straddles a knot, and mass and lift-off time are closed
//! form. The coast takes *vertical speed* as its independent variable, so the apogee is the end of
//! the grid and no event is searched. All designs of a block step alike, and the outcome does not
//! depend on how they are grouped. On an inclined rail the crossing of its end is found within the
//! step, and the free flight starts there, each design at its own time. Each step is one of the
//! fifth-order formula of Dormand and Prince ("A family of embedded Runge-Kutta formulae", Journal of
//! Computational and Applied Mathematics 6, 1980, 19-26).

pub mod closed_form;
mod cubic;
mod estimate;
mod flight;
mod fly;
mod history;
mod inclined;
mod lift_off;
mod monitor;
mod rail;
mod record;
mod step;
mod trajectory;
mod vertical;

pub use flight::{AirModel, Course, Flight, Grid};
pub use fly::{fly, fly_recorded};
pub use history::{HISTORY, Instant, Moment, Phase};
pub use trajectory::Trajectory;
