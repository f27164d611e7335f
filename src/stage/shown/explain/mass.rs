//! Sums of the mass statement, and centres of gravity.

use super::masses::Written;
use super::sheet::{DEFINITION, Sheet};
use crate::quantity::Quantity as Q;

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    match leaf {
        "basic" => {
            let lines = sheet.lines();
            let masses: Vec<String> = lines.into_iter().map(|line| line.mass).collect();
            sheet.end(sum(masses), DEFINITION);
        }
        "growth_allowance" => {
            let lines = sheet.lines();
            let grown = lines.into_iter().filter_map(|line| {
                let growth = line.growth?;
                Some(format!("{} * {growth}", line.mass))
            });
            sheet.end(
                sum(grown.collect()),
                "growth allowance of each line: a share of its basic mass",
            );
        }
        "predicted" => {
            sheet.result("basic", "mass.basic");
            sheet.result("growth_allowance", "mass.growth_allowance");
            sheet.input("added", "mass.added");
            sheet.end("basic + growth_allowance + added", DEFINITION);
        }
        "lift_off" => {
            sheet.result("predicted", "mass.predicted");
            sheet.result("propellant", "load.propellant");
            sheet.end("predicted + propellant", DEFINITION);
        }
        "burnout" => {
            sheet.result("lift_off", "mass.lift_off");
            sheet.result("burned", "load.burned");
            sheet.end("lift_off - burned", DEFINITION);
        }
        _ => centre_of_gravity(sheet, leaf.starts_with("burnout")),
    }
}

fn sum(parts: Vec<String>) -> String {
    if parts.is_empty() {
        "0".to_owned()
    } else {
        parts.join(" + ")
    }
}

/// First moments over mass; a mass added for a what-if sits there already.
fn centre_of_gravity(sheet: &mut Sheet<'_>, at_burnout: bool) {
    let lines = sheet.lines();
    sheet.moment(
        "structure_moment",
        "first moment of the predicted mass",
        &lines,
    );
    let propellant = &sheet.settled.vehicle.propellant;
    let (on_board, total) = if at_burnout {
        let stations = propellant.at_burnout.map(|line| line.station);
        for leaf in ["oxidiser_residual", "fuel_residual"] {
            sheet.result(leaf, &format!("load.{leaf}"));
        }
        let names = ["oxidiser_residual", "fuel_residual"];
        (on_board(&names, &stations), "load.residual")
    } else {
        let stations = propellant.at_ignition.map(|line| line.station);
        for leaf in ["oxidiser", "vapour", "fuel"] {
            sheet.result(leaf, &format!("load.{leaf}"));
        }
        sheet.step(
            "liquid",
            "oxidiser - vapour",
            Q::Mass,
            "oxidiser that is liquid",
            DEFINITION,
        );
        (
            on_board(&["liquid", "vapour", "fuel"], &stations),
            "load.propellant",
        )
    };
    sheet.moment(
        "propellant_moment",
        "first moment of what is on board",
        &on_board,
    );
    sheet.result("basic", "mass.basic");
    sheet.result("growth_allowance", "mass.growth_allowance");
    sheet.result("on_board", total);
    sheet.end(
        "(structure_moment + propellant_moment) / (basic + growth_allowance + on_board)",
        "first moments over mass; a mass added for a what-if sits at this point",
    );
}

fn on_board(names: &[&str], stations: &[f64]) -> Vec<Written> {
    let pairs = names.iter().zip(stations);
    pairs
        .map(|(name, station)| Written {
            mass: (*name).to_owned(),
            growth: None,
            name: name.replace('_', " "),
            station: *station,
        })
        .collect()
}
