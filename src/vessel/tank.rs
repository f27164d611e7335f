//! The tank as given.

use super::bolts::Bolts;
use super::fitting::Fitting;
use super::form::MAX_FITTINGS;
use super::overwrap::Overwrap;
use super::service::Service;
use crate::material::Metal;
use crate::numerics::Real;
use crate::quantity::slots;

slots! {
    /// Numbers of the tank. Of volume, length and fineness ratio one is the input, by the follow
    /// rule; of the diameters and the wall, two.
    pub struct Tank<R> {
        /// Outside diameter of the finished wrap, or of the bare liner where there is none.
        outer_diameter: Length [0.02, 3.0], Tank;
        /// Inside volume between the closures.
        volume: Volume [1e-5, 100.0], Tank;
        /// Overall length over the closures.
        length: Length [0.02, 50.0], Tank;
        /// Overall length over outside diameter.
        fineness_ratio: Ratio [0.5, 200.0], Tank;
        /// Mass of bosses, valves and fittings on the tank, attachment fittings included.
        fittings_mass: Mass [0.0, 1000.0], Tank;
        /// Pressure of the autofrettage before the proof test; none for a tank without.
        autofrettage_pressure: GaugePressure [0.0, 1e9], Tank;
        /// Factor on the loads of fittings, and on the tank's growth beside them, against rupture.
        fitting_factor: Ratio [1.0, 20.0], Fittings;
    } groups {
        /// The metal liner.
        liner: Liner<R>,
        /// Closure towards the nose.
        fore_closure: Closure<R> = 0,
        /// Closure towards the motor.
        aft_closure: Closure<R> = 1,
        /// Fibre overwrap.
        overwrap: Overwrap<R>,
        /// What service asks of the tank beside pressure.
        service: Service<R>,
        /// Attachment fittings on the cylinder.
        fitting: [Fitting<R>; MAX_FITTINGS],
    }
}

slots! {
    /// The cylindrical part of the liner.
    pub struct Liner<R> {
        /// Outside diameter of the liner.
        outer_diameter: Length [0.02, 3.0], Tank;
        /// Inside diameter of the liner.
        inner_diameter: Length [0.02, 3.0], Tank;
        /// Wall thickness of the liner.
        wall: Length [1e-4, 0.1], Tank;
        /// Share by which the liner's wall may be thinner than nominal where it counts.
        wall_under_tolerance: Share [0.0, 0.5], Tank;
        /// Rise of the metal's yield strength per plastic strain, as far as the load history goes; none for a
        /// metal that flows at its yield strength.
        plastic_modulus: Stress [0.0, 50e9], Tank;
    } groups {
        /// Metal of liner and closures.
        metal: Metal<R>,
        /// Seam between cylinder and closure.
        girth_seam: GirthSeam<R>,
        /// Seam along the cylinder.
        longitudinal_seam: LongitudinalSeam<R>,
    }
}

slots! {
    /// A closure of liner metal.
    pub struct Closure<R> {
        /// Thickness of the closure.
        thickness: Length [1e-4, 0.3], Tank;
        /// Share by which the closure may be thinner than nominal where it counts.
        thickness_under_tolerance: Share [0.0, 0.5], Tank;
        /// Inside crown radius over inside diameter of a torisphere.
        crown_radius_ratio: Ratio [0.5, 1.0], Torisphere;
        /// Inside knuckle radius over inside diameter of a torisphere; the boiler code asks for at least
        /// 6 % of the outside diameter (UG-32).
        knuckle_radius_ratio: Ratio [0.06, 0.5], Torisphere;
        /// Radius at which the fibres of an isotensoid's curve turn, over its inside radius at the rim: the shape
        /// is drawn for a band whose middle turns there.
        turning_radius_ratio: Ratio [0.01, 0.7], Isotensoid;
    } groups {
        /// The bolts that hold it, where bolts do.
        bolts: Bolts<R>,
    }
}

impl<R: Real> Closure<R> {
    /// Least thickness that the tolerance leaves, m: what strength is judged by.
    pub fn minimum_thickness(&self) -> R {
        self.thickness * (-self.thickness_under_tolerance + 1.0)
    }
}

slots! {
    /// The seam between cylinder and closure.
    pub struct GirthSeam<R> {
        /// Joint efficiency of the girth seam.
        joint_efficiency: Share [0.1, 1.0], GirthEfficiency;
        /// Strain that the girth seam's weld zone bears before it tears.
        allowable_strain: Share [1e-4, 1.0], GirthAllowance;
        /// Radial offset of the walls' middle surfaces at the girth seam, beside that of unlike thicknesses; taken
        /// with the worse sign. None for a perfect seam.
        misalignment: Length [0.0, 0.05], GirthSeam;
        /// Angle by which the walls' meridians depart from one line at the girth seam; taken with the worse sign.
        /// None for a perfect seam.
        peaking: Angle [0.0, std::f64::consts::FRAC_PI_4], GirthSeam;
        /// Depth at the inside to which the girth seam is not fused; its throat is that much thinner. None for full
        /// penetration.
        lack_of_penetration: Length [0.0, 0.1], GirthSeam;
    }
}

slots! {
    /// The seam along the cylinder.
    pub struct LongitudinalSeam<R> {
        /// Joint efficiency of the longitudinal seam.
        joint_efficiency: Share [0.1, 1.0], LongitudinalEfficiency;
    }
}
