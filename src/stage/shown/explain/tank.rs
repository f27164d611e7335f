//! Masses of the tank's parts, and how liner and wrap share the load.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::quantity::Quantity as Q;
use crate::vessel::{
    ClosureKind, PlyKind, TankForm, closure_metal_volume, fibre_path_over_radius, fibre_volume,
};

const FIBRE_PATH: &str = "great circle on a hemisphere, meridian on a 2:1 ellipsoid, its own geodesic on an \
    isotensoid: every fibre that leaves the cylinder goes to its turning point and comes back";

impl Sheet<'_> {
    /// Basic mass of one closure; gives its symbol.
    pub(super) fn closure_mass(&mut self, form: &TankForm, side: &str) -> String {
        let diameter = self.result("inner_diameter", "geometry.liner_inner_diameter");
        let thickness = format!("{side}_thickness");
        self.input(&thickness, &format!("tank.{side}_closure.thickness"));
        let density = self.input("metal_density", "tank.liner.metal.density");
        let kind = Self::kind(form, side);
        let middle = format!("(inner_diameter + {thickness})");
        let area = match kind {
            ClosureKind::Hemisphere => format!("pi / 2 * {middle} ** 2"),
            ClosureKind::Ellipsoid => {
                // artanh(e) by its logarithm, e = sqrt(3) / 2.
                format!(
                    "pi / 4 * {middle} ** 2 * (1 + log((2 + sqrt(3)) / (2 - sqrt(3))) / (4 * sqrt(3)))"
                )
            }
            ClosureKind::Torisphere => {
                let [l, r] = self.dish(side);
                let grown = |ratio: &str| {
                    format!("({ratio} * inner_diameter + {thickness} / 2) / {middle}")
                };
                format!("torisphere_area({middle}, {}, {})", grown(&l), grown(&r))
            }
            ClosureKind::Isotensoid => {
                let k = self.turning(side);
                format!("isotensoid_closure_area(inner_diameter, {k}, {thickness} / 2)")
            }
            ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
                "pi / 4 * inner_diameter ** 2".to_owned()
            }
        };
        let at = if kind.is_domed() {
            " at mid-thickness"
        } else {
            ""
        };
        let name = format!("{side}_area");
        self.step(
            &name,
            area,
            Q::Area,
            &format!("surface of the {side} closure{at}"),
            GEOMETRY,
        );
        let closure = self.closure_of(side);
        let symbol = format!("{side}_closure_mass");
        let volume = if kind.is_bolted() {
            format!("({name} * {thickness} + {})", self.rim_volume(side))
        } else {
            format!("{name} * {thickness}")
        };
        self.step(
            &symbol,
            format!("{volume} * metal_density"),
            Q::Mass,
            &format!("basic mass of the {side} closure"),
            GEOMETRY,
        );
        self.as_computed(closure_metal_volume(kind, &closure, diameter) * density);
        symbol
    }

    /// Volume of fibre: each ply on its own mean radius, helical ones over both closures.
    fn fibre_volume(&mut self, form: &TankForm) {
        self.result("liner_outer", "geometry.liner_outer_diameter");
        let length = self.tube_length(form);
        self.input(
            "fibre_volume_fraction",
            "tank.overwrap.fibre_volume_fraction",
        );
        self.plies(form);
        let mut below = "liner_outer / 2".to_owned();
        let mut parts = Vec::new();
        for ply in 0..form.plies {
            let fibre = format!("fibre_thickness_{ply}");
            let mean = format!("ply_radius_{ply}");
            self.step(
                &mean,
                format!("{below} + {fibre} / fibre_volume_fraction / 2"),
                Q::Length,
                &format!("mean radius of ply {ply}"),
                GEOMETRY,
            );
            below = format!("{below} + {fibre} / fibre_volume_fraction");
            let mut volume = format!("2 * pi * {mean} * {fibre} * {length}");
            if form.ply_kinds[ply] == PlyKind::Helical {
                let path: f64 = form
                    .closures(&self.point.tank)
                    .map(|(kind, closure)| fibre_path_over_radius(kind, closure))
                    .iter()
                    .sum();
                volume = format!(
                    "{volume} + 2 * pi * {mean} ** 2 * {fibre} * cos(angle_{ply}) * {path}"
                );
            }
            let symbol = format!("fibre_volume_{ply}");
            self.step(
                &symbol,
                volume,
                Q::Volume,
                &format!("volume of fibre of ply {ply}"),
                FIBRE_PATH,
            );
            parts.push(symbol);
        }
        self.step(
            "fibre_volume",
            parts.join(" + "),
            Q::Volume,
            "volume of fibre",
            DEFINITION,
        );
        let geometry = &self.outcome.geometry;
        let outer = geometry.liner_outer_diameter * 0.5;
        let tube = self.known[length.as_str()];
        let volume = fibre_volume(form, &self.point.tank, outer, tube);
        self.as_computed(volume);
    }

    /// Share of a load that the liner carries, from unit pressure.
    fn share(&mut self, form: &TankForm, stress: &str, load: &str) {
        self.loads_per_pressure();
        let per_pressure = ["axial_load_per_pressure", "hoop_load_per_pressure"];
        let [axial, hoop] = per_pressure.map(|symbol| (symbol, self.known[symbol]));
        self.membrane(form, "", axial, hoop);
        self.end(
            format!("{stress} * minimum_wall / {load}"),
            "at unit pressure: stresses stand per pressure",
        );
    }
}

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let Some((form, _)) = sheet.tank() else {
        return;
    };
    match leaf {
        "mass" => {
            sheet.result("liner_mass", "tank.liner_mass");
            sheet.result("closure_mass", "tank.closure_mass");
            sheet.input("fittings_mass", "tank.fittings_mass");
            let mut sum = "liner_mass + closure_mass".to_owned();
            if form.plies > 0 {
                sheet.result("fibre_mass", "tank.fibre_mass");
                sheet.result("resin_mass", "tank.resin_mass");
                sum += " + fibre_mass + resin_mass";
            }
            for (side, kind) in [("fore", form.fore_closure), ("aft", form.aft_closure)] {
                if kind.is_bolted() {
                    sum = format!("{sum} + {}", sheet.bolt_mass(side));
                }
            }
            sheet.end(format!("{sum} + fittings_mass"), DEFINITION);
        }
        "liner_mass" => {
            sheet.result("inner_diameter", "geometry.liner_inner_diameter");
            sheet.result("wall", "geometry.liner_wall");
            let length = sheet.tube_length(&form);
            sheet.input("metal_density", "tank.liner.metal.density");
            sheet.end(
                format!("pi * (inner_diameter + wall) * wall * {length} * metal_density"),
                GEOMETRY,
            );
        }
        "closure_mass" => {
            let [fore, aft] = ["fore", "aft"].map(|side| sheet.closure_mass(&form, side));
            sheet.end(format!("{fore} + {aft}"), DEFINITION);
        }
        "fibre_mass" => {
            sheet.fibre_volume(&form);
            sheet.input("fibre_density", "tank.overwrap.fibre.density");
            sheet.end("fibre_volume * fibre_density", DEFINITION);
        }
        "resin_mass" => {
            sheet.fibre_volume(&form);
            sheet.input("resin_density", "tank.overwrap.resin_density");
            sheet.end(
                "fibre_volume * (1 - fibre_volume_fraction) / fibre_volume_fraction * resin_density",
                DEFINITION,
            );
        }
        "liner_hoop_share" => sheet.share(&form, "mean_hoop_stress", "hoop_load_per_pressure"),
        _ => sheet.share(&form, "axial_stress", "axial_load_per_pressure"),
    }
}
