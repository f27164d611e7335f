//! From a document to a stage: form, numbers in SI, and where each came from.

use super::follow::{DIAMETERS, EQUIVALENTS, follows, has_equivalents, pair_paths, refresh};
use super::form::{Form, PressureBasis};
use super::given::{Labels, Origin, Stage};
use super::leaves::{Leaves, TEXTS};
use super::neutral;
use super::on_record;
use super::requirement::requirements;
use super::schema::{INPUT_COUNT, INPUTS, point};
use super::skeleton;
use super::tables;
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide;
use crate::motor::ThrustRule;
use crate::quantity::{Choice, in_range, lower_first, number, wanted};
use crate::vessel::{DiameterPair, PlyKind};
use serde_json::Map;

/// Resolves a document; `findings` holds what was noted while it was read. Every mistake that does
/// not merely follow from another is told.
pub(super) fn resolve(document: &Document, mut findings: Findings) -> Result<Stage> {
    let leaves = Leaves::of(document, &mut findings);
    check_schema(document, &leaves, &mut findings)?;
    let numbers = numbers(document, &leaves, &mut findings);
    texts(document, &leaves, &mut findings);
    let Some(mut form) = skeleton::skeleton(document, &leaves, &mut findings) else {
        findings.conclude()?;
        return Err(Error::Inconsistent("the stage cannot be read".to_owned()));
    };
    let open = skeleton::set_choices(document, &leaves, &mut form, &mut findings);
    let labels = Labels::read(document, &leaves, form.items);
    let mut stage = Stage {
        form,
        slots: neutral::slots(),
        origins: vec![Origin::Absent; INPUT_COUNT],
        labels,
        maturities: Vec::new(),
        requirements: Vec::new(),
        document: Map::new(),
        changes: Vec::new(),
    };
    stage.fill_from_catalogue(document, &leaves, &mut findings);
    stage.fill_from_maturity(document, &leaves, &mut findings);
    let possible = possible_forms(&stage.form, &open);
    for (slot, number) in numbers {
        let field = &INPUTS.fields[slot];
        let applies = |form: &Form| form.applies(field.applies, field.index);
        if !possible.iter().any(applies) {
            let problem = format!(
                "{} does not apply to this stage; leave it out, or give the stage {}",
                field.path,
                field.applies.needs()
            );
            findings.note(document, At::Key(&field.path), Error::Inconsistent(problem));
        }
        stage.slots[slot] = number;
        stage.origins[slot] = Origin::Given;
    }
    stage.requirements = requirements(document, &leaves, &stage.form, &mut findings);
    // The follow rules asked for; while the stage is read they say what is stated.
    let target = stage.form.clone();
    let by_impulse = settle_equivalents(document, &leaves, &mut stage, &mut findings);
    for error in absent(&stage, by_impulse) {
        let path = error.path();
        let certain = INPUTS.slot(path).is_none_or(|slot| {
            let field = &INPUTS.fields[slot];
            let applies = |form: &Form| form.applies(field.applies, field.index);
            possible.iter().all(applies)
        });
        if certain && !leaves.in_doubt(path, &findings) {
            // Where a whole row is missing its name is asked for, and not each of its values.
            let row = on_record::row_of(path).filter(|(table, _)| !leaves.any_below(table));
            let error = row.map_or(error.clone(), |(table, names)| missing_row(table, &names));
            let path = error.path().to_owned();
            findings.note(document, At::Table(&path), error);
        }
    }
    if findings.is_empty() {
        let at = stage
            .form
            .tank
            .as_ref()
            .filter(|side| side.tank.aft_closure.anchors_fibre());
        let closure = if at.is_some() { "fore" } else { "aft" };
        let path = format!("tank.{closure}_closure.kind");
        findings.take(document, At::Value(&path), check(&stage));
    }
    findings.conclude()?;
    stage.document = tables::embedded(document, &leaves)?;
    close(document, &mut stage, target, by_impulse)
        .map_err(|error| document.locate_at(named_in(&error, &leaves), error))?;
    stage.name_own_factors();
    Ok(stage)
}

/// The numbers as slots, whatever the form. One that cannot be read counts as given.
fn numbers(document: &Document, leaves: &Leaves, findings: &mut Findings) -> Vec<(usize, f64)> {
    let mut numbers = Vec::new();
    for (path, value) in leaves.iter() {
        let Some(slot) = INPUTS.slot(path) else {
            continue;
        };
        let field = &INPUTS.fields[slot];
        // What no value can be made of has been noted with the document.
        let unreadable = value.is_null() && !document.bare_numbers;
        let read = (!unreadable).then(|| number(field, value, document.bare_numbers));
        let read = read.and_then(|read| findings.take(document, At::Value(path), read));
        numbers.push((slot, read.unwrap_or(field.lower)));
    }
    numbers
}

/// Notes texts that are none.
fn texts(document: &Document, leaves: &Leaves, findings: &mut Findings) {
    for (path, _) in leaves.iter() {
        let pattern = super::choices::split_index(path).0;
        let text = TEXTS.iter().any(|(known, _)| *known == pattern);
        let number = ["growth_allowance", "at_least", "at_most"]
            .iter()
            .any(|key| pattern.ends_with(key));
        if text && !number {
            findings.take(document, At::Value(path), leaves.text(document, path));
        }
    }
}

/// The form, and what it might be where a choice is open.
fn possible_forms(form: &Form, open: &[String]) -> Vec<Form> {
    let mut possible = vec![form.clone()];
    for path in open {
        let Some((choice, index)) = super::choices::find(path) else {
            continue;
        };
        for (word, _) in choice.options {
            let mut other = form.clone();
            if choice.set(&mut other, index, path, word).is_ok() {
                possible.push(other);
            }
        }
    }
    possible
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

/// Notes a schema that is not ours. Of a file with nothing in it only that is told.
fn check_schema(document: &Document, leaves: &Leaves, findings: &mut Findings) -> Result<()> {
    let top = At::Top("schema");
    match leaves.get("schema") {
        Some(value) if value.as_i64() == Some(1) => {}
        Some(value) => {
            let problem = format!("schema = {value} is not known; this version reads schema = 1");
            findings.note(document, At::Value("schema"), Error::Inconsistent(problem));
        }
        None if document.bare_numbers => {}
        None if document.tree.is_empty() => {
            let problem = "there is nothing in this file; begin with schema = 1, and take one of \
                           the packaged examples as a pattern";
            let error = Error::Inconsistent(problem.to_owned());
            return Err(document.locate_at(top, error));
        }
        None if findings.is_damaged("schema") => {}
        None => {
            let problem = "schema is missing; begin the file with schema = 1".to_owned();
            findings.note(document, top, Error::Inconsistent(problem));
        }
    }
    Ok(())
}

/// Decides which of equivalent quantities are given and notes pairs that contradict each other or
/// lack a member. Returns whether a specific impulse is given.
fn settle_equivalents(
    document: &Document,
    leaves: &Leaves,
    stage: &mut Stage,
    findings: &mut Findings,
) -> bool {
    if stage.form.tank.is_some() {
        let doubt = DIAMETERS
            .iter()
            .any(|path| leaves.get(path).is_none() && leaves.in_doubt(path, findings));
        let pair = diameter_pair(leaves);
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
                let problem = format!(
                    "{} are given together; each follows from the other: state one",
                    named.join(" and ")
                );
                let last = named.last().copied().unwrap_or(group.rule);
                findings.note(document, At::Key(last), Error::Inconsistent(problem));
            }
        }
    }
    by_impulse
}

/// Where an error about the whole stands: at the first value of the file that it names.
fn named_in<'a>(error: &Error, leaves: &'a Leaves) -> At<'a> {
    let text = error.to_string();
    let named = leaves
        .iter()
        .find(|(path, _)| path.contains('.') && text.contains(path));
    named.map_or(At::Top(""), |(path, _)| At::Value(path))
}

/// Converts what is given to the inputs of the follow rules.
fn close(
    document: &Document,
    stage: &mut Stage,
    target: Form,
    specific_impulse_given: bool,
) -> Result<()> {
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
                let problem =
                    format!("what is stated leads to an input outside its range: {error}");
                document.locate_at(At::Table(&field.path), Error::Infeasible(problem))
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
    stage.form = form;
    Ok(())
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
        "one of {} is missing; state one of them",
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
                 wrap's build-up); {}",
                DIAMETERS.join(", "),
                match given.len() {
                    0 => "none is given: add two".to_owned(),
                    1 => format!("only {} is given: add one", given.join(", ")),
                    2 => format!("{} are given: state another in place of one", given.join(" and ")),
                    _ => format!("{} are given: leave out all but two", given.join(", ")),
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
    absent(stage, specific_impulse_given)
        .next()
        .map_or(Ok(()), Err)
}

/// What is missing, one by one.
fn absent(stage: &Stage, specific_impulse_given: bool) -> impl Iterator<Item = Error> {
    let basis = stage.form.tank.as_ref().map(|side| side.basis);
    let unreasoned = basis == Some(PressureBasis::Stated) && stage.labels.reason.is_empty();
    let reason = unreasoned.then(|| Error::Missing {
        path: "pressure.reason".to_owned(),
        doc: "one sentence that says why the stated MEOP is right".to_owned(),
        how: "write one sentence in quotes".to_owned(),
    });
    let numbers = INPUTS
        .fields
        .iter()
        .enumerate()
        .filter(move |(slot, field)| {
            let path = field.path.as_str();
            let optional = neutral::is_neutral(path)
                || path == "motor.specific_impulse" && !specific_impulse_given
                || has_equivalents(path);
            let applies = stage.form.applies(field.applies, field.index);
            applies && !optional && stage.origins[*slot] == Origin::Absent
        });
    reason
        .into_iter()
        .chain(numbers.map(|(_, field)| missing(&field.path)))
}

/// A row on record that is missing, and what would do instead of it.
fn missing_row(table: &str, names: &[String]) -> Error {
    let path = format!("{table}.name");
    let doc = TEXTS.iter().find(|(known, _)| *known == path);
    let names: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
    Error::Missing {
        doc: doc.map_or(String::new(), |(_, doc)| (*doc).to_owned()),
        how: format!(
            "choose {}, or state the values and their source",
            names.join(", ")
        ),
        path,
    }
}

/// What is missing, and what would do instead of it.
fn missing_beside<'a>(path: &str, others: impl Iterator<Item = &'a &'static str>) -> Error {
    let mut error = missing(path);
    if let Error::Missing { how, .. } = &mut error {
        let others: Vec<&str> = others.copied().collect();
        *how = format!("{how}, or state {} too", others.join(" or "));
    }
    error
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
