//! From a document to a stage: form, numbers in SI, and where each came from.

use super::choices::CHOICES;
use super::digested::Digested;
use super::document::Document;
use super::follow::{DIAMETERS, EQUIVALENTS, follows, has_equivalents, pair_paths, refresh};
use super::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
use super::given::{Labels, Origin, Stage};
use super::leaves::{Leaves, in_range, lower_first, number};
use super::schema::{INPUT_COUNT, INPUTS, point};
use super::tables;
use crate::airframe::{BayRule, BodyForm, FinForm, FinRule, NoseRule, NoseShape, SkinRule};
use crate::ascent::Grid;
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide;
use crate::mass::{MAX_ITEMS, Place};
use crate::motor::{Curve, ThrustBasis, ThrustRule};
use crate::quantity::Choice;
use crate::vessel::{ClosureKind, DiameterPair, MAX_PLIES, PlyKind, SeamBasis, Shape, TankForm};
use serde_json::Value;

/// Resolves a document.
pub(super) fn resolve(document: &Document) -> Result<Stage> {
    let leaves = Leaves::of(document)?;
    check_schema(document, &leaves)?;
    let mut form = skeleton(document, &leaves)?;
    set_choices(document, &leaves, &mut form)?;
    let labels = Labels::read(document, &leaves, form.items)?;
    let mut stage = Stage {
        form,
        slots: Box::new([0.0; INPUT_COUNT]),
        origins: vec![Origin::Absent; INPUT_COUNT],
        labels,
        document: tables::embedded(document, &leaves)?,
        changes: Vec::new(),
    };
    stage.fill_from_catalogue(document, &leaves)?;
    for (path, value) in leaves.iter() {
        if let Some(slot) = INPUTS.slot(path) {
            let field = &INPUTS.fields[slot];
            let number = number(field, value, document.bare_numbers)
                .map_err(|error| document.locate(path, error))?;
            if !stage.form.applies(field.applies, field.index) {
                let problem = Error::Inconsistent(format!("{path} does not apply to this stage"));
                return Err(document.locate(path, problem));
            }
            stage.slots[slot] = number;
            stage.origins[slot] = Origin::Given;
        }
    }
    stage.form = close(document, &leaves, &mut stage)?;
    let helical_on_flat = stage.form.tank.as_ref().is_some_and(|side| {
        let tank = &side.tank;
        tank.ply_kinds[..tank.plies].contains(&PlyKind::Helical)
            && !(tank.fore_closure.anchors_fibre() && tank.aft_closure.anchors_fibre())
    });
    if helical_on_flat {
        return Err(Error::Inconsistent(
            "helical plies need domed closures on both ends to hold them; over a flat bulkhead they \
             end free and carry no axial load: wind hoop plies only, or choose hemisphere or \
             ellipsoid_2_1"
                .to_owned(),
        ));
    }
    Ok(stage)
}

fn check_schema(document: &Document, leaves: &Leaves) -> Result<()> {
    match leaves.get("schema") {
        Some(value) if value.as_i64() == Some(1) => Ok(()),
        Some(value) => Err(document.locate(
            "schema",
            Error::Inconsistent(format!(
                "schema = {value} is not known; this version reads schema = 1"
            )),
        )),
        None if document.bare_numbers => Ok(()),
        None => Err(Error::Inconsistent(
            "schema is missing: begin the file with schema = 1".to_owned(),
        )),
    }
}

/// The form before its choices are set: what is there at all. Options stand at their first word
/// until [`set_choices`] has required each.
fn skeleton(document: &Document, leaves: &Leaves) -> Result<Form> {
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
    let shell = match (drawn, leaves.any_below("drag")) {
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
                "a body is drawn around its tank: describe [tank], or state the drag by [drag]"
                    .to_owned(),
            ));
        }
        (true, true) => {
            return Err(Error::Inconsistent(
                "both a drawn body (nose, bays, skin, fins) and a stated drag are given; keep one"
                    .to_owned(),
            ));
        }
        (false, false) => {
            return Err(Error::Inconsistent(
                "nothing says what the drag is: describe [nose], [skin], [fins] and bays, or state [drag]".to_owned(),
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
            example: "4".to_owned(),
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

fn set_choices(document: &Document, leaves: &Leaves, form: &mut Form) -> Result<()> {
    for (path, value) in leaves.iter() {
        let Some((choice, index)) = super::choices::find(path) else {
            continue;
        };
        let word = value.as_str().unwrap_or_default();
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
                    example: choice.options[0].0.to_owned(),
                });
            }
        }
    }
    Ok(())
}

/// Decides which of equivalent quantities are given, converts them to the inputs of the follow
/// rules, and checks that nothing is missing. Returns the final form.
fn close(document: &Document, leaves: &Leaves, stage: &mut Stage) -> Result<Form> {
    let target = stage.form.clone();
    let given = |stage: &Stage, path: &str| {
        INPUTS
            .slot(path)
            .is_some_and(|slot| stage.origins[slot] == Origin::Given)
    };
    if let Some(side) = &mut stage.form.tank {
        side.tank.diameters = diameter_pair(leaves)?;
    }
    volume_from_load(stage)?;
    let specific_impulse_given = thrust_from_curve(document, leaves, stage)?;
    for group in EQUIVALENTS {
        let (Some((choice, index)), true) = (
            super::choices::find(group.rule),
            leaves_room(stage, group.members),
        ) else {
            continue;
        };
        let stated: Vec<&str> = group
            .members
            .iter()
            .filter(|(_, paths)| paths.iter().any(|path| given(stage, path)))
            .map(|(word, _)| *word)
            .collect();
        match stated[..] {
            [word] => {
                choice.set(&mut stage.form, index, group.rule, word)?;
                let paths = group.members.iter().find(|(known, _)| *known == word);
                if let Some(path) =
                    paths.and_then(|(_, paths)| paths.iter().find(|path| !given(stage, path)))
                {
                    return Err(missing(path));
                }
            }
            [] => return Err(missing_one_of(group.members)),
            _ if group.rule == "follow.thrust" && !specific_impulse_given => {}
            _ => {
                let paths = group.members.iter().flat_map(|(_, paths)| paths.iter());
                let named = paths
                    .filter(|path| given(stage, path))
                    .copied()
                    .collect::<Vec<_>>();
                return Err(document.locate(
                    named[1],
                    Error::Inconsistent(format!(
                        "{} are given together; each follows from the other: state one",
                        named.join(" and ")
                    )),
                ));
            }
        }
    }
    require_all(stage, specific_impulse_given)?;
    if !specific_impulse_given {
        specific_impulse_from_thrust(stage)?;
    }
    refresh(&stage.form, &mut stage.slots)?;
    let mut form = target;
    if let (Some(side), Some(resolved)) = (&mut form.tank, &stage.form.tank) {
        side.tank.diameters = resolved.tank.diameters;
    }
    for (slot, field) in INPUTS.fields.iter().enumerate() {
        let active =
            form.applies(field.applies, field.index) && follows(&form, &field.path).is_none();
        if active && stage.origins[slot] == Origin::Absent {
            in_range(field, stage.slots[slot]).map_err(|error| {
                Error::Infeasible(format!(
                    "what is stated leads to an input outside its range: {error}"
                ))
            })?;
        }
        if active && stage.origins[slot] == Origin::Absent {
            stage.origins[slot] = Origin::Derived;
        }
    }
    Ok(form)
}

fn leaves_room(stage: &Stage, members: &[(&str, &[&str])]) -> bool {
    members
        .iter()
        .flat_map(|(_, paths)| paths.iter())
        .any(|path| {
            INPUTS.slot(path).is_some_and(|slot| {
                let field = &INPUTS.fields[slot];
                stage.form.applies(field.applies, field.index)
            })
        })
}

fn missing_one_of(members: &[(&str, &[&str])]) -> Error {
    let options = members
        .iter()
        .map(|(_, paths)| paths.join(" with "))
        .collect::<Vec<_>>();
    Error::Inconsistent(format!(
        "one of {} is missing: state one of them",
        options.join(", ")
    ))
}

fn diameter_pair(leaves: &Leaves) -> Result<DiameterPair> {
    let given: Vec<&str> = DIAMETERS
        .into_iter()
        .filter(|path| leaves.get(path).is_some())
        .collect();
    DiameterPair::ALL
        .iter()
        .copied()
        .find(|pair| given.len() == 2 && pair_paths(*pair).iter().all(|path| given.contains(path)))
        .ok_or_else(|| {
            Error::Inconsistent(format!(
                "exactly two of {} must be given, and not both outside diameters (they differ by the \
                 wrap's build-up); given: {}",
                DIAMETERS.join(", "),
                if given.is_empty() { "none".to_owned() } else { given.join(", ") }
            ))
        })
}

/// Load mass and ullage together size the tank where no size is stated.
fn volume_from_load(stage: &mut Stage) -> Result<()> {
    let slot = |path: &str| INPUTS.find(path, "input");
    let (volume, length, fineness) = (
        slot("tank.volume")?,
        slot("tank.length")?,
        slot("tank.fineness_ratio")?,
    );
    let (ullage, mass) = (
        slot("propellant.ullage")?,
        slot("propellant.oxidiser_mass")?,
    );
    let given = |stage: &Stage, slot: usize| stage.origins[slot] == Origin::Given;
    let sized = [volume, length, fineness]
        .into_iter()
        .any(|slot| given(stage, slot));
    let temperature = slot("propellant.fill_temperature")?;
    if stage.form.tank.is_none()
        || sized
        || !given(stage, ullage)
        || !given(stage, mass)
        || !given(stage, temperature)
    {
        return Ok(());
    }
    let saturated = nitrous_oxide::saturation(stage.slots[temperature]);
    let vapour_share = stage.slots[ullage];
    let density =
        saturated.liquid_density * (1.0 - vapour_share) + saturated.vapour_density * vapour_share;
    stage.slots[volume] = stage.slots[mass] / density;
    stage.origins[volume] = Origin::Given;
    stage.origins[mass] = Origin::Absent;
    Ok(())
}

/// Level and duration from a thrust curve. Returns whether a specific impulse is given; without one,
/// level and duration together determine it.
fn thrust_from_curve(document: &Document, leaves: &Leaves, stage: &mut Stage) -> Result<bool> {
    let slot = |path: &str| INPUTS.find(path, "input");
    let (thrust, burn_time) = (slot("motor.thrust")?, slot("motor.burn_time")?);
    let specific_impulse = leaves.get("motor.specific_impulse").is_some();
    if leaves.get("motor.curve").is_some() {
        for (slot, path) in [(thrust, "motor.thrust"), (burn_time, "motor.burn_time")] {
            if stage.origins[slot] == Origin::Given {
                return Err(document.locate(
                    path,
                    Error::Inconsistent(format!(
                        "{path} is given beside motor.curve, which already holds it: state one"
                    )),
                ));
            }
        }
        stage.slots[thrust] = stage.form.curve.mean();
        stage.slots[burn_time] = stage.form.curve.duration();
        let by_level = stage.form.thrust_rule == ThrustRule::Level;
        if by_level || !specific_impulse {
            stage.origins[thrust] = Origin::Given;
        }
        if !by_level || !specific_impulse {
            stage.origins[burn_time] = Origin::Given;
        }
    }
    let both = [thrust, burn_time]
        .into_iter()
        .all(|slot| stage.origins[slot] == Origin::Given);
    if specific_impulse && both {
        return Err(document.locate("motor.specific_impulse", Error::Inconsistent(
            "motor.thrust, motor.burn_time and motor.specific_impulse are given together with the \
             propellant; one follows from the others: leave one out".to_owned(),
        )));
    }
    Ok(specific_impulse)
}

fn specific_impulse_from_thrust(stage: &mut Stage) -> Result<()> {
    let slot = |path: &str| INPUTS.find(path, "input");
    let (thrust, burn_time) = (slot("motor.thrust")?, slot("motor.burn_time")?);
    let specific_impulse = slot("motor.specific_impulse")?;
    // The propellant burned does not depend on it; any value lets the load settle.
    stage.slots[specific_impulse] = INPUTS.fields[specific_impulse].lower;
    let settled = super::chain::settle(&stage.form, &point(&stage.slots));
    let impulse = stage.slots[thrust] * stage.slots[burn_time];
    stage.slots[specific_impulse] =
        impulse / (settled.load.burned * crate::atmosphere::STANDARD_GRAVITY);
    Ok(())
}

/// Checks that every input without equivalents is there.
pub(super) fn require_all(stage: &Stage, specific_impulse_given: bool) -> Result<()> {
    for (slot, field) in INPUTS.fields.iter().enumerate() {
        let path = field.path.as_str();
        let optional = path == "mass.added"
            || path == "motor.specific_impulse" && !specific_impulse_given
            || has_equivalents(path);
        let applies = stage.form.applies(field.applies, field.index);
        if applies && !optional && stage.origins[slot] == Origin::Absent {
            return Err(missing(path));
        }
    }
    Ok(())
}

fn missing(path: &str) -> Error {
    let field = INPUTS.slot(path).map(|slot| &INPUTS.fields[slot]);
    Error::Missing {
        path: path.to_owned(),
        doc: field.map_or(String::new(), |field| lower_first(field.doc)),
        example: field.map_or(String::new(), |field| {
            format!("1 {}", field.quantity.printed().symbol)
                .trim()
                .to_owned()
        }),
    }
}

/// The path of an entry in a list of tables.
pub(super) fn item_path(list: &str, index: usize, key: &str) -> String {
    format!("{list}[{index}].{key}")
}

/// Shown for a JSON value that should have been a list of pairs.
pub(super) fn shown(value: &Value) -> String {
    value.to_string().chars().take(60).collect()
}
