//! The fluids in the tanks.

pub mod nitrous_oxide;
