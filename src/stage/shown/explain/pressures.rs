//! Pressures: of the site, of the fill, MEOP on each basis, proof and burst.

use super::sheet::{DEFINITION, Sheet};
use crate::fluid::nitrous_oxide::{CRITICAL_TEMPERATURE, closed_pressure, saturation};
use crate::quantity::Quantity as Q;
use crate::stage::chain::form::{AtmosphereModel, PressureBasis};
use crate::vessel::rule_set::BurstBasis;

const STATE: &str = "Lemmon and Span 2006, equation of state";
const FACTOR: &str = "factor of the rule set on MEOP";

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    match leaf {
        "site" => site(sheet),
        "fill" => {
            sheet.input("fill_temperature", "propellant.fill_temperature");
            sheet.end("n2o_saturation_pressure(fill_temperature)", STATE);
        }
        "meop_stated" => {
            sheet.input("stated", "pressure.stated");
            sheet.end("stated", DEFINITION);
        }
        "meop_vented" => {
            vented(sheet);
            sheet.end("relief_setting * (1 + relief_accumulation)", DEFINITION);
        }
        "meop_closed" => {
            closed(sheet);
            sheet.end(
                "closed_pressure - site_pressure",
                "gauge pressure: absolute less ambient",
            );
        }
        "meop" => meop(sheet),
        "proof" => {
            sheet.result("meop", "pressures.meop");
            sheet.input("proof_factor", "rule_set.proof_factor");
            sheet.end("proof_factor * meop", FACTOR);
        }
        _ => {
            sheet.result("meop", "pressures.meop");
            let factor = burst_factor(sheet);
            sheet.end(format!("{factor} * meop"), FACTOR);
        }
    }
}

/// What the rule set counts the burst pressure by, over MEOP, as a formula.
pub(super) fn burst_factor(sheet: &mut Sheet<'_>) -> &'static str {
    let basis = sheet.form.tank.as_ref().map(|side| side.burst_basis);
    if basis == Some(BurstBasis::Proof) {
        sheet.input("proof_factor", "rule_set.proof_factor");
        sheet.input("burst_ratio", "rule_set.burst_ratio");
        "proof_factor * burst_ratio"
    } else {
        sheet.input("burst_factor", "rule_set.burst_factor");
        "burst_factor"
    }
}

fn site(sheet: &mut Sheet<'_>) {
    match sheet.form.atmosphere {
        AtmosphereModel::Standard => {
            sheet.input("site_altitude", "site.altitude");
            sheet.end(
                "air_pressure(site_altitude)",
                "U.S. Standard Atmosphere 1976",
            );
        }
        AtmosphereModel::OffStandardDay => {
            sheet.input("site_pressure", "atmosphere.site_pressure");
            sheet.end("site_pressure", "station pressure as read");
        }
        AtmosphereModel::Exponential => {
            sheet.input("site_altitude", "site.altitude");
            sheet.input("surface_pressure", "atmosphere.surface_pressure");
            sheet.input("pressure_scale_height", "atmosphere.pressure_scale_height");
            sheet.end(
                "surface_pressure * exp(-site_altitude / pressure_scale_height)",
                "exponential atmosphere of textbook cases",
            );
        }
    }
}

fn vented(sheet: &mut Sheet<'_>) {
    sheet.input("relief_setting", "pressure.relief_setting");
    sheet.input("relief_accumulation", "pressure.relief_accumulation");
}

/// Absolute pressure of the closed tank at the soak temperature: at constant mean density.
fn closed(sheet: &mut Sheet<'_>) {
    sheet.fill_density();
    sheet.input("soak_temperature", "pressure.soak_temperature");
    let soak = sheet.step(
        "warmest",
        "max(soak_temperature, fill_temperature)",
        Q::Temperature,
        "warmer of soak and fill temperature",
        DEFINITION,
    );
    sheet.result("site_pressure", "pressures.site");
    let density = sheet.outcome.load.fill_density;
    let saturated = saturation(soak);
    let shared = soak < CRITICAL_TEMPERATURE
        && saturated.vapour_density < density
        && density < saturated.liquid_density;
    let (formula, doc) = if shared {
        (
            "n2o_saturation_pressure(warmest)",
            "absolute pressure while liquid and vapour still share the tank",
        )
    } else {
        (
            "n2o_pressure(warmest, fill_density)",
            "absolute pressure of the one phase that fills the tank, at constant mean density (isochore)",
        )
    };
    sheet.step("closed_pressure", formula, Q::AbsolutePressure, doc, STATE);
    sheet.as_computed(closed_pressure(soak, density));
}

fn meop(sheet: &mut Sheet<'_>) {
    match sheet.form.tank.as_ref().map(|side| side.basis) {
        Some(PressureBasis::Stated) => {
            let reason = sheet.stage.labels().reason.clone();
            sheet.input("stated", "pressure.stated");
            sheet.end("stated", &format!("stated by the user: \"{reason}\""));
        }
        Some(PressureBasis::Vented) => {
            vented(sheet);
            sheet.end(
                "relief_setting * (1 + relief_accumulation)",
                "basis vented: the relief is open, its setting plus accumulation",
            );
        }
        _ => {
            closed(sheet);
            sheet.end(
                "closed_pressure - site_pressure",
                "basis closed: gauge pressure of the closed tank at the soak temperature",
            );
        }
    }
}
