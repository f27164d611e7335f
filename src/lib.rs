//! Hoopline: what tank and airframe to build, what governs it, and how high it takes us.
//!
//! Data flow one way, room by room: dimensions of the tank, load, pressures, body and mass, thrust,
//! drag, ascent, margins. [`stage::assess`] is the whole chain for one design, a block of designs or
//! a design with derivatives; [`study`] evaluates many.

pub mod airframe;
pub mod ascent;
pub mod atmosphere;
#[cfg(feature = "python")]
mod bindings;
mod document;
pub mod error;
pub mod fluid;
mod likeness;
pub mod mass;
pub mod material;
pub mod motor;
pub mod numerics;
pub mod problem;
pub mod quantity;
pub mod stage;
pub mod study;
mod synonyms;
pub mod vessel;

pub use error::{Error, Result};
