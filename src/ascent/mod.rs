//! Ascent of a point mass, vertical or from an inclined rail: lift-off, rail, burn, coast to apogee.
//!
//! Takes a [`Flight`]: vehicle on the pad, drag columns from `airframe`, drive from `motor`, air from
//! `atmosphere`; hands a [`Trajectory`] to results and flight loads. In reading order:
//!
//! - what flies: `flight`, `leg` (an interval of the thrust curve), `lift_off`;
//! - how it is stepped: `intervals`, `pacing`, `step`, `cubic`, `record`, `monitor`, `drift`;
//! - the two courses: `vertical`; `rail` and `inclined`; both are chosen in `fly`, and come to a
//!   `trajectory`;
//! - beside it: `history` (every step, for one design), `closed_form` with `estimate`.
//!
//! No step of the burn straddles a point of the thrust curve or a kink of thrust at a pressure, and mass and
//! lift-off time are closed form. The coast takes *vertical speed* as its independent variable, so the
//! apogee is the end of the grid and no event is searched. Steps are short where the drag is steep, about the
//! speed of sound, and long elsewhere (`pacing`); in the burn every design takes its own, chosen from its state
//! alone, so that the outcome does not depend on how designs are grouped. On an inclined rail the crossing of
//! its end is found within the step, and the free flight starts there, each design at its own time, with
//! steps that grow with the speed at first (`grading`). A step that passes a limit of layers of the air,
//! where the temperature gradient jumps, is taken in two parts.
//!
//! Each step is one of the classical formula of Runge and Kutta (E. Hairer, S. P. Norsett, G. Wanner,
//! "Solving Ordinary Differential Equations I", section II.1, from memory). It was chosen by measurement:
//! what limits the steps is how fast the drag bends with Mach number, not the smoothness of the motion, and
//! at an error of 0.1 m the fifth-order formula of Dormand and Prince needs as many evaluations. Pairs of steps
//! are compared with Simpson's rule, which gives an estimate of the error, and a design that the grid does
//! not serve is flown again with more steps ([`fly()`]).

pub mod closed_form;
mod cubic;
mod drift;
mod estimate;
mod flight;
mod fly;
mod grading;
mod history;
mod inclined;
mod intervals;
mod leg;
mod lift_off;
mod monitor;
mod pacing;
mod rail;
mod record;
mod step;
mod trajectory;
mod vertical;

pub use flight::{AirModel, Course, Flight, Grid, Steps};
pub use fly::{attempts, fly, fly_recorded};
pub use history::{HISTORY, Instant, Moment, Phase};
pub(crate) use leg::Leg;
pub use trajectory::Trajectory;
