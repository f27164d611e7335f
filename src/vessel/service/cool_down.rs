//! A wrap that has set hot on its liner, cooled down.

use super::given::ServiceMatter;
use super::thermal::{gap_after, thermal_stress};
use crate::numerics::Real;
use crate::quantity::slots;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::form::TankForm;
use crate::vessel::tank::Tank;

slots! {
    /// Liner and wrap after the cool-down from cure, elastic, at the least wall of the liner.
    pub struct CoolDownResult<R> {
        /// How much more the liner shrinks than the fibre, from the stress-free temperature to the one judged.
        strain_difference: Share, CoolDown;
        /// Radial gap that opens if the liner comes off the wrap.
        gap: Length, CoolDown;
        /// Radial gap that the load history begins with.
        stated_gap: Length, CoolDown;
        /// Pressure at which the liner alone, elastic, has closed that gap: below it the wrap carries nothing.
        closing_pressure: GaugePressure, CoolDown;
        /// Axial stress in the liner of the empty tank if liner and wrap stay bonded.
        liner_axial_stress: Stress, CoolDown;
        /// Hoop stress in the liner of the empty tank if liner and wrap stay bonded.
        liner_hoop_stress: Stress, CoolDown;
        /// Least stress along a fibre of the empty bonded tank; negative where it is pressed.
        least_fibre_stress: Stress, CoolDown;
        /// Equivalent stress in the liner of the empty bonded tank over its yield strength.
        liner_yield_share: Ratio, CoolDown;
        /// The same at proof pressure.
        proof_yield_share: Ratio, CoolDown;
        /// The same at proof pressure without any thermal stress.
        even_proof_yield_share: Ratio, CoolDown;
    }
}

/// Free strains of liner and fibre after the cool-down, if it is given; else none.
pub fn cooled<R: Real>(form: &TankForm, tank: &Tank<R>) -> [R; 2] {
    if !form.service.judges(ServiceMatter::CoolDown) {
        return [R::splat(0.0); 2];
    }
    let service = &tank.service;
    let warming = service.cool_down.temperature - service.stress_free_temperature;
    [
        tank.liner.metal.thermal_expansion * warming,
        tank.overwrap.fibre.thermal_expansion * warming,
    ]
}

/// Liner and wrap at the temperature judged, empty and at a proof pressure, Pa gauge.
///
/// Nothing has flowed before: what winding tension and autofrettage leave in the liner adds to it.
pub fn cool_down(
    form: &TankForm,
    tank: &Tank<f64>,
    size: &Dimensions<f64>,
    proof: f64,
) -> CoolDownResult<f64> {
    let (metal, fibre) = (&tank.liner.metal, &tank.overwrap.fibre);
    let service = &tank.service;
    let cooling = service.stress_free_temperature - service.cool_down.temperature;
    let expansion = [metal.thermal_expansion, fibre.thermal_expansion];
    let free = cooled(form, tank);
    let wall = size.minimum_wall;
    let (axial, hoop) = size.loads_per_pressure();
    let at = |pressure: f64, free: [f64; 2]| {
        thermal_stress(
            form,
            tank,
            wall,
            [axial, hoop].map(|load| load * pressure),
            free,
        )
    };
    let [empty, proved, even] = [at(0.0, free), at(proof, free), at(proof, [0.0; 2])];
    let radius = size.liner_outer_diameter * 0.5;
    let gap = gap_after(expansion[0], expansion[1], cooling, radius);
    // Hoop strain of the bare liner per pressure.
    let stretch = (hoop - metal.poisson_ratio * axial) / (metal.elastic_modulus * wall);
    CoolDownResult {
        strain_difference: free[1] - free[0],
        gap,
        stated_gap: tank.overwrap.gap,
        closing_pressure: gap / radius / stretch,
        liner_axial_stress: empty.liner[0],
        liner_hoop_stress: empty.liner[1],
        least_fibre_stress: empty.fibre[0],
        liner_yield_share: empty.yield_share(tank),
        proof_yield_share: proved.yield_share(tank),
        even_proof_yield_share: even.yield_share(tank),
    }
}
