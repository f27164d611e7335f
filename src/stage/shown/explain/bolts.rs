//! A bulkhead held by bolts: stresses of the row, gap at the seal, masses.

use super::margins::{MARGIN, burst_aft, flight_pressure, relieved_pull};
use super::seams::Strength;
use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use super::wall::HALF_RING;
use crate::quantity::Quantity as Q;
use crate::vessel::{TankForm, bolt_force, bolt_mass, row_stress, tube_length, wall_growth};

const SHARE: &str = "equilibrium: the pressure on the bore, shared evenly";
const UNEVEN: &str = "14 CFR 25.625, of fittings not proven by test: at least 1.15";
const MEAN: &str = "mean stress: force over area";

/// What of a bolted bulkhead is judged: names of its margins behind the side, without the load case.
const JUDGED: [&str; 5] = [
    "bolt_shear",
    "bearing",
    "shear_out",
    "net_section",
    "seal_gap",
];

/// Whether a margin is that of a bolted bulkhead.
pub(super) fn is_of_row(leaf: &str) -> bool {
    JUDGED.iter().any(|name| leaf.contains(name))
}

pub(super) fn write(sheet: &mut Sheet<'_>, form: &TankForm, leaf: &str) {
    let (side, burst) = match leaf.split_once('_') {
        Some(("fore", rest)) => ("fore", rest.ends_with("burst")),
        _ => ("aft", leaf.ends_with("burst")),
    };
    let judged = JUDGED.into_iter().find(|name| leaf.contains(name));
    let stress = judged.unwrap_or_default();
    if stress == "seal_gap" {
        sheet.seal_gap(form, side);
        return;
    }
    let pressure = sheet.row_pressure(side, !burst);
    sheet.row(side, pressure);
    let strength = match (stress, burst) {
        ("net_section", true) => sheet.parent(Strength::Ultimate),
        ("net_section", false) => sheet.parent(Strength::Yield),
        (_, _) => {
            let name = match (stress, burst) {
                ("bolt_shear", _) => "shear_strength",
                ("shear_out", _) => "wall_shear_strength",
                (_, true) => "bearing_ultimate_strength",
                (_, false) => "bearing_yield_strength",
            };
            sheet.input(name, &format!("tank.{side}_closure.bolts.{name}"));
            name.to_owned()
        }
    };
    sheet.end(format!("{strength} / {stress} - 1"), MARGIN);
}

impl Sheet<'_> {
    /// Pressure on a bulkhead that its row is judged at, by symbol and value.
    fn row_pressure(&mut self, side: &str, proof: bool) -> (&'static str, f64) {
        let found = match (side, proof) {
            ("fore", true) => ("proof", self.result("proof", "pressures.proof")),
            ("fore", false) => ("burst", self.result("burst", "pressures.burst")),
            (_, true) => ("flight_pressure", flight_pressure(self).0),
            (_, false) => ("burst_aft", burst_aft(self)),
        };
        if proof && self.point.tank.autofrettage_pressure > found.1 {
            self.autofrettage()
        } else {
            found
        }
    }

    /// The pressure that the row has borne before, by symbol and value.
    fn autofrettage(&mut self) -> (&'static str, f64) {
        let symbol = "autofrettage_pressure";
        (symbol, self.input(symbol, "tank.autofrettage_pressure"))
    }

    /// Load of the worst bolt and the mean stresses that it causes.
    fn row(&mut self, side: &str, (pressure, value): (&str, f64)) {
        for leaf in [
            "count",
            "fitting_factor",
            "shear_area",
            "diameter",
            "edge_distance",
            "hole_diameter",
        ] {
            self.input(leaf, &format!("tank.{side}_closure.bolts.{leaf}"));
        }
        self.radii();
        self.step(
            "even_force",
            format!("{pressure} * pi / 4 * inner_diameter ** 2 / count"),
            Q::Force,
            "load of a bolt if all carry the same",
            SHARE,
        );
        let closure = self.closure_of(side);
        let even = bolt_force(value, self.known["inner_diameter"], closure.bolts.count);
        self.as_computed(even);
        let force = self.step(
            "bolt_force",
            "even_force * fitting_factor",
            Q::Force,
            "load of the worst bolt",
            UNEVEN,
        );
        let walls = ["minimum_wall", "mean_radius"].map(|name| self.known[name]);
        let room = row_stress(force, &closure.bolts, walls);
        for (name, formula, doc, computed) in [
            (
                "bolt_shear",
                "bolt_force / shear_area",
                "shear stress in a bolt, one plane",
                room.bolt_shear,
            ),
            (
                "bearing",
                "bolt_force / (diameter * minimum_wall)",
                "bearing stress on the wall, on the bolt's diameter",
                room.bearing,
            ),
            (
                "shear_out",
                "bolt_force / (2 * (edge_distance - hole_diameter / 2) * minimum_wall)",
                "shear stress along two planes from the hole's edge to the end of the tube",
                room.shear_out,
            ),
            (
                "net_section",
                "bolt_force / ((2 * pi * mean_radius / count - hole_diameter) * minimum_wall)",
                "axial stress in the wall between the holes",
                room.net_section,
            ),
        ] {
            self.step(name, formula, Q::Stress, doc, MEAN);
            self.as_computed(computed);
        }
    }

    /// Gap at the seal under pressure against the largest that it bears.
    fn seal_gap(&mut self, form: &TankForm, side: &str) {
        let Some((_, size)) = self.tank() else { return };
        let tank = self.point.tank;
        let growth = |axial: f64, pressure: f64| wall_growth(form, &tank, &size, axial, pressure);
        let reached = tank.autofrettage_pressure;
        let (unit, _) = size.loads_per_pressure();
        let (pressure, axial) = if side == "fore" {
            let pressure = self.row_pressure(side, true);
            let axial = self.axial_load("axial_load", pressure);
            (pressure, ("axial_load", axial))
        } else {
            let pressure = ("flight_pressure", flight_pressure(self).0);
            let pull = relieved_pull(self);
            if growth(unit * reached, reached) > growth(pull, pressure.1) {
                let pressure = self.autofrettage();
                let axial = self.axial_load("axial_load", pressure);
                (pressure, ("axial_load", axial))
            } else {
                (pressure, ("relieved_pull", pull))
            }
        };
        self.radii();
        let hoop = self.step(
            "hoop_load",
            format!("{} * mean_radius", pressure.0),
            Q::LineLoad,
            "hoop line load of liner and wrap",
            HALF_RING,
        );
        self.membrane(form, "", axial, ("hoop_load", hoop));
        if form.plies == 0 {
            self.input("elastic_modulus", "tank.liner.metal.elastic_modulus");
            self.input("poisson_ratio", "tank.liner.metal.poisson_ratio");
            self.step(
                "hoop_strain",
                "(mean_hoop_stress - poisson_ratio * axial_stress) / elastic_modulus",
                Q::Ratio,
                "hoop strain of the wall",
                "Hooke's law in plane stress",
            );
        }
        self.step(
            "wall_growth",
            "hoop_strain * mean_radius",
            Q::Length,
            "radial growth of the wall, as if the pressure went on beyond the seal; the bulkhead's own growth is \
             left out",
            DEFINITION,
        );
        self.as_computed(growth(axial.1, pressure.1));
        for leaf in ["seal_gap", "largest_seal_gap"] {
            self.input(leaf, &format!("tank.{side}_closure.bolts.{leaf}"));
        }
        self.step(
            "gap",
            "seal_gap + wall_growth",
            Q::Length,
            "radial gap at the seal under pressure",
            DEFINITION,
        );
        self.end("largest_seal_gap / gap - 1", MARGIN);
    }

    /// Volume of a bolted bulkhead's rim beside its plate; gives its symbol.
    pub(super) fn rim_volume(&mut self, side: &str) -> String {
        let [length, thickness, plate] =
            ["rim_length", "rim_thickness", "thickness"].map(|leaf| format!("{side}_{leaf}"));
        let bolts = format!("tank.{side}_closure.bolts");
        self.input(&length, &format!("{bolts}.rim_length"));
        self.input(&thickness, &format!("{bolts}.rim_thickness"));
        let symbol = format!("{side}_rim_volume");
        self.step(
            &symbol,
            format!("pi * (inner_diameter - {thickness}) * {thickness} * ({length} - {plate})"),
            Q::Volume,
            &format!("metal of the {side} rim beside the plate"),
            GEOMETRY,
        );
        symbol
    }

    /// Basic mass of the bolts of a closure; gives its symbol.
    pub(super) fn bolt_mass(&mut self, side: &str) -> String {
        let [count, each] = ["bolt_count", "mass_per_bolt"].map(|leaf| format!("{side}_{leaf}"));
        let bolts = format!("tank.{side}_closure.bolts");
        self.input(&count, &format!("{bolts}.count"));
        self.input(&each, &format!("{bolts}.mass"));
        let symbol = format!("{side}_bolts_mass");
        self.step(
            &symbol,
            format!("{count} * {each}"),
            Q::Mass,
            &format!("basic mass of the {side} bolts"),
            DEFINITION,
        );
        if let Some((form, _)) = self.tank() {
            let mass = bolt_mass(Self::kind(&form, side), &self.closure_of(side));
            self.as_computed(mass);
        }
        symbol
    }

    /// Length of the tube: the cylinder between the closures, and the rims of bolted bulkheads beyond it.
    pub(super) fn tube_length(&mut self, form: &TankForm) -> String {
        self.result("cylinder_length", "geometry.cylinder_length");
        let mut formula = "cylinder_length".to_owned();
        for (side, kind) in [("fore", form.fore_closure), ("aft", form.aft_closure)] {
            if kind.is_bolted() {
                let rim = format!("{side}_rim_length");
                self.input(&rim, &format!("tank.{side}_closure.bolts.rim_length"));
                formula = format!("{formula} + {rim}");
            }
        }
        let Some((_, size)) = self.tank() else {
            return formula;
        };
        if formula == "cylinder_length" {
            return formula;
        }
        self.step(
            "tube_length",
            formula,
            Q::Length,
            "length of the tube, over the rims of bolted bulkheads",
            GEOMETRY,
        );
        self.as_computed(tube_length(form, &self.point.tank, &size));
        "tube_length".to_owned()
    }
}
