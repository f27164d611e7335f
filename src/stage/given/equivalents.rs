//! Which of equivalent quantities a document gives: two of four diameters and wall, one measure of the
//! tank's size, of its load, of the thrust.

use super::follow::{DIAMETERS, EQUIVALENTS, pair_paths};
use super::leaves::Leaves;
use super::missing::{missing, missing_beside};
use super::stage::{Origin, Stage};
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide;
use crate::motor::ThrustRule;
use crate::quantity::Choice;
use crate::stage::chain::charge::filled_density;
use crate::stage::chain::schema::INPUTS;
use crate::vessel::DiameterPair;

/// Decides which of equivalent quantities are given and notes pairs that contradict each other or
/// lack a member. Returns whether a specific impulse is given.
pub(super) fn settle_equivalents(
    document: &Document,
    leaves: &Leaves,
    stage: &mut Stage,
    findings: &mut Findings,
) -> bool {
    if stage.form.tank.is_some() {
        let doubt = DIAMETERS
            .iter()
            .any(|path| leaves.get(path).is_none() && leaves.in_doubt(path, findings));
        let pair = diameter_pair(stage);
        let given = || DIAMETERS.iter().filter(|path| leaves.get(path).is_some());
        let last = given().max_by_key(|path| document.offset(At::Key(path)));
        let at = match last.filter(|_| given().count() > 1) {
            Some(path) => At::Key(path),
            None => At::Table("tank.outer_diameter"),
        };
        if !doubt
            && let Some(pair) = findings.take(document, at, pair)
            && let Some(side) = &mut stage.form.tank
        {
            side.tank.diameters = pair;
        }
    }
    if findings.is_empty() {
        let sized = volume_from_load(stage);
        findings.take(document, At::Key("tank.volume"), sized);
    }
    let impulse = thrust_from_curve(document, leaves, stage);
    let impulse = findings.take(document, At::Key("motor.thrust"), impulse);
    let by_impulse = impulse.unwrap_or(true);
    let given = |stage: &Stage, path: &str| {
        INPUTS
            .slot(path)
            .is_some_and(|slot| stage.origins[slot] == Origin::Given)
    };
    for group in EQUIVALENTS {
        let (Some((choice, index)), true) = (
            super::choices::find(group.rule),
            leaves_room(stage, group.members),
        ) else {
            continue;
        };
        let paths = || group.members.iter().flat_map(|(_, paths)| paths.iter());
        let doubt = paths().any(|path| leaves.in_doubt(path, findings));
        let stated: Vec<&str> = group
            .members
            .iter()
            .filter(|(_, paths)| paths.iter().any(|path| given(stage, path)))
            .map(|(word, _)| *word)
            .collect();
        match stated[..] {
            [word] => {
                let set = choice.set(&mut stage.form, index, group.rule, word);
                findings.take(document, At::Key(group.rule), set);
                let members = group.members.iter().find(|(known, _)| *known == word);
                let lacking =
                    members.and_then(|(_, paths)| paths.iter().find(|path| !given(stage, path)));
                if let (Some(path), false) = (lacking, doubt) {
                    findings.note(document, At::Table(path), missing(path));
                }
                let path = "motor.specific_impulse";
                if group.rule == "follow.thrust" && !by_impulse && !leaves.in_doubt(path, findings)
                {
                    let error = missing_beside(path, paths().filter(|other| !given(stage, other)));
                    findings.note(document, At::Table(path), error);
                }
            }
            [] if doubt || impulse.is_none() && group.rule == "follow.thrust" => {}
            [] => {
                let at = paths().next().copied().unwrap_or(group.rule);
                findings.note(document, At::Table(at), missing_one_of(group.members));
            }
            _ if group.rule == "follow.thrust" && !by_impulse || impulse.is_none() => {}
            _ => {
                let named: Vec<&str> = paths().filter(|path| given(stage, path)).copied().collect();
                let named_together = named.join(" and ");
                let single = group.members.iter().all(|(_, paths)| paths.len() == 1);
                let problem = if single {
                    format!(
                        "{named_together} are given together; each follows from the other: state one"
                    )
                } else {
                    // One rule for several parts, each of which follows from its own fellow.
                    format!(
                        "{named_together} are given together; one rule, {}, holds for all of them: \
                         state {}",
                        group.rule,
                        options(group.members).join(", or ")
                    )
                };
                let last = named.last().copied().unwrap_or(group.rule);
                findings.note(document, At::Key(last), Error::Inconsistent(problem));
            }
        }
    }
    by_impulse
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
    Error::Inconsistent(format!(
        "one of {} is missing; state one of them",
        options(members).join(", ")
    ))
}

/// What can be stated in place of one another.
fn options(members: &[(&str, &[&str])]) -> Vec<String> {
    let paths = members.iter().map(|(_, paths)| paths.join(" with "));
    paths.collect()
}

/// What is stated or filled in by a row decides the pair.
fn diameter_pair(stage: &Stage) -> Result<DiameterPair> {
    let filled = |path: &str| {
        let slot = INPUTS.slot(path)?;
        let on_record = stage.origins[slot] == Origin::Catalogue;
        stage.filled_from(slot).filter(|_| on_record)
    };
    let given: Vec<&str> = DIAMETERS
        .into_iter()
        .filter(|path| {
            INPUTS
                .slot(path)
                .is_some_and(|slot| stage.origins[slot] != Origin::Absent)
        })
        .collect();
    let told = given.iter().map(|path| match filled(path) {
        Some((named, _)) => format!("{path} (of {})", named.place.path),
        None => (*path).to_owned(),
    });
    let told: Vec<String> = told.collect();
    DiameterPair::ALL
        .iter()
        .copied()
        .find(|pair| given.len() == 2 && pair_paths(*pair).iter().all(|path| given.contains(path)))
        .ok_or_else(|| {
            Error::Inconsistent(format!(
                "exactly two of {} must be given, and not both outside diameters (they differ by the \
                 wrap's build-up); {}",
                DIAMETERS.join(", "),
                match told.as_slice() {
                    [] => "none is given: add two".to_owned(),
                    [one] => format!("only {one} is given: add one"),
                    [_, _] => format!("{} are given: state another in place of one", told.join(" and ")),
                    _ => format!("{} are given: leave out all but two", told.join(", ")),
                }
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
    stage.slots[volume] = stage.slots[mass] / filled_density(&saturated, stage.slots[ullage]);
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
