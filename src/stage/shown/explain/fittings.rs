//! Margins of attachment fittings: of the fitting and the case that govern each.

use super::Unit;
use super::margins::MARGIN;
use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::quantity::Quantity as Q;
use crate::stage::shown::fittings::{Judged, PROOF, growth_pressure, judged};
use crate::vessel::fitting::{Bond, Clamp};

const LAG: &str = "shear lag: the pad's line load changes by the glue's shear, the glue's shear by the difference of \
    strains";
const VOLKERSEN: &str = "O. Volkersen, Luftfahrtforschung 15 (1938), from memory, derived again";
const LINEAR: &str = "equilibrium, pressure under the pad linear";

/// Writes the margin of a leaf `fitting_*` down.
pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let (Some(side), Some(size)) = (sheet.form.tank, sheet.settled.size) else {
        return;
    };
    let share = |judged: &Judged| match leaf {
        "fitting_hold" => judged.shares.sliding.max(judged.shares.lifting),
        "fitting_bond" => judged.shares.bond,
        _ => judged.shares.fastener,
    };
    let all = judged(&side, &sheet.point, &size, sheet.outcome);
    let Some(worst) = all.iter().reduce(|worst, one| {
        if share(one) > share(worst) {
            one
        } else {
            worst
        }
    }) else {
        return;
    };
    let at = format!("tank.fitting[{}]", worst.index);
    for name in ["length", "width", "height", "load_height"] {
        sheet.input(name, &format!("{at}.{name}"));
    }
    if worst.case != PROOF {
        sheet.input("fitting_factor", "tank.fitting_factor");
        sheet.forces(&at, worst.case);
    }
    match leaf {
        "fitting_hold" => {
            let pressure = worst.load.tank_pressure.min(sheet.outcome.pressures.meop);
            let clamp = Clamp::new(&side.tank, &sheet.point.tank, &size, pressure);
            sheet.clamping(clamp.line_load, pressure);
            sheet.input("friction", &format!("{at}.friction_coefficient"));
            sheet.corner_pull();
            let (sliding, lifting) = (worst.shares.sliding, worst.shares.lifting);
            let allowed = if sliding > lifting {
                "2 * friction * clamping_force / (fitting_factor * (shear + friction * radial_force)) - 1"
            } else {
                "clamping_force / (fitting_factor * corner_pull) - 1"
            };
            sheet.end(allowed, MARGIN);
        }
        "fitting_bond" => {
            let bond = Bond::new(
                &side.tank,
                &sheet.point.tank,
                &size,
                sheet.outcome.pressures.proof,
            );
            let pressure = growth_pressure(worst, sheet.outcome.pressures.meop);
            sheet.bond(&at, &bond, pressure, worst);
        }
        _ => sheet.fasteners(&at),
    }
}

impl Sheet<'_> {
    /// Forces of a case: `axial_force`, `tangential_force`, `radial_force`, and `shear` of the first two.
    fn forces(&mut self, at: &str, case: &str) {
        let input = |sheet: &mut Self, symbol: &str, name: &str| {
            sheet.input(symbol, &format!("{at}.{case}.{name}"));
        };
        input(self, "tangential_force", "tangential_force");
        input(self, "radial_force", "radial_force");
        input(self, "stated_axial_force", "axial_force");
        let axial = match case {
            "thrust" => {
                input(self, "carried_mass", "carried_mass");
                self.result("acceleration", "ascent.max_axial_acceleration");
                "stated_axial_force + carried_mass * max(acceleration, -acceleration)"
            }
            "drag" => {
                input(self, "drag_area", "drag_area");
                self.result("dynamic_pressure", "ascent.max_dynamic_pressure");
                "stated_axial_force + drag_area * dynamic_pressure"
            }
            _ => "stated_axial_force",
        };
        let doc = format!("force along the vessel, case {case}");
        self.step("axial_force", axial, Q::Force, &doc, DEFINITION);
        self.step(
            "shear",
            "sqrt(axial_force ** 2 + tangential_force ** 2)",
            Q::Force,
            "force along the shell",
            GEOMETRY,
        );
    }

    /// Pull at the pad's corner.
    fn corner_pull(&mut self) {
        self.step(
            "corner_pull",
            "radial_force + 6 * (load_height + height) * (axial_force / length + tangential_force / width)",
            Q::Force,
            "pull over the whole pad that gives its corner what pull and moments give it",
            LINEAR,
        );
    }

    fn clamping(&mut self, line_load: f64, pressure: f64) {
        let doc = format!(
            "hoop line load of the hoop plies at {}",
            crate::quantity::show(pressure, Q::GaugePressure)
        );
        self.term(
            "wrap_load",
            Q::LineLoad,
            &doc,
            "common strain of liner and fibres from the winding stress on, elastic, the lesser of minimum and nominal \
             wall, after the cool-down if [tank.service.cool_down] is given; slack plies carry nothing",
            line_load,
        );
        self.result("liner_outer_diameter", "geometry.liner_outer_diameter");
        self.step(
            "radius",
            "liner_outer_diameter / 2",
            Q::Length,
            "radius of the shell below the pad",
            GEOMETRY,
        );
        self.step(
            "clamp_angle",
            "min(width / (2 * radius) + atan(sqrt(height * (2 * radius + height)) / radius), pi / 2)",
            Q::Angle,
            "angle from the pad's middle to where the wrap leaves the shell",
            "geometry: the tangent from the pad's edge",
        );
        self.step(
            "clamping_force",
            "2 * wrap_load * length * sin(clamp_angle)",
            Q::Force,
            "force of the wrap on the pad",
            "equilibrium of pad and wrap cut where the wrap leaves the shell",
        );
    }

    fn fasteners(&mut self, at: &str) {
        for name in [
            "fasteners",
            "fastener_area",
            "fastener_shear_strength",
            "fastener_tensile_strength",
            "fastener_lever",
        ] {
            self.input(name, &format!("{at}.{name}"));
        }
        self.step(
            "cut",
            "shear / (fasteners * fastener_area * fastener_shear_strength)",
            Q::Share,
            "share of the shear strength",
            DEFINITION,
        );
        self.step(
            "tension",
            "radial_force / fasteners + shear * load_height / fastener_lever",
            Q::Force,
            "tension of the worst fastener, which takes the moment alone",
            "equilibrium",
        );
        self.step(
            "torn",
            "tension / (fastener_area * fastener_tensile_strength)",
            Q::Share,
            "share of the tensile strength",
            DEFINITION,
        );
        self.end(
            "1 / (fitting_factor * max(cut + torn / 1.4, torn)) - 1",
            "EN 1993-1-8:2005, table 3.4, combined shear and tension",
        );
    }

    fn bond(&mut self, at: &str, bond: &Bond<f64>, pressure: f64, worst: &Judged) {
        for name in [
            "elastic_modulus",
            "poisson_ratio",
            "glue_thickness",
            "glue_shear_modulus",
            "bond_shear_strength",
        ] {
            self.input(name, &format!("{at}.{name}"));
        }
        self.step(
            "pad_stiffness",
            "elastic_modulus * height / (1 - poisson_ratio ** 2)",
            Q::LineLoad,
            "stiffness of the pad as a plate",
            DEFINITION,
        );
        self.step(
            "glue_stiffness",
            "glue_shear_modulus / glue_thickness",
            Unit::Si("Pa/m"),
            "shear stress of the glue per displacement",
            DEFINITION,
        );
        let strain = bond.strain(pressure);
        let shown = crate::quantity::show(pressure, Q::GaugePressure);
        for (name, value) in ["axial", "hoop"].into_iter().zip(strain) {
            self.term(
                &format!("{name}_strain"),
                Q::Ratio,
                &format!("{name} strain of the wall at {shown} since the pad was glued on"),
                "common strain of liner and fibres, elastic, and what has flowed in the proof test",
                value,
            );
        }
        let loaded = worst.case != PROOF;
        for (name, other, size, force, across, wall) in [
            (
                "axial",
                "hoop",
                "length",
                "axial_force",
                "width",
                bond.wall[0],
            ),
            (
                "hoop",
                "axial",
                "width",
                "tangential_force",
                "length",
                bond.wall[1],
            ),
        ] {
            self.step(
                &format!("{name}_mismatch"),
                format!(
                    "max({name}_strain + poisson_ratio * {other}_strain, -({name}_strain + poisson_ratio * \
                     {other}_strain))"
                ),
                Q::Ratio,
                "strain that the pad lacks, a plate that follows in the other direction",
                DEFINITION,
            );
            self.step(
                &format!("{name}_growth"),
                format!(
                    "{name}_mismatch * sqrt(pad_stiffness * glue_stiffness) * tanh(sqrt(glue_stiffness / \
                     pad_stiffness) * {size} / 2)"
                ),
                Q::Stress,
                "peak shear of the wall's growth",
                LAG,
            );
            if loaded {
                self.transfer(name, size, force, across, wall);
            }
        }
        if !loaded {
            self.end(
                "bond_shear_strength / sqrt(axial_growth ** 2 + hoop_growth ** 2) - 1",
                MARGIN,
            );
            return;
        }
        self.input("bond_peel_strength", &format!("{at}.bond_peel_strength"));
        self.corner_pull();
        self.step(
            "peak_shear",
            "sqrt((axial_growth + axial_transfer) ** 2 + (hoop_growth + hoop_transfer) ** 2)",
            Q::Stress,
            "peak shear at the corner",
            "sum of the worst ends",
        );
        self.end(
            "1 / (fitting_factor * (peak_shear / bond_shear_strength + corner_pull / (length * width) / \
             bond_peel_strength)) - 1",
            "shares of shear and of pull summed (own choice)",
        );
    }

    /// Peak shear of a force in one direction.
    fn transfer(&mut self, name: &str, size: &str, force: &str, across: &str, wall: f64) {
        let wall_stiffness = format!("{name}_wall_stiffness");
        self.term(
            &wall_stiffness,
            Q::LineLoad,
            "stiffness of liner and fibres in that direction",
            "common strain, the other direction held",
            wall,
        );
        self.step(
            &format!("{name}_lap"),
            format!(
                "sqrt(glue_stiffness * (1 / pad_stiffness + 1 / {wall_stiffness})) * {size} / 2"
            ),
            Q::Ratio,
            "half the pad's size over the length in which shear fades, wall as wide as the pad",
            VOLKERSEN,
        );
        self.step(
            &format!("{name}_rigid_lap"),
            format!("sqrt(glue_stiffness / pad_stiffness) * {size} / 2"),
            Q::Ratio,
            "the same on a wall that does not give way",
            VOLKERSEN,
        );
        let unlike = format!(
            "max({wall_stiffness} - pad_stiffness, pad_stiffness - {wall_stiffness}) / ({wall_stiffness} + \
             pad_stiffness)"
        );
        self.step(
            &format!("{name}_transfer"),
            format!(
                "{force} / ({across} * {size}) * max({name}_lap * (1 / tanh({name}_lap) + {unlike} * \
                 tanh({name}_lap)), {name}_rigid_lap * (1 / tanh({name}_rigid_lap) + tanh({name}_rigid_lap)))"
            ),
            Q::Stress,
            "peak shear of the force",
            VOLKERSEN,
        );
    }
}
