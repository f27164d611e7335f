//! A liner cold from boiling oxidiser under a wrap that is still warm.

use super::thermal::thermal_stress;
use crate::quantity::slots;
use crate::vessel::dimensions::Dimensions;
use crate::vessel::form::TankForm;
use crate::vessel::tank::Tank;

slots! {
    /// Liner and wrap at the end of the draw-off, elastic and bonded, at the least wall of the liner.
    pub struct DrawOffResult<R> {
        /// Pressure in the tank: saturation at the liner's temperature.
        pressure: GaugePressure, DrawOff;
        /// Axial stress in the liner.
        liner_axial_stress: Stress, DrawOff;
        /// Hoop stress in the liner.
        liner_hoop_stress: Stress, DrawOff;
        /// Equivalent stress in the liner over its yield strength.
        liner_yield_share: Ratio, DrawOff;
        /// The same at the same pressure with the liner as warm as the wrap.
        even_liner_yield_share: Ratio, DrawOff;
        /// What the cold liner adds to it.
        added_yield_share: Ratio, DrawOff;
        /// Largest stress along a fibre.
        fibre_stress: Stress, DrawOff;
        /// The same at the same pressure with the liner as warm as the wrap.
        even_fibre_stress: Stress, DrawOff;
    }
}

/// Liner and wrap at their two temperatures under a pressure, Pa gauge.
///
/// The wrap is as warm throughout as stated; heat that it gives to the liner shrinks the difference.
pub fn draw_off(
    form: &TankForm,
    tank: &Tank<f64>,
    size: &Dimensions<f64>,
    pressure: f64,
) -> DrawOffResult<f64> {
    let service = &tank.service;
    let liner = tank.liner.metal.thermal_expansion;
    let fibre = tank.overwrap.fibre.thermal_expansion;
    let from = service.stress_free_temperature;
    let (axial, hoop) = size.loads_per_pressure();
    let at = |liner_temperature: f64| {
        let wrap_temperature = service.draw_off.wrap_temperature;
        let free = [
            liner * (liner_temperature - from),
            fibre * (wrap_temperature - from),
        ];
        let loads = [axial, hoop].map(|load| load * pressure);
        thermal_stress(form, tank, size.minimum_wall, loads, free)
    };
    let cold = at(service.draw_off.liner_temperature);
    let even = at(service.draw_off.wrap_temperature);
    let shares = [&cold, &even].map(|stress| stress.yield_share(tank));
    DrawOffResult {
        pressure,
        liner_axial_stress: cold.liner[0],
        liner_hoop_stress: cold.liner[1],
        liner_yield_share: shares[0],
        even_liner_yield_share: shares[1],
        added_yield_share: shares[0] - shares[1],
        fibre_stress: cold.fibre[1],
        even_fibre_stress: even.fibre[1],
    }
}
