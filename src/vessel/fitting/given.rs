//! Fittings as given.

use crate::numerics::Real;
use crate::quantity::{choice, slots};

choice! {
    /// What holds a fitting.
    pub enum FittingHold {
        /// A pad on the liner that the hoop plies pass over.
        WoundIn = "wound_in",
        /// A pad glued onto the outside.
        Bonded = "bonded",
    }
}

slots! {
    /// An attachment fitting on the tank's cylinder: a pad, and fasteners that hold a part to it. Its mass is part
    /// of the tank's `fittings_mass`.
    pub struct Fitting<R> {
        /// Length of the pad along the vessel.
        length: Length [1e-3, 5.0], Fitting;
        /// Width of the pad around the vessel, along the shell.
        width: Length [1e-3, 2.0], Fitting;
        /// Height of the pad above the shell.
        height: Length [1e-4, 0.2], Fitting;
        /// Height above the pad's outside at which the part's forces act.
        load_height: Length [0.0, 1.0], Fitting;
        /// Number of fasteners that hold the part to the pad; a whole number.
        fasteners: Ratio [1.0, 100.0], Fitting;
        /// Stress area of one fastener: of its thread, where that is what is cut or torn.
        fastener_area: Area [1e-7, 1e-2], Fitting;
        /// Shear strength of the fasteners.
        fastener_shear_strength: Stress [1e6, 5e9], Fitting;
        /// Tensile strength of the fasteners.
        fastener_tensile_strength: Stress [1e6, 5e9], Fitting;
        /// Lever arm of the outermost fastener against tilting: its distance from the edge that the part tilts over,
        /// the smaller of those along and around the vessel.
        fastener_lever: Length [1e-3, 5.0], Fitting;
        /// Coefficient of friction of the pad on what is below and above it; from a trial with this surface.
        friction_coefficient: Ratio [0.01, 2.0], WoundInFitting;
        /// Elastic modulus of the pad.
        elastic_modulus: Stress [1e6, 1e12], BondedFitting;
        /// Poisson's ratio of the pad.
        poisson_ratio: Ratio [0.0, 0.49], BondedFitting;
        /// Thickness of the glue.
        glue_thickness: Length [1e-5, 0.02], BondedFitting;
        /// Shear modulus of the glue.
        glue_shear_modulus: Stress [1e3, 1e11], BondedFitting;
        /// Shear strength of the bond, as a local peak.
        bond_shear_strength: Stress [1e3, 1e9], BondedFitting;
        /// Strength of the bond against being pulled off, as a local peak.
        bond_peel_strength: Stress [1e3, 1e9], BondedFitting;
    } groups {
        /// While thrust accelerates the vehicle.
        thrust: ThrustLoad<R>,
        /// Under the largest drag.
        drag: DragLoad<R>,
        /// While the recovery system is ejected.
        ejection: StatedLoad<R>,
        /// On the ground.
        handling: StatedLoad<R>,
    }
}

slots! {
    /// Loads of a fitting while thrust accelerates the vehicle; zero where there is none.
    pub struct ThrustLoad<R> {
        /// Mass that hangs on the fitting; it pulls along the vessel with the largest axial acceleration of the flight.
        carried_mass: Mass [0.0, 10000.0], Fitting;
        /// Force along the vessel beside that of the mass carried.
        axial_force: Force [0.0, 1e7], Fitting;
        /// Force around the vessel.
        tangential_force: Force [0.0, 1e7], Fitting;
        /// Force that pulls the fitting off the vessel.
        radial_force: Force [0.0, 1e7], Fitting;
        /// Least gauge pressure in the tank while the forces act; none for a tank that may be empty.
        tank_pressure: GaugePressure [0.0, 1e9], Fitting;
    }
}

slots! {
    /// Loads of a fitting under the largest drag; zero where there is none.
    pub struct DragLoad<R> {
        /// Drag area of what hangs on the fitting, drag coefficient times area; it pulls along the vessel with the
        /// largest dynamic pressure of the flight.
        drag_area: Area [0.0, 10.0], Fitting;
        /// Force along the vessel beside that of the drag area.
        axial_force: Force [0.0, 1e7], Fitting;
        /// Force around the vessel.
        tangential_force: Force [0.0, 1e7], Fitting;
        /// Force that pulls the fitting off the vessel.
        radial_force: Force [0.0, 1e7], Fitting;
        /// Least gauge pressure in the tank while the forces act; none for a tank that may be empty.
        tank_pressure: GaugePressure [0.0, 1e9], Fitting;
    }
}

slots! {
    /// Loads of a fitting in a case that nothing here computes; zero where there is none.
    pub struct StatedLoad<R> {
        /// Force along the vessel.
        axial_force: Force [0.0, 1e7], Fitting;
        /// Force around the vessel.
        tangential_force: Force [0.0, 1e7], Fitting;
        /// Force that pulls the fitting off the vessel.
        radial_force: Force [0.0, 1e7], Fitting;
        /// Least gauge pressure in the tank while the forces act; none for a tank that may be empty.
        tank_pressure: GaugePressure [0.0, 1e9], Fitting;
    }
}

impl<R: Real> Fitting<R> {
    /// Area of the pad, m2.
    pub fn area(&self) -> R {
        self.length * self.width
    }
}
