//! Centre of pressure and static margin.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::airframe::NoseShape;
use crate::quantity::Quantity as Q;

pub(super) const BARROWMAN: &str = "J. S. and J. A. Barrowman, \"The Theoretical Prediction of the Center of Pressure\", \
    NARAM-8, 1966, equations 29, 32, 58, 76a, 77";

impl Sheet<'_> {
    /// Station of the centre of pressure.
    pub(super) fn centre_of_pressure(&mut self) {
        let symbol = "centre_of_pressure";
        let doc = "station of the centre of pressure, from the nose tip";
        self.result("nose_length", "geometry.nose_length");
        let nose = match self.form.body().map(|body| body.nose) {
            Some(NoseShape::VonKarman) => "nose_length / 2",
            _ => "nose_length * 2 / 3",
        };
        self.step(
            "nose_pressure_station",
            nose,
            Q::Length,
            "centre of pressure of the nose",
            BARROWMAN,
        );
        if self.fin_count() == 0 {
            self.step(symbol, "nose_pressure_station", Q::Length, doc, DEFINITION);
        } else {
            self.fin_force();
            self.step(
                symbol,
                "(2 * nose_pressure_station + fin_force * fin_pressure_station) / (fin_force + 2)",
                Q::Length,
                doc,
                BARROWMAN,
            );
        }
        self.as_computed(self.outcome.airframe.centre_of_pressure);
    }

    /// Normal force of the fins and where it acts.
    fn fin_force(&mut self) {
        self.fin();
        self.body_diameter();
        self.input("sweep_ratio", "fins.sweep_ratio");
        self.step(
            "sweep",
            "root_chord * sweep_ratio",
            Q::Length,
            "tip's leading edge behind the root's",
            DEFINITION,
        );
        self.step(
            "mid_chord_line",
            "sqrt(span ** 2 + (sweep + (tip_chord - root_chord) / 2) ** 2)",
            Q::Length,
            "length of a fin's mid-chord line",
            GEOMETRY,
        );
        self.step(
            "fin_force",
            "(1 + body_diameter / 2 / (span + body_diameter / 2)) * 4 * fin_count * (span / body_diameter) ** 2 \
             / (1 + sqrt(1 + (2 * mid_chord_line / (root_chord + tip_chord)) ** 2))",
            Q::Ratio,
            "slope of the fins' normal-force coefficient, per radian, with the body between them",
            BARROWMAN,
        );
        self.result("length", "airframe.length");
        self.step(
            "fin_pressure_station",
            "length - root_chord + sweep / 3 * (root_chord + 2 * tip_chord) / (root_chord + tip_chord) \
             + (root_chord + tip_chord - root_chord * tip_chord / (root_chord + tip_chord)) / 6",
            Q::Length,
            "station of the fins' centre of pressure",
            BARROWMAN,
        );
    }

    /// Static margin about a centre of gravity, under a symbol of one's own.
    pub(super) fn static_margin(&mut self, symbol: &str, centre_of_gravity: &str) {
        self.centre_of_pressure();
        self.body_diameter();
        self.result("centre_of_gravity", centre_of_gravity);
        let formula = "(centre_of_pressure - centre_of_gravity) / body_diameter";
        let doc = "distance from centre of gravity to centre of pressure, in body diameters";
        self.step(symbol, formula, Q::Ratio, doc, DEFINITION);
        let airframe = &self.outcome.airframe;
        self.as_computed(match symbol {
            "static_margin" => airframe.static_margin,
            _ => airframe.burnout_static_margin,
        });
    }
}
