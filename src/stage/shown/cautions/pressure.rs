//! Pressure of the closed tank, its basis, and the readings of the day.

use crate::atmosphere;
use crate::fluid::nitrous_oxide;
use crate::quantity::{Quantity, show};
use crate::stage::chain::form::{AtmosphereModel, PressureBasis};
use crate::stage::chain::outcome::Outcome;
use crate::stage::given::Stage;

pub(super) fn pressure(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    let Some(side) = &stage.form().tank else {
        return;
    };
    let pressures = &outcome.pressures;
    let soak = stage.point().pressure.soak_temperature;
    let density = outcome.load.fill_density;
    let warmest = soak.max(stage.point().propellant.fill_temperature);
    cautions.extend(closed(warmest, density));
    if pressures.meop_closed > nitrous_oxide::VALID_PRESSURE_MAX {
        cautions.push(
            "the closed tank's pressure is beyond the equation of state's 500 bar".to_owned(),
        );
    }
    if pressures.meop + pressures.site < pressures.fill {
        cautions.push(format!(
            "MEOP is {}, below the {} the tank has when it is filled",
            show(pressures.meop, Quantity::GaugePressure),
            show(pressures.fill - pressures.site, Quantity::GaugePressure),
        ));
    }
    let relief = stage.point().pressure.relief_setting;
    if side.basis == PressureBasis::Vented && relief + pressures.site < pressures.fill {
        cautions.push(format!(
            "the relief is set to {}, below the {} the tank has when it is filled: it opens at once",
            show(relief, Quantity::GaugePressure),
            show(pressures.fill - pressures.site, Quantity::GaugePressure),
        ));
    }
    let higher = pressures.meop_closed > pressures.meop;
    let meop = show(pressures.meop, Quantity::GaugePressure);
    let otherwise = format!(
        "closed and soaked to {} the tank would reach {}",
        show(warmest, Quantity::Temperature),
        show(pressures.meop_closed, Quantity::GaugePressure),
    );
    let opens = nitrous_oxide::warmed_to(relief + pressures.site, density)
        .map_or(String::new(), |at| {
            format!(" (from {:.1} degC on)", at - 273.15)
        });
    match side.basis {
        PressureBasis::Vented if higher => cautions.push(format!(
            "vented: MEOP is {meop} only while the relief is open{opens} and passes the warm-up; {otherwise}. \
             Show by test that the relief passes it and cannot be blocked, or fill less, keep the tank \
             cooler, or take the closed basis; what the relief lets out is not taken from the load"
        )),
        PressureBasis::Vented => cautions.push(format!(
            "vented: MEOP is {meop}; even {otherwise}, no more. Any warmer, it holds only while the \
             relief is open and passes the warm-up; what it lets out is not taken from the load"
        )),
        PressureBasis::Stated if higher => cautions.push(format!(
            "MEOP is stated as {meop}, yet {otherwise}"
        )),
        PressureBasis::Stated | PressureBasis::Closed => {}
    }
}

/// Distance, K, below which a closed tank that is not yet full of liquid is called close to it (own
/// limit: about what a soak temperature is known to).
const CLOSE_TO_FULL: f64 = 3.0;

/// What becomes of liquid and vapour in the closed tank at its warmest.
fn closed(warmest: f64, density: f64) -> Option<String> {
    let at = |temperature: f64| show(temperature, Quantity::Temperature);
    let full = nitrous_oxide::liquid_full_temperature(density);
    // The equation of state's own uncertainty is a tenth of a kelvin here; rounded down.
    let tenths = |temperature: f64| (10.0 * (temperature - 273.15)).floor() / 10.0;
    let climb = full.map_or(String::new(), |full| {
        let slope = nitrous_oxide::pressure_slope(full, density) / 1e5;
        format!(
            "full of liquid from {:.1} degC and climbs {slope:.1} bar per kelvin there",
            tenths(full)
        )
    });
    if warmest >= nitrous_oxide::CRITICAL_TEMPERATURE {
        let before = if full.is_some() {
            format!("closed, the tank is {climb}")
        } else {
            nitrous_oxide::dry_temperature(density).map_or_else(
                || "pressure climbs steeply with temperature and load".to_owned(),
                |dry| {
                    format!(
                        "closed, the tank's last liquid is gone at {:.1} degC",
                        tenths(dry)
                    )
                },
            )
        };
        return Some(format!(
            "at {} nitrous oxide is above its critical temperature of 36.4 degC and has no liquid \
             level; {before} ({density:.0} kg/m3 on average)",
            at(warmest)
        ));
    }
    if density >= nitrous_oxide::saturation(warmest).liquid_density {
        let climb = if full.is_some() {
            climb
        } else {
            "full of liquid".to_owned()
        };
        return Some(format!(
            "closed, the tank is {climb} ({density:.0} kg/m3 on average), and it soaks to {}: fill less \
             or keep it cooler",
            at(warmest)
        ));
    }
    let full = full.filter(|full| full - warmest < CLOSE_TO_FULL)?;
    Some(format!(
        "closed, the tank is {climb}: only {:.1} K above the {} it soaks to (own limit: \
         {CLOSE_TO_FULL} K)",
        full - warmest,
        at(warmest)
    ))
}

/// Departure from the standard temperature, K, beyond which a day is questioned (own limit).
const ODD_OFFSET: f64 = 35.0;
/// Departure from the standard pressure, as a share of it, beyond which it is questioned (own limit;
/// weather moves it by up to about 5 %, from memory, while one reduced to sea level is off by 6 % from
/// a site at 500 m on).
const ODD_PRESSURE: f64 = 0.06;

/// Readings at the site that look like another pressure or another place.
pub(super) fn day(stage: &Stage, cautions: &mut Vec<String>) {
    if stage.form().atmosphere != AtmosphereModel::OffStandardDay {
        return;
    }
    let altitude = stage.point().site.altitude;
    let standard = atmosphere::standard(altitude);
    let read = stage.point().atmosphere.day;
    let offset = read.site_temperature - standard.temperature;
    if offset.abs() > ODD_OFFSET {
        cautions.push(format!(
            "the site's {} is {:.0} K {} than the standard atmosphere at {}; the whole air column is \
             taken to be so (own limit: {ODD_OFFSET} K)",
            show(read.site_temperature, Quantity::Temperature),
            offset.abs(),
            if offset > 0.0 { "warmer" } else { "colder" },
            show(altitude, Quantity::Altitude),
        ));
    }
    if let Some(side) = &stage.form().tank {
        let soak = stage.point().pressure.soak_temperature;
        if read.site_temperature > soak && side.basis != PressureBasis::Stated {
            cautions.push(format!(
                "the air at the site has {}, the tank is taken to soak to no more than {}: a closed tank \
                 left in that air grows warmer, and its pressure with it",
                show(read.site_temperature, Quantity::Temperature),
                show(soak, Quantity::Temperature),
            ));
        }
    }
    let excess = read.site_pressure / standard.pressure - 1.0;
    if excess.abs() > ODD_PRESSURE {
        cautions.push(format!(
            "the site's pressure of {} is {:.1} % {} the {} of the standard atmosphere at {}: is this \
             the station pressure, not the one reduced to sea level? (own limit: {:.0} %)",
            show(read.site_pressure, Quantity::AbsolutePressure),
            100.0 * excess.abs(),
            if excess > 0.0 { "above" } else { "below" },
            show(standard.pressure, Quantity::AbsolutePressure),
            show(altitude, Quantity::Altitude),
            100.0 * ODD_PRESSURE,
        ));
    }
}
