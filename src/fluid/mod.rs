//! The fluids in the tanks.
//!
//! Takes temperatures, densities and ullage; hands pressure and the states of liquid and vapour to load,
//! pressures and flight loads. One folder per fluid: `nitrous_oxide/`, in it `equation_of_state`, then
//! `saturation`, then `isochore` (a closed tank that warms).
//!
//! Not in it yet: the state of the tank over the burn, which will stand as `blowdown` beside the fluids
//! and feed the motor's injector; water for proof tests, as a fluid of its own.

pub mod nitrous_oxide;
