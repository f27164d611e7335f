//! Sums of the mass statement, and centres of gravity.

use super::masses::Written;
use super::sheet::{DEFINITION, Sheet};
use super::{Unit, inertia};
use crate::mass::Line;
use crate::quantity::Quantity as Q;

const ROOT_SUM_SQUARE: &str = "W. H. Ahl, \"Predicting the Accuracy of Mass Property Calculations\", Society of \
    Aeronautical Weight Engineers, paper 305, 1962 (abstract read): the principle, for independent \
    variations";

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
        "growth_root_sum_square" => {
            let lines = sheet.lines();
            let squares = lines.into_iter().filter_map(|line| {
                let growth = line.growth?;
                Some(format!("({} * {growth}) ** 2", line.mass))
            });
            let squares: Vec<String> = squares.collect();
            let kinds = Unit::Si("kg2");
            let doc = "sum of the lines' squared growth allowances";
            sheet.step("squares", sum(squares), kinds, doc, DEFINITION);
            sheet.end("sqrt(squares)", ROOT_SUM_SQUARE);
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
        _ if leaf.ends_with("inertia") => inertia::write(sheet, leaf),
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
    let on_board = on_board(sheet, at_burnout);
    let total = if at_burnout {
        "load.residual"
    } else {
        "load.propellant"
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

/// Propellant on board at ignition, or what is left of it at burnout.
pub(super) fn on_board(sheet: &mut Sheet<'_>, at_burnout: bool) -> Vec<Written> {
    let propellant = sheet.settled.vehicle.propellant;
    let (names, lines): (&[&str], &[Line<f64>]) = if at_burnout {
        for leaf in ["oxidiser_residual", "fuel_residual"] {
            sheet.result(leaf, &format!("load.{leaf}"));
        }
        (
            &["oxidiser_residual", "fuel_residual"],
            &propellant.at_burnout,
        )
    } else {
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
        (&["liquid", "vapour", "fuel"], &propellant.at_ignition)
    };
    let pairs = names.iter().zip(lines);
    pairs
        .map(|(name, line)| Written {
            mass: (*name).to_owned(),
            growth: None,
            name: name.replace('_', " "),
            station: line.station,
            spread: line.spread,
        })
        .collect()
}
