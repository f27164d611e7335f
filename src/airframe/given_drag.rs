//! What is given about the drag.

use crate::numerics::Real;
use crate::quantity::slots;

slots! {
    /// A stated table's reference, and multipliers. A multiplier of one changes nothing; it is there
    /// to calibrate a term against a test, or to ask what its uncertainty costs.
    pub struct GivenDrag<R> {
        /// Diameter whose circle the drag coefficients refer to.
        reference_diameter: Length [0.001, 20.0], StatedDrag;
        /// Factor on the stated table's coefficients.
        table_multiplier: Ratio [0.0, 5.0], StatedDrag;
        /// Factor on the friction of body and fins.
        friction_multiplier: Ratio [0.0, 5.0], Body;
        /// Factor on the pressure drag of nose, its shoulder and fin thickness.
        wave_multiplier: Ratio [0.0, 5.0], Body;
        /// Factor on base drag.
        base_multiplier: Ratio [0.0, 5.0], Body;
    }
}

impl<R: Real> GivenDrag<R> {
    /// Coefficients as they stand, on a reference diameter, m.
    pub fn on(reference_diameter: R) -> Self {
        let one = R::splat(1.0);
        Self {
            reference_diameter,
            table_multiplier: one,
            friction_multiplier: one,
            wave_multiplier: one,
            base_multiplier: one,
        }
    }
}
