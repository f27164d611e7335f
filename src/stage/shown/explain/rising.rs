//! Strain of the girth seam's weld zone at burst pressure, by total strains.

use super::sheet::{DEFINITION, Sheet};
use super::{Unit, margins::MARGIN};
use crate::quantity::Quantity as Q;
use crate::vessel::{PlyKind, TankForm, largest_zone_strain, risen};

const TOTAL: &str = "theory of total strains (Hencky): the metal softens against sum and difference of its \
    strains by the amount of flow at which it bears what it has hardened to";
const STRAIN: &str = "common strain of liner and fibres; in the weld zone that of the wall around";
const SERIES: &str = "the weld zone carries the whole axial line load beside its wrap";

/// What the fibres add to axial, cross and hoop stiffness, and their line loads without strain, axial and hoop.
struct Fibres {
    stiffness: [String; 3],
    ahead: [String; 2],
}

pub(super) fn zone_strain(sheet: &mut Sheet<'_>, form: &TankForm) {
    let Some((_, size)) = sheet.tank() else {
        return;
    };
    let burst = sheet.result("burst", "pressures.burst");
    let [wall, zone] = risen(form, &sheet.point.tank, &size, burst);
    sheet.loads_per_pressure();
    for (name, doc) in [("axial", "axial line load"), ("hoop", "hoop line load")] {
        sheet.step(
            &format!("{name}_load"),
            format!("{name}_load_per_pressure * burst"),
            Q::LineLoad,
            &format!("{doc} at burst pressure"),
            DEFINITION,
        );
    }
    let fibres = sheet.fibres(form);
    sheet.softened("wall", wall.flow);
    sheet.softened("zone", zone.flow);
    sheet.result("minimum_wall", "geometry.liner_minimum_wall");
    let [axial, cross, hoop] = &fibres.stiffness;
    for (name, modulus, fibre) in [
        ("axial", "direct_wall", axial),
        ("cross", "cross_wall", cross),
        ("hoop", "direct_wall", hoop),
    ] {
        sheet.stiffened(&format!("{name}_stiffness"), modulus, "minimum_wall", fibre);
    }
    let [ahead_axial, ahead_hoop] = &fibres.ahead;
    sheet.step(
        "hoop_strain",
        format!(
            "((hoop_load{ahead_hoop}) * axial_stiffness - (axial_load{ahead_axial}) * cross_stiffness) / \
             (axial_stiffness * hoop_stiffness - cross_stiffness ** 2)"
        ),
        Q::Ratio,
        "hoop strain of the wall",
        STRAIN,
    );
    sheet.as_computed(wall.strain[1]);
    sheet.seam_wall(form);
    sheet.stiffened("zone_axial_stiffness", "direct_zone", "seam_wall", axial);
    sheet.stiffened("zone_cross_stiffness", "cross_zone", "seam_wall", cross);
    sheet.step(
        "axial_zone_strain",
        format!(
            "(axial_load{ahead_axial} - zone_cross_stiffness * hoop_strain) / zone_axial_stiffness"
        ),
        Q::Ratio,
        "axial strain of the weld zone",
        SERIES,
    );
    sheet.as_computed(zone.strain[0]);
    sheet.step(
        "zone_strain",
        "max(axial_zone_strain, hoop_strain)",
        Q::Ratio,
        "larger strain of the weld zone",
        DEFINITION,
    );
    sheet.as_computed(largest_zone_strain(&[wall, zone]));
    sheet.input("allowable_strain", "tank.liner.girth_seam.allowable_strain");
    sheet.end("allowable_strain / zone_strain - 1", MARGIN);
}

impl Sheet<'_> {
    fn fibres(&mut self, form: &TankForm) -> Fibres {
        let mut fibres = Fibres {
            stiffness: Default::default(),
            ahead: Default::default(),
        };
        if form.plies == 0 {
            return fibres;
        }
        let overwrap = &self.point.tank.overwrap;
        let (wound, gapped) = (overwrap.winding_stress > 0.0, overwrap.gap > 0.0);
        self.input("fibre_modulus", "tank.overwrap.fibre.elastic_modulus");
        self.plies(form);
        if wound {
            self.input("winding_stress", "tank.overwrap.winding_stress");
        }
        if gapped {
            self.input("gap", "tank.overwrap.gap");
            self.result("inner_diameter", "geometry.liner_inner_diameter");
            self.result("liner_wall", "geometry.liner_wall");
            self.step(
                "gap_strain",
                "gap / (inner_diameter / 2 + liner_wall)",
                Q::Ratio,
                "hoop strain that the gap takes",
                DEFINITION,
            );
        }
        for ply in 0..form.plies {
            let fibre = format!(" + fibre_modulus * fibre_thickness_{ply}");
            let around = format!("sin(angle_{ply}) ** 2");
            let along = match form.ply_kinds[ply] {
                PlyKind::Helical => format!("cos(angle_{ply}) ** 2"),
                PlyKind::Hoop => String::new(),
            };
            let [axial, cross, hoop] = &mut fibres.stiffness;
            if !along.is_empty() {
                *axial = format!("{axial}{fibre} * cos(angle_{ply}) ** 4");
                *cross = format!("{cross}{fibre} * {along} * {around}");
            }
            *hoop = format!("{hoop}{fibre} * sin(angle_{ply}) ** 4");
            for (load, share) in fibres.ahead.iter_mut().zip([along, around.clone()]) {
                if share.is_empty() {
                    continue;
                }
                if wound {
                    *load = format!("{load} - winding_stress * fibre_thickness_{ply} * {share}");
                }
                if gapped {
                    *load = format!("{load}{fibre} * {around} * gap_strain * {share}");
                }
            }
        }
        fibres
    }

    /// Stiffness of the liner's metal after it has flowed.
    fn softened(&mut self, part: &str, flow: f64) {
        self.input("elastic_modulus", "tank.liner.metal.elastic_modulus");
        self.input("poisson_ratio", "tank.liner.metal.poisson_ratio");
        self.term(
            &format!("flow_{part}"),
            Unit::Si("1/Pa"),
            &format!("amount of flow of the {part}, plastic strain over the stress deviator"),
            "root: the equivalent stress is the yield strength reached",
            flow,
        );
        for (name, sign, share) in [("sum", '-', " / 3"), ("difference", '+', "")] {
            self.step(
                &format!("{name}_{part}"),
                format!(
                    "elastic_modulus / (1 {sign} poisson_ratio + elastic_modulus * flow_{part}{share})"
                ),
                Q::Stress,
                &format!("modulus of the {part} against the {name} of its strains"),
                TOTAL,
            );
        }
        for (name, sign) in [("direct", '+'), ("cross", '-')] {
            self.step(
                &format!("{name}_{part}"),
                format!("(sum_{part} {sign} difference_{part}) / 2"),
                Q::Stress,
                &format!("{name} modulus of the {part}"),
                DEFINITION,
            );
        }
    }

    fn stiffened(&mut self, symbol: &str, modulus: &str, thickness: &str, fibre: &str) {
        let doc = symbol.replace('_', " ");
        let formula = format!("{modulus} * {thickness}{fibre}");
        self.step(symbol, formula, Q::LineLoad, &doc, STRAIN);
    }
}
