//! Loads on the tank in flight: liquid head and thrust.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::quantity::Quantity as Q;

const HEAD: &str = "fluid head of the contents under quasi-steady acceleration (SMC-S-016, 2014, clause 3.24; \
    ECSS-E-ST-32C Rev. 1, note 3)";

/// Writes the sheet; the thrust's compression is found along the flight.
pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) -> Option<(String, String)> {
    match leaf {
        "liquid_column" => liquid_column(sheet),
        "acceleration_head" => acceleration_head(sheet),
        "aft_pressure" => {
            sheet.result("meop", "pressures.meop");
            sheet.result("head", "flight_loads.acceleration_head");
            sheet.end("meop + head", DEFINITION);
        }
        "proof_with_head" => {
            sheet.result("aft_pressure", "flight_loads.aft_pressure");
            sheet.input("proof_factor", "rule_set.proof_factor");
            sheet.end("proof_factor * aft_pressure", DEFINITION);
        }
        "slack_pressure" => {
            sheet.result("compression", "flight_loads.thrust_compression");
            sheet.result("inner_diameter", "geometry.liner_inner_diameter");
            sheet.end(
                "compression / (pi / 4 * inner_diameter ** 2)",
                "equilibrium: pressure on the bore against the force",
            );
        }
        _ => return compression(sheet),
    }
    None
}

impl Sheet<'_> {
    /// Inside length of the tank, with the closures' depths.
    fn inside(&mut self) {
        let Some((form, _)) = self.tank() else { return };
        self.dome(&form, "fore");
        self.dome(&form, "aft");
        self.result("cylinder_length", "geometry.cylinder_length");
        self.step(
            "inside_length",
            "cylinder_length + fore_depth + aft_depth",
            Q::Length,
            "inside length of the tank",
            GEOMETRY,
        );
    }
}

fn liquid_column(sheet: &mut Sheet<'_>) {
    sheet.inside();
    sheet.result("tank_volume", "geometry.tank_volume");
    sheet.result("ullage", "load.ullage");
    let level = sheet.step(
        "level",
        "(tank_volume * (1 - ullage) - aft_volume) / (pi / 4 * inner_diameter ** 2)",
        Q::Length,
        "height of the liquid in the cylinder, were it long enough",
        GEOMETRY,
    );
    let source = "exact while the level stands in the cylinder; above it the inside length, within the aft \
        closure its depth";
    if sheet.outcome.geometry.cylinder_length < level {
        sheet.end("inside_length", source);
    } else {
        sheet.end("max(level, 0) + aft_depth", source);
    }
}

fn acceleration_head(sheet: &mut Sheet<'_>) {
    sheet.inside();
    sheet.saturated();
    sheet.result("liquid_column", "flight_loads.liquid_column");
    sheet.result("fill_density", "load.fill_density");
    sheet.result("acceleration", "ascent.max_axial_acceleration");
    let per_area = super::Unit::Si("kg/m2");
    sheet.step(
        "as_filled",
        "liquid_density * liquid_column + vapour_density * (inside_length - liquid_column)",
        per_area,
        "contents over area as filled: liquid under vapour",
        HEAD,
    );
    sheet.step(
        "soaked",
        "fill_density * inside_length",
        per_area,
        "contents over area of a tank soaked full of liquid",
        HEAD,
    );
    sheet.end("max(as_filled, soaked) * acceleration", HEAD);
}

fn compression(sheet: &mut Sheet<'_>) -> Option<(String, String)> {
    if sheet.form.skin_over_tank() {
        sheet.end("0", "a skin over the tank carries the thrust past it");
        return None;
    }
    sheet.result("mean_thrust", "thrust.mean");
    sheet.result("lift_off", "mass.lift_off");
    sheet.result("burnout", "mass.burnout");
    sheet.result("acceleration", "ascent.max_axial_acceleration");
    let ahead = sheet.flight.mass_ahead;
    sheet.term(
        "mass_ahead",
        Q::Mass,
        "structure ahead of the tank's aft end",
        "lines of the mass statement ahead of the motor section",
        ahead,
    );
    let text = "Largest value along the flight of N = T - (m - mass_ahead) * (T - D) / m, with thrust T, drag \
        D and mass m of the moment, all of the drag taken as acting ahead of the tank's aft end.";
    Some((
        text.to_owned(),
        "Newton's second law of the part ahead of the section".to_owned(),
    ))
}
