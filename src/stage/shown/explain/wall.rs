//! Stresses in the liner while all is elastic: load share with the wrap, and Lame's stresses at the bore.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::quantity::Quantity as Q;
use crate::vessel::{
    Dimensions, PlyKind, TankForm, axial_line_load, bore_stress, hoop_line_load, membrane_response,
};

const STRAIN: &str = "common strain: plane stress in the liner, fibres stiff along themselves only \
    (elementary: the cylinder cut through, line loads against strains)";
const LAME: &str = "G. Lame's thick cylinder, in any text, for instance E. J. Hearn, \"Mechanics of \
    Materials 1\", chapter 10";
pub(super) const HALF_RING: &str = "equilibrium of half a ring";
pub(super) const BORE_FORCE: &str = "equilibrium: force on the bore over the mean circumference";

/// A load case of the cylinder: symbols of pressure and axial line load, their values, and what its own
/// symbols end with.
pub(super) struct Case<'a> {
    pub pressure: (&'a str, f64),
    pub axial_load: (&'a str, f64),
    pub suffix: &'a str,
}

impl Sheet<'_> {
    /// Dimensions of the tank and its form; only for results that apply to stages with a tank.
    pub(super) fn tank(&self) -> Option<(TankForm, Dimensions<f64>)> {
        Some((self.form.tank.as_ref()?.tank, self.settled.size?))
    }

    /// Radii of the liner at its minimum wall.
    pub(super) fn radii(&mut self) {
        self.result("inner_diameter", "geometry.liner_inner_diameter");
        self.result("minimum_wall", "geometry.liner_minimum_wall");
        self.step(
            "inner_radius",
            "inner_diameter / 2",
            Q::Length,
            "inside radius of the liner",
            GEOMETRY,
        );
        self.step(
            "mean_radius",
            "inner_radius + minimum_wall / 2",
            Q::Length,
            "mean radius at the minimum wall",
            GEOMETRY,
        );
    }

    /// Terms of every ply: angle and fibre thickness.
    pub(super) fn plies(&mut self, form: &TankForm) {
        for ply in 0..form.plies {
            let path = format!("tank.overwrap.ply[{ply}]");
            self.input(&format!("angle_{ply}"), &format!("{path}.angle"));
            self.input(
                &format!("fibre_thickness_{ply}"),
                &format!("{path}.fibre_thickness"),
            );
        }
    }

    /// Stiffness of liner and plies together.
    fn stiffness(&mut self, form: &TankForm) {
        self.input("elastic_modulus", "tank.liner.metal.elastic_modulus");
        self.input("poisson_ratio", "tank.liner.metal.poisson_ratio");
        self.step(
            "plane_modulus",
            "elastic_modulus / (1 - poisson_ratio ** 2)",
            Q::Stress,
            "plane-stress modulus of the liner",
            STRAIN,
        );
        self.input("fibre_modulus", "tank.overwrap.fibre.elastic_modulus");
        self.plies(form);
        let mut axial = "plane_modulus * minimum_wall".to_owned();
        let mut cross = "plane_modulus * minimum_wall * poisson_ratio".to_owned();
        let mut hoop = axial.clone();
        for ply in 0..form.plies {
            let fibre = format!(" + fibre_modulus * fibre_thickness_{ply}");
            if form.ply_kinds[ply] == PlyKind::Helical {
                axial = format!("{axial}{fibre} * cos(angle_{ply}) ** 4");
                cross = format!("{cross}{fibre} * cos(angle_{ply}) ** 2 * sin(angle_{ply}) ** 2");
            }
            hoop = format!("{hoop}{fibre} * sin(angle_{ply}) ** 4");
        }
        let across = "stiffness of liner and helical plies";
        self.step(
            "axial_stiffness",
            axial,
            Q::LineLoad,
            &format!("axial {across}"),
            STRAIN,
        );
        self.step(
            "cross_stiffness",
            cross,
            Q::LineLoad,
            &format!("cross {across}"),
            STRAIN,
        );
        self.step(
            "hoop_stiffness",
            hoop,
            Q::LineLoad,
            "hoop stiffness of liner and all plies",
            STRAIN,
        );
        self.step(
            "determinant",
            "axial_stiffness * hoop_stiffness - cross_stiffness ** 2",
            super::Unit::Si("N2/m2"),
            "determinant of the stiffness",
            STRAIN,
        );
    }

    /// Mean stresses in the liner under an axial and a hoop line load.
    pub(super) fn membrane(
        &mut self,
        form: &TankForm,
        suffix: &str,
        axial: (&str, f64),
        hoop: (&str, f64),
    ) {
        let wall = self.outcome.geometry.liner_minimum_wall;
        let room = membrane_response(form, &self.point.tank, wall, axial.1, hoop.1);
        let (axial, hoop) = (axial.0, hoop.0);
        let names = [
            format!("axial_stress{suffix}"),
            format!("mean_hoop_stress{suffix}"),
        ];
        let docs = [
            "axial stress in the liner",
            "hoop stress in the liner, mean through its wall",
        ];
        if form.plies == 0 {
            for ((name, doc), (load, value)) in names
                .iter()
                .zip(docs)
                .zip([(axial, room.liner_axial), (hoop, room.liner_hoop)])
            {
                self.step(
                    name,
                    format!("{load} / minimum_wall"),
                    Q::Stress,
                    doc,
                    DEFINITION,
                );
                self.as_computed(value);
            }
            return;
        }
        self.stiffness(form);
        let strains = [
            format!("axial_strain{suffix}"),
            format!("hoop_strain{suffix}"),
        ];
        self.step(
            &strains[0],
            format!("({axial} * hoop_stiffness - {hoop} * cross_stiffness) / determinant"),
            Q::Ratio,
            "axial strain of liner and fibres",
            STRAIN,
        );
        self.as_computed(room.axial_strain);
        self.step(
            &strains[1],
            format!("({hoop} * axial_stiffness - {axial} * cross_stiffness) / determinant"),
            Q::Ratio,
            "hoop strain of liner and fibres",
            STRAIN,
        );
        self.as_computed(room.hoop_strain);
        let [along, around] = &strains;
        for (name, doc, formula, value) in [
            (
                &names[0],
                docs[0],
                format!("({along} + poisson_ratio * {around})"),
                room.liner_axial,
            ),
            (
                &names[1],
                docs[1],
                format!("({around} + poisson_ratio * {along})"),
                room.liner_hoop,
            ),
        ] {
            self.step(
                name,
                format!("plane_modulus * {formula}"),
                Q::Stress,
                doc,
                STRAIN,
            );
            self.as_computed(value);
        }
    }

    /// Mean stresses in the liner under a pressure, whose hoop line load is taken over the bore.
    pub(super) fn loaded(&mut self, form: &TankForm, case: &Case<'_>) {
        let Case {
            pressure,
            axial_load,
            suffix,
        } = case;
        self.radii();
        let name = format!("hoop_load{suffix}");
        let doc = "hoop line load of liner and wrap, over the bore";
        let formula = format!("{} * inner_radius", pressure.0);
        let value = self.step(&name, formula, Q::LineLoad, doc, HALF_RING);
        self.membrane(form, suffix, *axial_load, (&name, value));
    }

    /// Stresses at the bore under a load case.
    pub(super) fn bore(&mut self, form: &TankForm, case: &Case<'_>) {
        let Some((_, size)) = self.tank() else { return };
        self.loaded(form, case);
        let Case {
            pressure,
            axial_load,
            suffix,
        } = case;
        let room = bore_stress(form, &self.point.tank, &size, pressure.1, axial_load.1);
        let p = pressure.0;
        self.step(
            "outer_radius",
            "inner_radius + minimum_wall",
            Q::Length,
            "outside radius of the liner at its minimum wall",
            GEOMETRY,
        );
        self.step(
            "section",
            "outer_radius ** 2 - inner_radius ** 2",
            Q::Area,
            "difference of the squared radii",
            LAME,
        );
        let squeeze = if form.plies == 0 {
            "0".to_owned()
        } else {
            format!("(hoop_load{suffix} - mean_hoop_stress{suffix} * minimum_wall) / outer_radius")
        };
        self.step(
            &format!("squeeze{suffix}"),
            squeeze,
            Q::PressureDifference,
            "pressure of the wrap on the liner: what the liner does not carry; none on a bare one",
            HALF_RING,
        );
        self.step(
            &format!("even{suffix}"),
            format!("({p} * inner_radius ** 2 - squeeze{suffix} * outer_radius ** 2) / section"),
            Q::Stress,
            "part of Lame's stresses that is the same through the wall",
            LAME,
        );
        self.step(
            &format!("uneven{suffix}"),
            format!("({p} - squeeze{suffix}) * outer_radius ** 2 / section"),
            Q::Stress,
            "part of Lame's stresses that falls from the bore outwards, at the bore",
            LAME,
        );
        for (name, sign, doc, value) in [
            ("hoop_stress", '+', "hoop stress at the bore", room.hoop),
            (
                "radial_stress",
                '-',
                "radial stress at the bore",
                room.radial,
            ),
        ] {
            let formula = format!("even{suffix} {sign} uneven{suffix}");
            self.step(&format!("{name}{suffix}"), formula, Q::Stress, doc, LAME);
            self.as_computed(value);
        }
    }

    /// Equivalent stress at the bore under a load case.
    pub(super) fn equivalent(&mut self, form: &TankForm, case: &Case<'_>) -> String {
        let Some((_, size)) = self.tank() else {
            return String::new();
        };
        self.bore(form, case);
        let Case {
            pressure,
            axial_load,
            suffix,
        } = case;
        let [h, r, a] =
            ["hoop_stress", "radial_stress", "axial_stress"].map(|name| format!("{name}{suffix}"));
        let name = format!("equivalent_stress{suffix}");
        self.step(
            &name,
            format!("sqrt((({h} - {r}) ** 2 + ({r} - {a}) ** 2 + ({a} - {h}) ** 2) / 2)"),
            Q::Stress,
            "equivalent stress at the bore",
            "von Mises' condition of yield",
        );
        let room = bore_stress(form, &self.point.tank, &size, pressure.1, axial_load.1);
        self.as_computed(room.equivalent());
        name
    }

    /// Axial line load of a pressure, by its symbol.
    pub(super) fn axial_load(&mut self, symbol: &str, pressure: (&str, f64)) -> f64 {
        self.radii();
        let mean = self.known["mean_radius"];
        let inner = self.known["inner_radius"];
        self.step(
            symbol,
            format!("{} * inner_radius ** 2 / (2 * mean_radius)", pressure.0),
            Q::LineLoad,
            "axial line load of the closed cylinder",
            BORE_FORCE,
        );
        self.as_computed(axial_line_load(pressure.1, inner, mean))
    }

    /// Line loads per pressure, around and along, at the mean radius.
    pub(super) fn loads_per_pressure(&mut self) {
        self.radii();
        let (mean, inner) = (self.known["mean_radius"], self.known["inner_radius"]);
        self.step(
            "hoop_load_per_pressure",
            "mean_radius",
            Q::Length,
            "hoop line load per pressure, at the mean radius",
            HALF_RING,
        );
        self.as_computed(hoop_line_load(1.0, mean));
        self.step(
            "axial_load_per_pressure",
            "inner_radius ** 2 / (2 * mean_radius)",
            Q::Length,
            "axial line load per pressure",
            BORE_FORCE,
        );
        self.as_computed(axial_line_load(1.0, inner, mean));
    }
}
