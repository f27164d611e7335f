//! What the tank is charged with, and the pressures that follow.

use super::form::{LoadRule, PressureBasis, TankSide};
use super::outcome::{Load, Pressures};
use super::point::{Point, Propellant};
use crate::fluid::nitrous_oxide::{self, Saturation};
use crate::numerics::Real;
use crate::quantity::Slots;

pub(super) fn stated_load<R: Real>(propellant: &Propellant<R>) -> Load<R> {
    let residual = propellant.mass * propellant.residual;
    Load {
        propellant: propellant.mass,
        burned: propellant.mass - residual,
        residual,
        ..Load::uniform(R::splat(0.0))
    }
}

/// Mean density of a tank that holds liquid with saturated vapour above it, kg/m3.
pub(in crate::stage) fn filled_density<R: Real>(saturated: &Saturation<R>, ullage: R) -> R {
    let (liquid, vapour) = (saturated.liquid_density, saturated.vapour_density);
    liquid + (vapour - liquid) * ullage
}

/// Oxidiser and fuel on board: liquid and saturated vapour share the tank at the fill temperature,
/// `m = V ((1 - u) rho_liquid + u rho_vapour)`.
pub(super) fn fill<R: Real>(side: &TankSide, propellant: &Propellant<R>, volume: R) -> Load<R> {
    let saturated = nitrous_oxide::saturation(propellant.fill_temperature);
    let (liquid, vapour) = (saturated.liquid_density, saturated.vapour_density);
    let (oxidiser, ullage) = match side.load {
        LoadRule::Ullage => {
            let density = filled_density(&saturated, propellant.ullage);
            (volume * density, propellant.ullage)
        }
        LoadRule::Mass => {
            let density = propellant.oxidiser_mass / volume;
            (
                propellant.oxidiser_mass,
                (liquid - density) / (liquid - vapour),
            )
        }
    };
    let oxidiser_burned = oxidiser * (-propellant.oxidiser_residual + 1.0);
    let fuel_burned = oxidiser_burned / propellant.oxidiser_to_fuel_ratio;
    let fuel = fuel_burned / (-propellant.fuel_residual + 1.0);
    let burned = oxidiser_burned + fuel_burned;
    Load {
        oxidiser,
        vapour: volume * vapour * ullage,
        fuel,
        ullage,
        fill_density: oxidiser / volume,
        propellant: oxidiser + fuel,
        oxidiser_residual: oxidiser - oxidiser_burned,
        fuel_residual: fuel - fuel_burned,
        burned,
        residual: oxidiser + fuel - burned,
    }
}

/// MEOP by each basis, gauge. A closed tank is taken at the warmer of soak and fill temperature; it
/// warms at constant mean density.
pub(super) fn pressures<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    load: &Load<R>,
    site_pressure: R,
) -> Pressures<R> {
    let given = &point.pressure;
    let soak = given
        .soak_temperature
        .max(point.propellant.fill_temperature);
    let closed = nitrous_oxide::closed_pressure(soak, load.fill_density) - site_pressure;
    let vented = given.relief_setting * (given.relief_accumulation + 1.0);
    let meop = match side.basis {
        PressureBasis::Stated => given.stated,
        PressureBasis::Vented => vented,
        PressureBasis::Closed => closed,
    };
    Pressures {
        site: site_pressure,
        fill: nitrous_oxide::saturation(point.propellant.fill_temperature).pressure,
        meop_stated: given.stated,
        meop_vented: vented,
        meop_closed: closed,
        meop,
        proof: meop * point.rule_set.proof_factor,
        burst: meop * point.rule_set.burst_over_meop(side.burst_basis),
    }
}
