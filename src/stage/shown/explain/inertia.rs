//! Moments of inertia about the centre of gravity.

use super::Unit;
use super::mass::on_board;
use super::masses::Written;
use super::sheet::Sheet;

const PARALLEL_AXES: &str = "mass times squared distance from the axis: each line's own squared radius of gyration, and \
    the parallel-axis theorem";

/// Pitch or roll inertia, at ignition or at burnout.
pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let (at_burnout, in_roll) = (leaf.starts_with("burnout"), leaf.contains("roll"));
    let lines = sheet.lines();
    let aboard = on_board(sheet, at_burnout);
    if !in_roll {
        let centre = if at_burnout {
            "mass.burnout_centre_of_gravity"
        } else {
            "mass.centre_of_gravity"
        };
        sheet.result("centre", centre);
    }
    let sums = [
        ("structure", "of what is built", lines),
        ("aboard", "of what is on board", aboard),
    ];
    for (symbol, whose, lines) in &sums {
        let parts: Vec<String> = lines
            .iter()
            .enumerate()
            .map(|(place, line)| term(sheet, symbol, place, line, in_roll))
            .collect();
        let doc = format!("moment of inertia {whose}");
        sheet.step(
            &format!("{symbol}_inertia"),
            parts.join(" + "),
            Unit::Si("kg m2"),
            &doc,
            PARALLEL_AXES,
        );
    }
    sheet.end(
        "structure_inertia + aboard_inertia",
        "sum; a mass added for a what-if sits at the centre of gravity and adds none",
    );
}

/// What one line adds.
fn term(
    sheet: &mut Sheet<'_>,
    symbol: &str,
    place: usize,
    line: &Written,
    in_roll: bool,
) -> String {
    let (spread, mass) = (line.spread, line.predicted());
    let gyration = format!("{symbol}_gyration_{place}");
    let (axis, squared) = if in_roll {
        ("the vehicle's axis", spread.across)
    } else {
        (
            "its own transverse axis",
            spread.along + spread.across * 0.5,
        )
    };
    let doc = format!(
        "squared radius of gyration of {} about {axis}; {}",
        line.name, spread.shape
    );
    sheet.term(
        &gyration,
        Unit::Si("m2"),
        &doc,
        "shape of the line",
        squared,
    );
    if in_roll {
        return format!("{mass} * {gyration}");
    }
    let station = format!("{symbol}_station_{place}");
    let doc = format!("station of {}, from the nose tip", line.name);
    let origin = "line of the mass statement";
    sheet.term(
        &station,
        crate::quantity::Quantity::Length,
        &doc,
        origin,
        line.station,
    );
    format!("{mass} * (({station} - centre) ** 2 + {gyration})")
}
