//! The form of a document: what is there at all, and the choices made.

use super::choices::CHOICES;
use super::digested::Digested;
use super::document::Document;
use super::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
use super::leaves::Leaves;
use super::tables;
use crate::airframe::{BayRule, BodyForm, FinForm, FinRule, NoseRule, NoseShape, SkinRule};
use crate::ascent::{Course, Grid};
use crate::error::{Error, Result};
use crate::mass::{MAX_ITEMS, Place};
use crate::motor::{Curve, ThrustBasis, ThrustRule};
use crate::vessel::{ClosureKind, DiameterPair, MAX_PLIES, PlyKind, SeamBasis, Shape, TankForm};

/// The form before its choices are set: what is there at all. Options stand at their first word
/// until [`set_choices`] has required each.
pub(super) fn skeleton(document: &Document, leaves: &Leaves) -> Result<Form> {
    let tank = leaves.any_below("tank").then(|| {
        let first = SeamBasis::None;
        TankSide {
            tank: TankForm {
                diameters: DiameterPair::OuterAndWall,
                fore_closure: ClosureKind::Hemisphere,
                aft_closure: ClosureKind::Hemisphere,
                girth_seam: first,
                longitudinal_seam: first,
                plies: leaves.count("tank.overwrap.ply").min(MAX_PLIES),
                ply_kinds: [PlyKind::Hoop; MAX_PLIES],
            },
            shape: Shape::Volume,
            load: LoadRule::Ullage,
            basis: PressureBasis::Closed,
            stated_pressure: leaves.get("pressure.stated").is_some(),
            relief: leaves.get("pressure.relief_setting").is_some(),
            stated_mass: leaves.get("mass.stated.tank").is_some(),
        }
    });
    let drawn = ["nose", "payload_bay", "recovery_bay", "skin", "fins"]
        .iter()
        .any(|table| leaves.any_below(table));
    // Multipliers stand in the same table of a file, yet state no drag.
    let stated = ["drag.table", "drag.reference_diameter"]
        .iter()
        .any(|path| leaves.get(path).is_some());
    let shell = match (drawn, stated) {
        (true, false) if tank.is_some() => Shell::Drawn(BodyForm {
            nose: NoseShape::Cone,
            nose_rule: NoseRule::Fineness,
            bay_rule: BayRule::Volume,
            skin_rule: SkinRule::TankIsAirframe,
            fins: FinForm {
                count: fin_count(document, leaves)?,
                rule: FinRule::StaticMargin,
            },
        }),
        (false, true) => {
            let table = tables::drag_table(document, leaves)?;
            let numbers: Vec<f64> = table
                .mach()
                .iter()
                .chain(table.coefficients())
                .copied()
                .collect();
            Shell::Stated(Digested::new(table, &numbers))
        }
        (true, false) => {
            return Err(Error::Inconsistent(
                "a body is drawn around its tank: describe [tank], or state the drag by \
                 drag.table and drag.reference_diameter"
                    .to_owned(),
            ));
        }
        (true, true) => {
            return Err(Error::Inconsistent(
                "both a drawn body (nose, bays, skin, fins) and a stated drag (drag.table, \
                 drag.reference_diameter) are given; keep one"
                    .to_owned(),
            ));
        }
        (false, false) => {
            return Err(Error::Inconsistent(
                "nothing says what the drag is: describe [nose], [skin], [fins] and bays, or state \
                 drag.table and drag.reference_diameter"
                    .to_owned(),
            ));
        }
    };
    let curve = tables::curve(document, leaves)?
        .map_or_else(|| Ok(Curve::constant()), |points| Curve::new(&points))
        .map_err(|error| document.locate("motor.curve", error))?;
    let numbers: Vec<f64> = curve.times.iter().chain(&curve.forces).copied().collect();
    Ok(Form {
        tank,
        shell,
        curve: Digested::new(curve, &numbers),
        thrust_basis: ThrustBasis::Vacuum,
        thrust_rule: ThrustRule::Level,
        rail: leaves.any_below("rail"),
        course: Course::Vertical,
        atmosphere: AtmosphereModel::Standard,
        grid: Grid::Trade,
        items: leaves.count("mass.item").min(MAX_ITEMS),
        places: [Place::Station; MAX_ITEMS],
    })
}

fn fin_count(document: &Document, leaves: &Leaves) -> Result<usize> {
    match leaves
        .get("fins.count")
        .map(|value| (value, value.as_i64()))
    {
        None if leaves.any_below("fins") => Err(Error::Missing {
            path: "fins.count".to_owned(),
            doc: "number of fins, 3 or 4".to_owned(),
            how: "write 3 or 4".to_owned(),
        }),
        None => Ok(0),
        Some((_, Some(count @ (3 | 4)))) => Ok(count as usize),
        Some((value, _)) => Err(document.locate(
            "fins.count",
            Error::Inconsistent(format!(
                "fins.count = {value}: three or four fins can be handled; leave [fins] out for none"
            )),
        )),
    }
}

pub(super) fn set_choices(document: &Document, leaves: &Leaves, form: &mut Form) -> Result<()> {
    for (path, value) in leaves.iter() {
        let Some((choice, index)) = super::choices::find(path) else {
            continue;
        };
        let word = value.as_str().ok_or_else(|| {
            document.locate(
                path,
                Error::Unreadable {
                    path: path.to_owned(),
                    problem: format!("{value} is not a word; put one of the options in quotes"),
                },
            )
        })?;
        choice
            .set(form, index, path, word)
            .map_err(|error| document.locate(path, error))?;
    }
    for choice in CHOICES.iter().filter(|choice| choice.default.is_none()) {
        let indices = match choice.path {
            "tank.overwrap.ply[].kind" => form.tank.as_ref().map_or(0, |side| side.tank.plies),
            "mass.item[].place" => form.items,
            _ => 1,
        };
        for index in 0..indices {
            let path = choice.path.replace("[]", &format!("[{index}]"));
            if choice.get(form, index).is_some() && leaves.get(&path).is_none() {
                return Err(Error::Missing {
                    path,
                    doc: choice.doc.to_owned(),
                    how: format!("choose {}", options(choice)),
                });
            }
        }
    }
    Ok(())
}

/// The options of a choice, in quotes.
fn options(choice: &super::choices::ChoiceField) -> String {
    let words = choice.options.iter().map(|(word, _)| format!("\"{word}\""));
    words.collect::<Vec<_>>().join(", ")
}
