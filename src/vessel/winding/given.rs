//! What is stated about the winding.

use crate::quantity::slots;

slots! {
    /// How the overwrap is wound. All of it is asked for when any of it is given.
    pub struct Winding<R> {
        /// Width of the band as it lies on the cylinder.
        band_width: Length [5e-4, 0.5], Winding;
        /// Mass per length of one tow, fibre alone.
        tow_linear_density: LinearDensity [1e-6, 0.1], Winding;
        /// Number of tows side by side in the band; a whole number.
        tows_per_band: Ratio [1.0, 100.0], Winding;
        /// Allowable slippage coefficient, lateral over normal force, at which a band on this surface still
        /// holds; from a trial with this fibre, resin and surface.
        slippage_coefficient: Ratio [0.01, 1.0], Winding;
        /// Radius of the polar opening of the fore closure: where the inner edge of the band passes.
        fore_polar_opening_radius: Length [1e-3, 1.5], HelicalWinding;
        /// Radius of the polar opening of the aft closure: where the inner edge of the band passes.
        aft_polar_opening_radius: Length [1e-3, 1.5], HelicalWinding;
        /// Speed of the band as it is laid down.
        winding_speed: Speed [1e-3, 20.0], Winding;
        /// Mass of fibre on one spool.
        spool_mass: Mass [1e-3, 500.0], Winding;
        /// Share of the fibre bought that does not end up on the vessel.
        waste: Share [0.0, 0.9], Winding;
        /// Thickness of the layer that keeps fibre and metal apart; none for fibre laid straight onto the metal.
        /// It is in no diameter and no mass.
        barrier_thickness: Length [0.0, 0.01], Winding;
        /// Height of the girth seams' weld bead above the liner, under the wrap; none for a bead dressed flush.
        bead_height: Length [0.0, 0.02], Winding;
        /// Width of the tape that consolidates the wrap; none for a wrap without.
        tape_width: Length [0.0, 0.5], Winding;
        /// Share of the tape's width that its next turn covers.
        tape_overlap: Share [0.0, 0.95], Winding;
    }
}
