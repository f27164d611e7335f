//! Lengths and areas of the body.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::airframe::{BayRule, NoseShape};
use crate::quantity::Quantity as Q;

impl Sheet<'_> {
    /// Diameter of nose, bays and tank section.
    pub(super) fn body_diameter(&mut self) {
        self.result("body_diameter", "airframe.diameter");
    }

    /// Lengths of both bays.
    pub(super) fn bays(&mut self) {
        let by_length = self
            .form
            .body()
            .is_some_and(|body| body.bay_rule == BayRule::Length);
        if by_length {
            for bay in ["payload", "recovery"] {
                self.input(&format!("{bay}_length"), &format!("{bay}_bay.length"));
            }
            return;
        }
        self.body_diameter();
        self.input("skin_thickness", "skin.thickness");
        self.step(
            "room",
            "pi / 4 * (body_diameter - 2 * skin_thickness) ** 2",
            Q::Area,
            "cross-section inside the skin of a bay",
            GEOMETRY,
        );
        for bay in ["payload", "recovery"] {
            self.input(&format!("{bay}_volume"), &format!("{bay}_bay.volume"));
            self.step(
                &format!("{bay}_length"),
                format!("{bay}_volume / room"),
                Q::Length,
                &format!("length of the {bay} bay"),
                GEOMETRY,
            );
        }
    }

    /// Overall length.
    pub(super) fn overall_length(&mut self) {
        self.result("nose_length", "geometry.nose_length");
        self.bays();
        self.result("tank_length", "geometry.tank_length");
        self.input("motor_length", "motor.length");
    }

    /// Wetted area of the nose.
    pub(super) fn nose_area(&mut self) {
        self.body_diameter();
        self.result("nose_length", "geometry.nose_length");
        let (formula, source) = match self.form.body().map(|body| body.nose) {
            Some(NoseShape::VonKarman) => (
                "0.6512189 * pi * body_diameter * nose_length",
                "mean of von Karman's radius law, slope neglected",
            ),
            _ => (
                "pi * body_diameter / 2 * sqrt((body_diameter / 2) ** 2 + nose_length ** 2)",
                GEOMETRY,
            ),
        };
        self.step(
            "nose_area",
            formula,
            Q::Area,
            "wetted area of the nose",
            source,
        );
        if let Some(body) = &self.settled.vehicle.body {
            self.as_computed(body.nose_area);
        }
    }

    /// Largest diameter.
    fn largest_diameter(&mut self) {
        self.body_diameter();
        self.input("case_diameter", "motor.case_diameter");
        self.input("exit_area", "motor.exit_area");
    }

    /// Number of fins.
    pub(super) fn fin_count(&self) -> usize {
        self.form.body().map_or(0, |body| body.fins.count)
    }

    /// Tip chord, span, mean chord and area of a fin.
    pub(super) fn fin(&mut self) {
        self.result("root_chord", "geometry.fin_root_chord");
        self.input("taper_ratio", "fins.taper_ratio");
        self.result("span", "geometry.fin_span");
        self.step(
            "tip_chord",
            "root_chord * taper_ratio",
            Q::Length,
            "tip chord of a fin",
            DEFINITION,
        );
        self.step(
            "mean_chord",
            "(root_chord + tip_chord) / 2",
            Q::Length,
            "mean chord of a fin",
            GEOMETRY,
        );
        self.step(
            "fin_area",
            "mean_chord * span",
            Q::Area,
            "one side of one fin",
            GEOMETRY,
        );
        let area = self.settled.vehicle.fin.area;
        self.as_computed(area);
        let count = self.fin_count() as f64;
        self.term(
            "fin_count",
            Q::Ratio,
            "number of fins",
            "given (fins.count)",
            count,
        );
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    match leaf {
        "length" => {
            sheet.overall_length();
            sheet.end(
                "nose_length + payload_length + recovery_length + tank_length + motor_length",
                GEOMETRY,
            );
        }
        "diameter" => {
            sheet.result("tank_diameter", "geometry.tank_outer_diameter");
            if sheet.form.skin_over_tank() {
                sheet.input("gap", "skin.gap");
                sheet.input("skin_thickness", "skin.thickness");
                sheet.end("tank_diameter + 2 * (gap + skin_thickness)", GEOMETRY);
            } else {
                sheet.end("tank_diameter", GEOMETRY);
            }
        }
        "frontal_diameter" => {
            sheet.largest_diameter();
            sheet.end(
                "max(body_diameter, case_diameter, sqrt(4 / pi * exit_area))",
                "largest diameter anywhere",
            );
        }
        "frontal_area" if sheet.form.body().is_some() => {
            sheet.result("frontal_diameter", "airframe.frontal_diameter");
            sheet.end("pi / 4 * frontal_diameter ** 2", GEOMETRY);
        }
        "frontal_area" => {
            sheet.input("reference_diameter", "drag.reference_diameter");
            sheet.end("pi / 4 * reference_diameter ** 2", GEOMETRY);
        }
        "wetted_area" => {
            sheet.nose_area();
            sheet.overall_length();
            sheet.result("frontal_diameter", "airframe.frontal_diameter");
            let mut sum = "nose_area + pi * body_diameter * (payload_length + recovery_length + tank_length) \
                + pi * frontal_diameter * motor_length"
                .to_owned();
            if sheet.fin_count() > 0 {
                sheet.fin();
                sum += " + 2 * fin_count * fin_area";
            }
            sheet.end(sum, GEOMETRY);
        }
        "fineness_ratio" => {
            sheet.result("length", "airframe.length");
            sheet.body_diameter();
            sheet.end("length / body_diameter", DEFINITION);
        }
        "centre_of_pressure" => {
            sheet.centre_of_pressure();
        }
        "static_margin" => sheet.static_margin(leaf, "mass.centre_of_gravity"),
        _ => sheet.static_margin(leaf, "mass.burnout_centre_of_gravity"),
    }
}
