//! Margins of safety: allowable / (factor x load) - 1, each from inputs, dimensions and pressures.

use super::burst::Direction;
use super::pressures::burst_factor;
use super::seams::Strength;
use super::sheet::{DEFINITION, Sheet};
use super::wall::Case;
use crate::quantity::Quantity as Q;
use crate::vessel::TankForm;

pub(super) const MARGIN: &str = "margin of safety = allowable / (factor x load) - 1";
/// Why the axial load in flight is that of the pressure alone.
const SECTION: &str = "equilibrium at a section: the liquid's head cancels against its inertia";

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let Some((form, _)) = sheet.tank() else {
        return;
    };
    match leaf {
        "liner_yield_proof" => {
            let stress = at_proof(sheet, &form, true);
            let strength = sheet.parent(Strength::Yield);
            let holds = elastic(sheet, format!("{strength} / {stress}"), "proof");
            sheet.end(format!("{holds} - 1"), MARGIN);
        }
        "liner_yield_flight" => {
            let [pressed, relieved] = in_flight(sheet, &form);
            let strength = sheet.parent(Strength::Yield);
            let first = format!("{strength} / max({pressed}, {relieved})");
            let holds = elastic(sheet, first, "flight_pressure");
            sheet.end(format!("{holds} - 1"), MARGIN);
        }
        "girth_seam_proof" => {
            at_proof(sheet, &form, false);
            sheet.seam_wall(&form);
            let strength = sheet.seam("girth", form.girth_seam, Strength::Yield);
            sheet.end(
                format!("{strength} * seam_wall / (axial_stress * minimum_wall) - 1"),
                MARGIN,
            );
        }
        "girth_zone_strain_burst" => super::rising::zone_strain(sheet, &form),
        "longitudinal_seam_proof" => {
            at_proof(sheet, &form, true);
            let strength = sheet.seam("longitudinal", form.longitudinal_seam, Strength::Yield);
            sheet.end(format!("{strength} / hoop_stress - 1"), MARGIN);
        }
        "longitudinal_seam_flight" => {
            let (pressure, pull) = flight_pressure(sheet);
            sheet.bore(
                &form,
                &Case {
                    pressure: ("flight_pressure", pressure),
                    axial_load: ("pull", pull),
                    suffix: "",
                },
            );
            let strength = sheet.seam("longitudinal", form.longitudinal_seam, Strength::Yield);
            sheet.end(format!("{strength} / hoop_stress - 1"), MARGIN);
        }
        "fitting_hold" | "fitting_bond" | "fitting_fastener" => super::fittings::write(sheet, leaf),
        _ if super::bolts::is_of_row(leaf) => super::bolts::write(sheet, &form, leaf),
        _ => closures(sheet, &form, leaf),
    }
}

/// Margins of the closures, and burst of the cylinder and its seams.
fn closures(sheet: &mut Sheet<'_>, form: &TankForm, leaf: &str) {
    let side = if leaf.starts_with("fore") {
        "fore"
    } else {
        "aft"
    };
    match leaf {
        "fore_closure_proof" | "aft_closure_proof" => {
            let proof = sheet.result("proof", "pressures.proof");
            sheet.closure(form, side, ("proof", proof));
            let stress = sheet.closure_yield(form, side);
            let strength = sheet.parent(Strength::Yield);
            sheet.end(format!("{strength} / {stress} - 1"), MARGIN);
        }
        "aft_closure_flight" => {
            let (pressure, _) = flight_pressure(sheet);
            sheet.closure(form, side, ("flight_pressure", pressure));
            let stress = sheet.closure_yield(form, side);
            let strength = sheet.parent(Strength::Yield);
            sheet.end(format!("{strength} / {stress} - 1"), MARGIN);
        }
        "fore_closure_burst" => {
            let burst = sheet.result("burst", "pressures.burst");
            sheet.closure(form, side, ("burst", burst));
            let strength = sheet.parent(Strength::Ultimate);
            sheet.end(format!("{strength} / closure_stress - 1"), MARGIN);
        }
        "aft_closure_burst" => {
            let burst = burst_aft(sheet);
            sheet.closure(form, side, ("burst_aft", burst));
            let strength = sheet.parent(Strength::Ultimate);
            sheet.end(format!("{strength} / closure_stress - 1"), MARGIN);
        }
        "fore_junction_proof" | "aft_junction_proof" => junction(sheet, form, side),
        _ => cylinder(sheet, form, leaf),
    }
}

/// Shakedown of a junction.
fn junction(sheet: &mut Sheet<'_>, form: &TankForm, side: &'static str) {
    let proof = sheet.result("proof", "pressures.proof");
    sheet.junction(side, proof);
    let strength = sheet.seam("girth", form.girth_seam, Strength::Yield);
    sheet.step(
        "stress_range",
        "junction_stress * proof",
        Q::Stress,
        "range of the equivalent stress from no pressure to proof pressure, as if all stayed elastic",
        "linear in the pressure",
    );
    sheet.step(
        "shakedown_limit",
        format!("2 * {strength}"),
        Q::Stress,
        "range within which what has flowed once stays elastic",
        "ASME Boiler and Pressure Vessel Code, section VIII division 2, 5.5.6.1: range of primary plus \
         secondary stress; twice the yield strength",
    );
    sheet.end("shakedown_limit / stress_range - 1", MARGIN);
}

/// Burst of the cylinder and its seams.
fn cylinder(sheet: &mut Sheet<'_>, form: &TankForm, leaf: &str) {
    let (direction, seam) = match leaf {
        "hoop_burst" => (Direction::Around, None),
        "longitudinal_seam_burst" => (
            Direction::Around,
            Some(("longitudinal", form.longitudinal_seam)),
        ),
        "girth_seam_burst" => (Direction::Along, Some(("girth", form.girth_seam))),
        _ => (Direction::Along, None),
    };
    let metal = sheet.burst_metal(form, direction, seam);
    let wall = if leaf == "girth_seam_burst" {
        sheet.seam_wall(form);
        "seam_wall"
    } else {
        "minimum_wall"
    };
    sheet.spent(form, direction, &metal, wall);
    let required = match direction {
        Direction::Around => {
            burst_aft(sheet);
            "burst_aft"
        }
        Direction::Along => {
            sheet.result("burst", "pressures.burst");
            "burst"
        }
    };
    sheet.end(format!("spent_pressure / {required} - 1"), MARGIN);
}

/// Stresses at proof pressure: mean ones, or those at the bore; gives the symbol of the equivalent one.
fn at_proof(sheet: &mut Sheet<'_>, form: &TankForm, at_bore: bool) -> String {
    let proof = sheet.result("proof", "pressures.proof");
    let axial = sheet.axial_load("axial_load", ("proof", proof));
    let case = Case {
        pressure: ("proof", proof),
        axial_load: ("axial_load", axial),
        suffix: "",
    };
    if at_bore {
        sheet.equivalent(form, &case)
    } else {
        sheet.loaded(form, &case);
        String::new()
    }
}

/// Load at which the liner flows over the load: at first, or beyond its autofrettage.
fn elastic(sheet: &mut Sheet<'_>, first: String, pressure: &str) -> String {
    if sheet.point.tank.autofrettage_pressure > 0.0 {
        sheet.input("autofrettage", "tank.autofrettage_pressure");
        format!("max({first}, autofrettage / {pressure})")
    } else {
        first
    }
}

/// Pressure around the aft end and axial line load in flight, with the factor on yield.
pub(super) fn flight_pressure(sheet: &mut Sheet<'_>) -> (f64, f64) {
    let meop = sheet.result("meop", "pressures.meop");
    sheet.result("head", "flight_loads.acceleration_head");
    sheet.input("proof_factor", "rule_set.proof_factor");
    let pressure = sheet.step(
        "flight_pressure",
        "(meop + head) * proof_factor",
        Q::GaugePressure,
        "proof factor x (MEOP + liquid head) at the aft end",
        "SMC-S-016, 2014, clause 3.24: MEOP includes the head; here it is added where it acts",
    );
    sheet.axial_load("meop_axial_load", ("meop", meop));
    let pull = sheet.step(
        "pull",
        "meop_axial_load * proof_factor",
        Q::LineLoad,
        "axial line load of the pressure at the section, with its factor",
        SECTION,
    );
    (pressure, pull)
}

/// Axial line load in flight while thrust compresses the wall.
pub(super) fn relieved_pull(sheet: &mut Sheet<'_>) -> f64 {
    sheet.result("compression", "flight_loads.thrust_compression");
    sheet.step(
        "relief",
        "compression * proof_factor / (2 * pi * mean_radius)",
        Q::LineLoad,
        "axial line load that thrust takes away, with its factor",
        DEFINITION,
    );
    sheet.step(
        "relieved_pull",
        "pull - relief",
        Q::LineLoad,
        "axial line load while thrust compresses the wall",
        SECTION,
    )
}

/// Equivalent stresses in flight, with and without the compression by thrust.
fn in_flight(sheet: &mut Sheet<'_>, form: &TankForm) -> [String; 2] {
    let (pressure, pull) = flight_pressure(sheet);
    let relieved = relieved_pull(sheet);
    [("pull", pull, ""), ("relieved_pull", relieved, "_relieved")].map(|(symbol, axial, suffix)| {
        let case = Case {
            pressure: ("flight_pressure", pressure),
            axial_load: (symbol, axial),
            suffix,
        };
        sheet.equivalent(form, &case)
    })
}

/// Burst factor x (MEOP + liquid head), which the aft end and the cylinder around it must hold.
pub(super) fn burst_aft(sheet: &mut Sheet<'_>) -> f64 {
    sheet.result("burst", "pressures.burst");
    sheet.result("head", "flight_loads.acceleration_head");
    let factor = burst_factor(sheet);
    sheet.step(
        "burst_aft",
        format!("burst + head * {factor}"),
        Q::GaugePressure,
        "burst factor x (MEOP + liquid head)",
        DEFINITION,
    )
}
