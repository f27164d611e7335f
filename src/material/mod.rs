//! Metals and fibres: what a room needs to know of them, and a catalogue with a source per row.
//!
//! Takes catalogue files; hands rows whose values fill inputs, each with its source. In reading order:
//! `kind` (what a row may hold), `row`, `reader`, `catalogue`, `strength`. Whatever table is part of the
//! crate, rule sets and classes of maturity too, is read here.
//!
//! Not in it yet: resins and unidirectional plies, as further kinds.

mod catalogue;
mod kind;
mod reader;
mod row;
mod strength;

pub(crate) use catalogue::shipped_rows;
pub use catalogue::{Catalogue, FIBRES, METALS};
pub use kind::{Kind, STRENGTH_BASES, Text};
pub use row::{Row, Written, find};
pub(crate) use strength::{STRENGTHS, out_of_order};

use crate::quantity::slots;

slots! {
    /// A liner or closure metal, parent and weld zone.
    pub struct Metal<R> {
        /// Yield strength of the parent metal (0.2 % proof stress for aluminium).
        yield_strength: Stress [1e6, 5e9], Tank;
        /// Ultimate tensile strength of the parent metal.
        ultimate_strength: Stress [1e6, 5e9], Tank;
        /// Elastic modulus.
        elastic_modulus: Stress [1e9, 1e12], Tank;
        /// Poisson's ratio.
        poisson_ratio: Ratio [0.0, 0.499], Tank;
        /// Density.
        density: Density [500.0, 25000.0], Tank;
        /// Yield strength of the weld zone, as welded.
        weld_zone_yield_strength: Stress [1e6, 5e9], WeldZone;
        /// Ultimate tensile strength of the weld zone, as welded.
        weld_zone_ultimate_strength: Stress [1e6, 5e9], WeldZone;
        /// Coefficient of thermal expansion, mean over the temperatures it is used between.
        thermal_expansion: ThermalExpansion [0.0, 5e-5], ThermalStrain;
    }
}

slots! {
    /// A reinforcing fibre; modulus and strength belong to the fibre cross-section alone.
    pub struct Fibre<R> {
        /// Elastic modulus along the fibre.
        elastic_modulus: Stress [1e9, 1e12], Overwrap;
        /// Strength of the impregnated strand, before any translation efficiency.
        strength: Stress [1e7, 2e10], Overwrap;
        /// Density.
        density: Density [500.0, 5000.0], Overwrap;
        /// Coefficient of thermal expansion along the fibre; negative for one that shortens when it is warmed.
        thermal_expansion: ThermalExpansion [-2e-5, 5e-5], ThermalStrain;
    }
}
