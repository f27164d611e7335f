//! Follow rules: which of several equivalent quantities is the input, and the values of the others.

use super::choices;
use crate::airframe::bay_equivalents;
use crate::error::Result;
use crate::stage::chain::form::Form;
use crate::stage::chain::schema::{INPUT_COUNT, INPUTS, point};
use crate::stage::chain::{Settled, settle};
use crate::vessel::DiameterPair;

/// Equivalent inputs under one follow rule: the rule's word and the inputs it makes active.
pub(super) struct Equivalents {
    pub rule: &'static str,
    pub members: &'static [(&'static str, &'static [&'static str])],
}

/// Every follow rule that chooses an input.
pub(super) const EQUIVALENTS: &[Equivalents] = &[
    Equivalents {
        rule: "follow.tank",
        members: &[
            ("volume", &["tank.volume"]),
            ("length", &["tank.length"]),
            ("fineness", &["tank.fineness_ratio"]),
        ],
    },
    Equivalents {
        rule: "follow.load",
        members: &[
            ("ullage", &["propellant.ullage"]),
            ("mass", &["propellant.oxidiser_mass"]),
        ],
    },
    Equivalents {
        rule: "follow.thrust",
        members: &[
            ("level", &["motor.thrust"]),
            ("duration", &["motor.burn_time"]),
        ],
    },
    Equivalents {
        rule: "follow.nose",
        members: &[
            ("fineness", &["nose.fineness_ratio"]),
            ("length", &["nose.length"]),
        ],
    },
    Equivalents {
        rule: "follow.fins",
        members: &[
            ("static_margin", &["fins.static_margin"]),
            ("calibres", &["fins.root_chord_calibres"]),
            ("size", &["fins.root_chord"]),
        ],
    },
    Equivalents {
        rule: "follow.bays",
        members: &[
            ("volume", &["payload_bay.volume", "recovery_bay.volume"]),
            ("length", &["payload_bay.length", "recovery_bay.length"]),
        ],
    },
];

/// The two of diameters and wall that a pair makes active.
pub(super) fn pair_paths(pair: DiameterPair) -> [&'static str; 2] {
    match pair {
        DiameterPair::OuterAndWall => ["tank.outer_diameter", "tank.liner.wall"],
        DiameterPair::OuterAndInner => ["tank.outer_diameter", "tank.liner.inner_diameter"],
        DiameterPair::LinerOuterAndWall => ["tank.liner.outer_diameter", "tank.liner.wall"],
        DiameterPair::LinerOuterAndInner => {
            ["tank.liner.outer_diameter", "tank.liner.inner_diameter"]
        }
        DiameterPair::InnerAndWall => ["tank.liner.inner_diameter", "tank.liner.wall"],
    }
}

/// The four of which two are given.
pub(super) const DIAMETERS: [&str; 4] = [
    "tank.outer_diameter",
    "tank.liner.outer_diameter",
    "tank.liner.inner_diameter",
    "tank.liner.wall",
];

/// Whether an input is one of several equivalent ones.
pub(super) fn has_equivalents(path: &str) -> bool {
    DIAMETERS.contains(&path)
        || EQUIVALENTS
            .iter()
            .flat_map(|group| group.members)
            .any(|(_, paths)| paths.contains(&path))
}

/// Why an input follows from others under the form's rules, or nothing if it is an input.
pub(super) fn follows(form: &Form, path: &str) -> Option<String> {
    if let (Some(side), true) = (&form.tank, DIAMETERS.contains(&path)) {
        let pair = pair_paths(side.tank.diameters);
        return (!pair.contains(&path)).then(|| {
            format!(
                "{path} follows from {} and {}; exactly two of diameters and wall are inputs",
                pair[0], pair[1]
            )
        });
    }
    for group in EQUIVALENTS {
        let Some((word, _)) = group
            .members
            .iter()
            .find(|(_, paths)| paths.contains(&path))
        else {
            continue;
        };
        let (choice, index) = choices::find(group.rule)?;
        let chosen = choice.get(form, index)?;
        if chosen == *word {
            return None;
        }
        let inputs = group.members.iter().find(|(word, _)| *word == chosen)?.1;
        return Some(format!(
            "{path} follows from {} under {} = \"{chosen}\"; vary that, or set {} = \"{word}\"",
            inputs.join(" and "),
            group.rule,
            group.rule
        ));
    }
    None
}

/// Fills every equivalent quantity from the ones that are inputs, so that a follow rule can be
/// changed at any time. Errors if the design itself does not close.
pub(super) fn refresh(form: &Form, slots: &mut [f64; INPUT_COUNT]) -> Result<()> {
    let given = point(slots);
    let settled = settle(form, &given);
    settled.status.refuse_fault()?;
    for (path, value) in equivalents(form, &given, &settled) {
        if follows(form, path).is_some()
            && let Some(slot) = INPUTS.slot(path)
        {
            slots[slot] = value;
        }
    }
    Ok(())
}

fn equivalents(
    form: &Form,
    given: &crate::stage::chain::point::Point<f64>,
    settled: &Settled<f64>,
) -> Vec<(&'static str, f64)> {
    let mut values = vec![
        ("motor.thrust", settled.drive.mean_thrust),
        ("motor.burn_time", settled.drive.burn_time),
    ];
    if let Some(size) = &settled.size {
        values.extend([
            ("tank.outer_diameter", size.outer_diameter),
            ("tank.liner.outer_diameter", size.liner_outer_diameter),
            ("tank.liner.inner_diameter", size.inner_diameter),
            ("tank.liner.wall", size.wall),
            ("tank.volume", size.volume),
            ("tank.length", size.length),
            ("tank.fineness_ratio", size.length / size.outer_diameter),
            ("propellant.ullage", settled.load.ullage),
            ("propellant.oxidiser_mass", settled.load.oxidiser),
        ]);
    }
    if let (Some(body_form), Some(body)) = (form.body(), &settled.vehicle.body) {
        let payload = bay_equivalents(body_form.bay_rule, &given.payload_bay, body, &given.skin);
        let recovery = bay_equivalents(body_form.bay_rule, &given.recovery_bay, body, &given.skin);
        let chord = settled.vehicle.fin.root_chord;
        values.extend([
            ("nose.length", body.nose_length),
            ("nose.fineness_ratio", body.nose_length / body.diameter),
            ("payload_bay.volume", payload.volume),
            ("payload_bay.length", payload.length),
            ("recovery_bay.volume", recovery.volume),
            ("recovery_bay.length", recovery.length),
            ("fins.static_margin", settled.vehicle.static_margin),
            ("fins.root_chord_calibres", chord / body.diameter),
            ("fins.root_chord", chord),
        ]);
    }
    values
}
