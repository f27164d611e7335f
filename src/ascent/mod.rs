//! Vertical ascent of a point mass: lift-off, rail, burn, coast to apogee.
//!
//! The burn steps on a grid fixed by the thrust curve: every interval between two thrust knots gets
//! its own number of equal steps, so no step straddles a knot, and mass and lift-off time are closed
//! form. The coast takes *vertical speed* as its independent variable, so the apogee is the end of
//! the grid and no event is searched. All designs of a block step alike, and the outcome does not
//! depend on how they are grouped. Each step is one of the fifth-order formula of Dormand and Prince
//! ("A family of embedded Runge-Kutta formulae", Journal of Computational and Applied Mathematics 6,
//! 1980, 19-26).

mod flight;
mod lift_off;
mod monitor;
mod run;
mod step;

pub use flight::{AirModel, Flight, Grid};
pub use run::{Trajectory, fly};
