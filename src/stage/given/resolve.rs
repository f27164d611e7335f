//! From a document to a stage: form, numbers in SI, and where each came from.

use super::bolt_rows;
use super::equivalents::settle_equivalents;
use super::fittings;
use super::follow::{follows, has_equivalents, refresh};
use super::leaves::{Leaves, TEXTS};
use super::missing::{missing, missing_row};
use super::neutral;
use super::on_record;
use super::openings;
use super::plies::{self, PLIES};
use super::requirement::requirements;
use super::skeleton;
use super::stage::{LINER_METAL, Labels, Origin, Stage};
use super::stocked;
use super::tables;
use crate::document::{At, Document, Findings};
use crate::error::{Error, Result};
use crate::material::{STRENGTHS, out_of_order};
use crate::quantity::{Quantity, in_range, number, show_apart};
use crate::stage::chain::form::{Form, PressureBasis};
use crate::stage::chain::schema::{INPUT_COUNT, INPUTS, point};
use serde_json::Map;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Resolves a document; `findings` holds what was noted while it was read. Every mistake that does
/// not merely follow from another is told.
pub(super) fn resolve(document: &Document, mut findings: Findings) -> Result<Stage> {
    let leaves = Leaves::of(document, &mut findings);
    document.check_schema(&mut findings)?;
    let numbers = numbers(document, &leaves, &mut findings);
    texts(document, &leaves, &mut findings);
    let (catalogue, whole) = stocked::catalogue(document, &leaves, &mut findings);
    let Some(mut form) = skeleton::skeleton(document, &leaves, &mut findings) else {
        findings.conclude()?;
        return Err(Error::Inconsistent("the stage cannot be read".to_owned()));
    };
    let open = skeleton::set_choices(document, &leaves, &mut form, &mut findings);
    let labels = Labels::read(document, &leaves, &form);
    let mut stage = Stage {
        form,
        slots: neutral::slots(),
        origins: vec![Origin::Absent; INPUT_COUNT],
        labels,
        maturities: Vec::new(),
        catalogue: Arc::new(catalogue),
        named: Vec::new(),
        places: Arc::new(BTreeMap::new()),
        requirements: Arc::new([]),
        document: Arc::new(Map::new()),
        changes: Vec::new(),
    };
    stage.fill_from_catalogue(document, &leaves, whole, &mut findings);
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
    check_strengths(document, &stage, &mut findings);
    stage.requirements = requirements(document, &leaves, &stage.form, &mut findings).into();
    // The follow rules asked for; while the stage is read they say what is stated.
    let mut target = stage.form.clone();
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
            let row = on_record::row_of(&stage.catalogue, path)
                .filter(|(table, _)| !leaves.any_below(table));
            let error = match row {
                Some((table, names)) => missing_row(table, &names),
                None => on_record::name_holders(&stage, error),
            };
            let path = error.path().to_owned();
            findings.note(document, At::Table(&path), error);
        }
    }
    if let (Some(value), Some(side)) = (leaves.get(PLIES), &mut stage.form.tank)
        && let Some(plies) = findings.take(
            document,
            At::Value(PLIES),
            plies::wound(value, side.tank.plies),
        )
    {
        side.tank.plies = plies;
        if let Some(side) = &mut target.tank {
            side.tank.plies = plies;
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
        match bolt_rows::check(&stage) {
            Ok(()) => {
                findings.take(document, At::Value(&path), check(&stage));
            }
            Err(error) => findings.note(document, named_in(&error, &leaves), error),
        }
    }
    findings.conclude()?;
    stage.document = Arc::new(tables::embedded(document, &leaves)?);
    stage.places = Arc::new(stage.take_along(document, &leaves));
    // What cannot be wound or attached is told by its input, before the chain finds that the design has a fault.
    openings::check(&stage)
        .and_then(|()| fittings::check(&stage))
        .and_then(|()| close(document, &mut stage, target, by_impulse))
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
        let readable = !document.is_unreadable(path);
        let read = readable.then(|| number(field, value, document.bare_numbers));
        let read = read.and_then(|read| findings.take(document, At::Value(path), read));
        numbers.push((slot, read.unwrap_or(field.lower)));
    }
    numbers
}

/// Notes a stated yield strength above the ultimate strength, or the other way round; two values of one
/// row were told with the row. Where a number varies, a study shall not end there: then it is a caution.
fn check_strengths(document: &Document, stage: &Stage, findings: &mut Findings) {
    for pair in STRENGTHS {
        let paths = pair.map(|key| format!("{LINER_METAL}.{key}"));
        let [Some(yields), Some(breaks)] = paths.each_ref().map(|path| INPUTS.slot(path)) else {
            continue;
        };
        let slots = [yields, breaks];
        let there = slots
            .iter()
            .all(|slot| stage.origins[*slot] != Origin::Absent);
        let told = paths.iter().any(|path| findings.tells(path));
        let given =
            (slots.iter().zip(&paths)).find(|(slot, _)| stage.origins[**slot] == Origin::Given);
        let (false, true, Some((_, at))) = (told, there, given) else {
            continue;
        };
        let values = slots.map(|slot| stage.slots[slot]);
        if values[0] > values[1] {
            let shown = [0, 1].map(|at| show_apart(values[at], values, Quantity::Stress));
            let error = out_of_order(LINER_METAL, pair, [&shown[0], &shown[1]]);
            findings.note(document, At::Value(at), error);
        }
    }
}

/// Notes texts that are none.
fn texts(document: &Document, leaves: &Leaves, findings: &mut Findings) {
    for (path, _) in leaves.iter() {
        let pattern = super::choices::split_index(path).0;
        if TEXTS.iter().any(|(known, _)| *known == pattern) {
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
    if let Some((_, error)) = stage.contradictions().into_iter().next() {
        return Err(error);
    }
    let Some(side) = &stage.form.tank else {
        return Ok(());
    };
    let tank = &side.tank;
    bolt_rows::check_seam(tank)?;
    let bare = [tank.fore_closure, tank.aft_closure]
        .into_iter()
        .find(|kind| !kind.anchors_fibre());
    let (true, Some(kind)) = (tank.has_helical(), bare) else {
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
         choose hemisphere, ellipsoid_2_1 or isotensoid"
    )))
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

fn specific_impulse_from_thrust(stage: &mut Stage) -> Result<()> {
    let slot = |path: &str| INPUTS.find(path, "input");
    let (thrust, burn_time) = (slot("motor.thrust")?, slot("motor.burn_time")?);
    let specific_impulse = slot("motor.specific_impulse")?;
    // The propellant burned does not depend on it; any value lets the load settle.
    stage.slots[specific_impulse] = INPUTS.fields[specific_impulse].lower;
    let settled = crate::stage::chain::settle(&stage.form, &point(&stage.slots));
    let impulse = stage.slots[thrust] * stage.slots[burn_time];
    stage.slots[specific_impulse] =
        impulse / (settled.load.burned * crate::atmosphere::STANDARD_GRAVITY);
    Ok(())
}

/// Checks that every input without equivalents is there, and the reason of a stated MEOP.
pub(super) fn require_all(stage: &Stage, specific_impulse_given: bool) -> Result<()> {
    absent(stage, specific_impulse_given)
        .next()
        .map_or(Ok(()), |error| Err(on_record::name_holders(stage, error)))
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
            let applies = stage.form.applies(field.applies, field.index);
            let optional = || {
                let path = field.path.as_str();
                neutral::is_neutral(path)
                    || path == "motor.specific_impulse" && !specific_impulse_given
                    || has_equivalents(path)
            };
            stage.origins[*slot] == Origin::Absent && applies && !optional()
        });
    reason
        .into_iter()
        .chain(numbers.map(|(_, field)| missing(&field.path)))
}
