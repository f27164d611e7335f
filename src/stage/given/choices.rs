//! Every choice of a stage: its path, its options, and where it sits in the form.

use crate::airframe::{BayRule, BodyForm, FinRule, NoseRule, NoseShape, SkinRule};
use crate::ascent::{Course, Grid};
use crate::error::{Error, Result, spaced};
use crate::likeness::{asked, near_names, quoted};
use crate::mass::Place;
use crate::motor::{ThrustBasis, ThrustRule};
use crate::problem::cut;
use crate::quantity::Choice;
use crate::stage::chain::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell};
use crate::vessel::fitting::FittingHold;
use crate::vessel::{ClosureKind, PlyKind, SeamBasis, Shape};

/// A choice and where it sits. `None` from `set` or `get` means that the form has no such choice.
pub struct ChoiceField {
    /// Dotted path; `[]` stands for an index.
    pub path: &'static str,
    /// What is chosen.
    pub doc: &'static str,
    /// Default of our own, for follow rules and method presets; physical choices have none.
    pub default: Option<&'static str>,
    /// Words and meanings.
    pub options: &'static [(&'static str, &'static str)],
    set: fn(&mut Form, usize, &str) -> Option<bool>,
    get: fn(&Form, usize) -> Option<&'static str>,
}

fn body(form: &mut Form) -> Option<&mut BodyForm> {
    match &mut form.shell {
        Shell::Drawn(body) => Some(body),
        Shell::Stated(_) => None,
    }
}

macro_rules! choices {
    ($($path:literal, $doc:literal, $type:ty, $default:expr, |$form:ident, $index:ident| $place:expr;)*) => {
        &[$(ChoiceField {
            path: $path,
            doc: $doc,
            default: $default,
            options: <$type as Choice>::OPTIONS,
            set: |$form, $index, word| {
                let _ = $index;
                let place: Option<&mut $type> = $place;
                let place = place?;
                let chosen = <$type as Choice>::from_word(word);
                if let Some(chosen) = chosen {
                    *place = chosen;
                }
                Some(chosen.is_some())
            },
            get: |form, $index| {
                let _ = $index;
                let $form = &mut form.clone();
                let place: Option<&mut $type> = $place;
                place.map(|place| place.word())
            },
        }),*]
    };
}

/// Every choice.
pub static CHOICES: &[ChoiceField] = choices! {
    "follow.tank", "which measure of the tank's size stays", Shape, Some("volume"),
        |form, index| form.tank.as_mut().map(|side| &mut side.shape);
    "follow.load", "which measure of the load stays", LoadRule, Some("ullage"),
        |form, index| form.tank.as_mut().map(|side| &mut side.load);
    "follow.thrust", "which measure of the thrust stays", ThrustRule, Some("level"),
        |form, index| Some(&mut form.thrust_rule);
    "follow.nose", "which measure of the nose stays", NoseRule, Some("fineness"),
        |form, index| body(form).map(|body| &mut body.nose_rule);
    "follow.fins", "which measure of the fins stays", FinRule, Some("static_margin"),
        |form, index| body(form).map(|body| &mut body.fins.rule);
    "follow.bays", "which measure of the bays stays", BayRule, Some("volume"),
        |form, index| body(form).map(|body| &mut body.bay_rule);
    "follow.skin", "what forms the surface along the tank", SkinRule, Some("tank_is_airframe"),
        |form, index| body(form).map(|body| &mut body.skin_rule);
    "ascent.grid", "step grid of the ascent", Grid, Some("trade"),
        |form, index| Some(&mut form.grid);
    "rail.direction", "direction of the rail", Course, None,
        |form, index| form.rail.then_some(&mut form.course);
    "atmosphere.model", "the atmosphere", AtmosphereModel, None,
        |form, index| Some(&mut form.atmosphere);
    "pressure.basis", "what the MEOP rests on", PressureBasis, None,
        |form, index| form.tank.as_mut().map(|side| &mut side.basis);
    "tank.fore_closure.kind", "kind of the fore closure", ClosureKind, None,
        |form, index| form.tank.as_mut().map(|side| &mut side.tank.fore_closure);
    "tank.aft_closure.kind", "kind of the aft closure", ClosureKind, None,
        |form, index| form.tank.as_mut().map(|side| &mut side.tank.aft_closure);
    "tank.liner.girth_seam.basis", "how the girth seam's strength is taken", SeamBasis, None,
        |form, index| form.tank.as_mut().map(|side| &mut side.tank.girth_seam);
    "tank.liner.longitudinal_seam.basis", "how the longitudinal seam's strength is taken", SeamBasis, None,
        |form, index| form.tank.as_mut().map(|side| &mut side.tank.longitudinal_seam);
    "tank.overwrap.ply[].kind", "kind of ply", PlyKind, None,
        |form, index| form.tank.as_mut().and_then(|side| side.tank.ply_kinds[..side.tank.plies].get_mut(index));
    "tank.fitting[].kind", "what holds a fitting", FittingHold, None,
        |form, index| form.tank.as_mut().and_then(|side| side.tank.fitting_kinds[..side.tank.fittings].get_mut(index));
    "nose.shape", "shape of the nose", NoseShape, None,
        |form, index| body(form).map(|body| &mut body.nose);
    "motor.thrust_basis", "ambient pressure at which the thrust was given", ThrustBasis, None,
        |form, index| Some(&mut form.thrust_basis);
    "mass.item[].place", "where an item sits", Place, None,
        |form, index| form.places[..form.items].get_mut(index);
};

/// A path with its index taken out: `"mass.item[2].place"` to `("mass.item[].place", 2)`.
pub fn split_index(path: &str) -> (String, usize) {
    let Some((before, rest)) = path.split_once('[') else {
        return (path.to_owned(), 0);
    };
    let Some((index, after)) = rest.split_once(']') else {
        return (path.to_owned(), 0);
    };
    match index.parse() {
        Ok(index) => (format!("{before}[]{after}"), index),
        Err(_) => (path.to_owned(), 0),
    }
}

/// The choice of a path.
pub fn find(path: &str) -> Option<(&'static ChoiceField, usize)> {
    let (pattern, index) = split_index(path);
    let choice = CHOICES.iter().find(|choice| choice.path == pattern)?;
    Some((choice, index))
}

/// Words of a choice, and what each means.
type Options = [(&'static str, &'static str)];

/// The words of a choice, in quotes.
pub(super) fn words(options: &Options) -> String {
    quoted(options.iter().map(|(word, _)| word))
}

/// A word that is none of the options.
pub(super) fn none_of(options: &Options, path: &str, word: &str) -> Error {
    let known = options.iter().map(|(word, _)| *word);
    let near = spaced(&asked(&near_names(word, known)));
    Error::Unreadable {
        path: path.to_owned(),
        problem: format!(
            "\"{}\" is none of the options; {near}choose {}",
            cut(word),
            words(options)
        ),
    }
}

impl ChoiceField {
    /// Sets the choice in a form.
    pub fn set(&self, form: &mut Form, index: usize, path: &str, word: &str) -> Result<()> {
        match (self.set)(form, index, word) {
            Some(true) => Ok(()),
            Some(false) => Err(none_of(self.options, path, word)),
            None => Err(Error::does_not_apply(path)),
        }
    }

    /// Every place of this choice in a form, with the word chosen: one, or one for each entry of its
    /// list.
    pub fn made(&self, form: &Form) -> impl Iterator<Item = (String, &'static str)> {
        let most = if self.path.contains("[]") {
            usize::MAX
        } else {
            1
        };
        (0..most).map_while(move |index| {
            let path = self.path.replace("[]", &format!("[{index}]"));
            Some((path, self.get(form, index)?))
        })
    }

    /// The word chosen in a form, if the form has this choice.
    pub fn get(&self, form: &Form, index: usize) -> Option<&'static str> {
        (self.get)(form, index)
    }
}
