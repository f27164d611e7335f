//! Propellant on board: liquid and saturated vapour share the tank at the fill temperature.

use super::sheet::{DEFINITION, Sheet};
use crate::quantity::Quantity as Q;
use crate::stage::chain::form::LoadRule;

const MIXTURE: &str = "liquid and saturated vapour in one volume (conservation of mass and volume)";
const SATURATION: &str = "Lemmon and Span 2006, saturation";

impl Sheet<'_> {
    /// Densities of liquid and vapour at the fill temperature.
    pub(super) fn saturated(&mut self) {
        self.input("fill_temperature", "propellant.fill_temperature");
        self.step(
            "liquid_density",
            "n2o_liquid_density(fill_temperature)",
            Q::Density,
            "density of the liquid at the fill temperature",
            SATURATION,
        );
        self.step(
            "vapour_density",
            "n2o_vapour_density(fill_temperature)",
            Q::Density,
            "density of the vapour at the fill temperature",
            SATURATION,
        );
    }

    /// Ullage, given or by the load's mass; gives its symbol.
    pub(super) fn ullage(&mut self) {
        if self.rule() == Some(LoadRule::Ullage) {
            self.input("ullage", "propellant.ullage");
            return;
        }
        self.fill_density();
        self.step(
            "ullage",
            "(liquid_density - fill_density) / (liquid_density - vapour_density)",
            Q::Share,
            "vapour's share of the tank's volume at the fill temperature",
            MIXTURE,
        );
        self.as_computed(self.outcome.load.ullage);
    }

    /// Oxidiser over tank volume.
    pub(super) fn fill_density(&mut self) {
        self.saturated();
        if self.rule() == Some(LoadRule::Ullage) {
            self.ullage();
            self.step(
                "fill_density",
                "liquid_density + (vapour_density - liquid_density) * ullage",
                Q::Density,
                "oxidiser over tank volume",
                MIXTURE,
            );
        } else {
            self.input("oxidiser_mass", "propellant.oxidiser_mass");
            self.result("tank_volume", "geometry.tank_volume");
            self.step(
                "fill_density",
                "oxidiser_mass / tank_volume",
                Q::Density,
                "oxidiser over tank volume",
                DEFINITION,
            );
        }
        self.as_computed(self.outcome.load.fill_density);
    }

    fn rule(&self) -> Option<LoadRule> {
        self.form.tank.as_ref().map(|side| side.load)
    }

    /// Oxidiser burned.
    fn oxidiser_burned(&mut self) {
        self.result("oxidiser", "load.oxidiser");
        self.input("oxidiser_residual_share", "propellant.oxidiser_residual");
        self.step(
            "oxidiser_burned",
            "oxidiser * (1 - oxidiser_residual_share)",
            Q::Mass,
            "oxidiser burned",
            DEFINITION,
        );
    }

    /// Fuel burned.
    fn fuel_burned(&mut self) {
        self.oxidiser_burned();
        self.input(
            "oxidiser_to_fuel_ratio",
            "propellant.oxidiser_to_fuel_ratio",
        );
        self.step(
            "fuel_burned",
            "oxidiser_burned / oxidiser_to_fuel_ratio",
            Q::Mass,
            "fuel burned",
            DEFINITION,
        );
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    if sheet.form.tank.is_none() {
        return stated(sheet, leaf);
    }
    match leaf {
        "oxidiser" if sheet.rule() == Some(LoadRule::Mass) => {
            sheet.input("oxidiser_mass", "propellant.oxidiser_mass");
            sheet.end("oxidiser_mass", DEFINITION);
        }
        "oxidiser" => {
            sheet.saturated();
            sheet.input("ullage", "propellant.ullage");
            sheet.result("tank_volume", "geometry.tank_volume");
            sheet.end(
                "tank_volume * ((1 - ullage) * liquid_density + ullage * vapour_density)",
                MIXTURE,
            );
        }
        "vapour" => {
            sheet.saturated();
            sheet.ullage();
            sheet.result("tank_volume", "geometry.tank_volume");
            sheet.end("tank_volume * vapour_density * ullage", MIXTURE);
        }
        "ullage" if sheet.rule() == Some(LoadRule::Ullage) => {
            sheet.input("stated_ullage", "propellant.ullage");
            sheet.end("stated_ullage", DEFINITION);
        }
        "ullage" => sheet.ullage(),
        "fill_density" => sheet.fill_density(),
        "fuel" => {
            sheet.fuel_burned();
            sheet.input("fuel_residual_share", "propellant.fuel_residual");
            sheet.end("fuel_burned / (1 - fuel_residual_share)", DEFINITION);
        }
        "propellant" => {
            sheet.result("oxidiser", "load.oxidiser");
            sheet.result("fuel", "load.fuel");
            sheet.end("oxidiser + fuel", DEFINITION);
        }
        "burned" => {
            sheet.fuel_burned();
            sheet.end("oxidiser_burned + fuel_burned", DEFINITION);
        }
        "oxidiser_residual" => {
            sheet.oxidiser_burned();
            sheet.end("oxidiser - oxidiser_burned", DEFINITION);
        }
        "fuel_residual" => {
            sheet.fuel_burned();
            sheet.result("fuel", "load.fuel");
            sheet.end("fuel - fuel_burned", DEFINITION);
        }
        _ => {
            sheet.result("propellant", "load.propellant");
            sheet.result("burned", "load.burned");
            sheet.end("propellant - burned", DEFINITION);
        }
    }
}

/// A stated mass of propellant.
fn stated(sheet: &mut Sheet<'_>, leaf: &str) {
    sheet.input("stated_mass", "propellant.mass");
    if leaf == "propellant" {
        return sheet.end("stated_mass", DEFINITION);
    }
    sheet.input("residual_share", "propellant.residual");
    let formula = match leaf {
        "burned" => "stated_mass - stated_mass * residual_share",
        _ => "stated_mass * residual_share",
    };
    sheet.end(formula, DEFINITION);
}
