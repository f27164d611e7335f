//! From a document to a stage: form, numbers in SI, and where each came from.

use super::document::Document;
use super::follow::{DIAMETERS, EQUIVALENTS, follows, has_equivalents, pair_paths, refresh};
use super::form::{Form, PressureBasis};
use super::given::{Labels, Origin, Stage};
use super::leaves::{Leaves, in_range, lower_first, number};
use super::neutral;
use super::requirement::requirements;
use super::schema::{INPUT_COUNT, INPUTS, point};
use super::skeleton;
use super::tables;
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide;
use crate::motor::ThrustRule;
use crate::quantity::{Choice, wanted};
use crate::vessel::{DiameterPair, PlyKind};

/// Resolves a document.
pub(super) fn resolve(document: &Document) -> Result<Stage> {
    let leaves = Leaves::of(document)?;
    check_schema(document, &leaves)?;
    let mut form = skeleton::skeleton(document, &leaves)?;
    skeleton::set_choices(document, &leaves, &mut form)?;
    let labels = Labels::read(document, &leaves, form.items)?;
    let mut stage = Stage {
        form,
        slots: neutral::slots(),
        origins: vec![Origin::Absent; INPUT_COUNT],
        labels,
        maturities: Vec::new(),
        requirements: Vec::new(),
        document: tables::embedded(document, &leaves)?,
        changes: Vec::new(),
    };
    stage.fill_from_catalogue(document, &leaves)?;
    stage.fill_from_maturity(document, &leaves)?;
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
    check(&stage)?;
    stage.name_own_factors();
    stage.requirements = requirements(document, &leaves, &stage.form)?;
    Ok(stage)
}

/// Checks that the parts of a stage fit together.
pub(super) fn check(stage: &Stage) -> Result<()> {
    let Some(side) = &stage.form.tank else {
        return Ok(());
    };
    let tank = &side.tank;
    let bare = [tank.fore_closure, tank.aft_closure]
        .into_iter()
        .find(|kind| !kind.anchors_fibre());
    let (true, Some(kind)) = (
        tank.ply_kinds[..tank.plies].contains(&PlyKind::Helical),
        bare,
    ) else {
        return Ok(());
    };
    let reason = if kind.is_domed() {
        "a torisphere's knuckle is under hoop compression, and a fibre under tension alone neither \
         carries that nor keeps to a geodesic there"
    } else {
        "over a flat bulkhead they end free and carry no axial load"
    };
    Err(Error::Inconsistent(format!(
        "helical plies need closures on both ends that hold them; {reason}: wind hoop plies only, or \
         choose hemisphere or ellipsoid_2_1"
    )))
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
            stage.origins[slot] = if neutral::is_neutral(&field.path) {
                Origin::Neutral
            } else {
                Origin::Derived
            };
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

/// Checks that every input without equivalents is there, and the reason of a stated MEOP.
pub(super) fn require_all(stage: &Stage, specific_impulse_given: bool) -> Result<()> {
    let basis = stage.form.tank.as_ref().map(|side| side.basis);
    if basis == Some(PressureBasis::Stated) && stage.labels.reason.is_empty() {
        return Err(Error::Missing {
            path: "pressure.reason".to_owned(),
            doc: "one sentence that says why the stated MEOP is right".to_owned(),
            how: "write one sentence in quotes".to_owned(),
        });
    }
    for (slot, field) in INPUTS.fields.iter().enumerate() {
        let path = field.path.as_str();
        let optional = neutral::is_neutral(path)
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
        how: field.map_or(String::new(), |field| {
            format!("write {}", wanted(field.quantity))
        }),
    }
}
