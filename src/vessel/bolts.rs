//! What is given of the bolts that hold a flat bulkhead in the cylinder, and the room that bulkhead and bolts take.
//!
//! The bulkhead is a plug within the bore: a plate on its inside, and a rim that runs outwards from there along the
//! bore and carries the seal, then the bolts. The tube ends flush with the rim, so that it is longer than the
//! cylinder between the closures by each rim; hoop plies run on to its end.

use super::dimensions::Dimensions;
use super::form::{ClosureKind, TankForm};
use super::tank::{Closure, Tank};
use crate::numerics::Real;
use crate::quantity::slots;
use std::f64::consts::PI;

slots! {
    /// A row of radial bolts through the cylinder's wall into the rim of a flat bulkhead.
    pub struct Bolts<R> {
        /// Number of bolts in the row, a whole number.
        count: Ratio [2.0, 1000.0], BoltedClosure;
        /// Diameter of a bolt where it bears on the wall: of its shank, or of its thread if that lies in the hole.
        diameter: Length [1e-3, 0.05], BoltedClosure;
        /// Diameter of a hole in the wall, which takes from the net section and from the planes of shear-out.
        hole_diameter: Length [1e-3, 0.06], BoltedClosure;
        /// Section of a bolt in the plane between wall and rim: the thread's stress area if the thread reaches it, else
        /// the shank's.
        shear_area: Area [1e-7, 2e-3], BoltedClosure;
        /// Ultimate shear strength of the bolts, from their maker or standard.
        shear_strength: Stress [1e6, 3e9], BoltedClosure;
        /// Mass of one bolt, with washer and insert if it has them.
        mass: Mass [1e-5, 10.0], BoltedClosure;
        /// Distance from the middle of the holes to the end of the tube.
        edge_distance: Length [1e-3, 0.5], BoltedClosure;
        /// Bearing yield strength of the wall, from the metal's data at the row's ratio of edge distance to diameter.
        bearing_yield_strength: Stress [1e6, 5e9], BoltedClosure;
        /// Bearing ultimate strength of the wall, from the metal's data at the row's ratio of edge distance to diameter.
        bearing_ultimate_strength: Stress [1e6, 5e9], BoltedClosure;
        /// Ultimate shear strength of the wall, from the metal's data.
        wall_shear_strength: Stress [1e6, 3e9], BoltedClosure;
        /// Load of the worst bolt over that of even sharing; airworthiness rules ask for at least 1.15 where no test
        /// has shown the joint's strength (14 CFR 25.625).
        fitting_factor: Ratio [1.0, 5.0], BoltedClosure;
        /// Length of the bulkhead's rim along the bore, its plate included; the tube reaches as far.
        rim_length: Length [2e-3, 1.0], BoltedClosure;
        /// Radial thickness of the rim where it stands out from the plate.
        rim_thickness: Length [1e-4, 1.5], BoltedClosure;
        /// Radial gap between rim and bore as assembled, at its widest: with tolerances, and with the bulkhead to one
        /// side unless it is centred.
        seal_gap: Length [0.0, 0.01], BoltedClosure;
        /// Largest radial gap that the seal in its groove bridges at proof pressure, from its maker's sheet.
        largest_seal_gap: Length [1e-6, 0.01], BoltedClosure;
    }
}

impl<R: Real> Bolts<R> {
    /// Metal left between the edge of a hole and the end of the tube, m.
    pub fn end_ligament(&self) -> R {
        self.edge_distance - self.hole_diameter * 0.5
    }

    /// Rim left inside of the holes for the seal, m: beyond the holes' inner edges.
    pub fn rim_inside(&self) -> R {
        self.rim_length - self.edge_distance - self.hole_diameter * 0.5
    }

    /// Metal left between neighbouring holes at a radius, m.
    pub fn ligament(&self, radius: R) -> R {
        radius * (2.0 * PI) / self.count - self.hole_diameter
    }
}

/// Length of tube beyond the cylinder between the closures, m: a bolted bulkhead's rim.
pub fn overhang<R: Real>(kind: ClosureKind, closure: &Closure<R>) -> R {
    if kind.is_bolted() {
        closure.bolts.rim_length
    } else {
        R::splat(0.0)
    }
}

/// Length of a closure over the inside of its edge, m: a bolted bulkhead's rim, or the thickness of another closure;
/// its inside depth comes on top.
pub fn closure_length<R: Real>(kind: ClosureKind, closure: &Closure<R>) -> R {
    if kind.is_bolted() {
        closure.bolts.rim_length
    } else {
        closure.thickness
    }
}

/// Length of the tube, m: the cylinder between the closures, and what holds bolted bulkheads beyond it.
pub fn tube_length<R: Real>(form: &TankForm, tank: &Tank<R>, size: &Dimensions<R>) -> R {
    let [fore, aft] = form
        .closures(tank)
        .map(|(kind, closure)| overhang(kind, closure));
    size.cylinder_length + fore + aft
}

/// Volume of metal in the rim of a bolted bulkhead beside its plate, m3.
pub(super) fn rim_volume<R: Real>(closure: &Closure<R>, bore: R) -> R {
    let bolts = &closure.bolts;
    let thickness = bolts.rim_thickness;
    (bore - thickness) * thickness * (bolts.rim_length - closure.thickness) * PI
}

/// Basic mass of the bolts of a closure, kg; none where no bolts hold it.
pub fn bolt_mass<R: Real>(kind: ClosureKind, closure: &Closure<R>) -> R {
    if kind.is_bolted() {
        closure.bolts.count * closure.bolts.mass
    } else {
        R::splat(0.0)
    }
}
