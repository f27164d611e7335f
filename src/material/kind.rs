//! Kinds of rows a catalogue may hold.

use super::{Fibre, Metal};
use crate::quantity::{Applies, Field, Quantity, fields};

/// On what a strength rests. The first three and the last are those of MIL-HDBK-5J (31 January 2003), 1.4.1.1
/// (paragraph as its successor's table of contents numbers it; definitions from memory: A, at least 99 % of the metal is as strong or stronger, with 95 % confidence; B, 90 % with
/// 95 %; S, the minimum of a specification, without statistics; typical, an average); the characteristic value is that
/// of EN 1999-1-1, tables 3.2.
pub const STRENGTH_BASES: &[&str] = &[
    "A-basis",
    "B-basis",
    "S-basis",
    "characteristic value",
    "typical",
];

/// What a row of a metal may say beside its values.
const OF_METAL: &[Text] = &[
    Text {
        key: "basis",
        doc: "on what its strengths rest",
        words: STRENGTH_BASES,
    },
    Text {
        key: "condition",
        doc: "what its strengths are of: temper, form, filler and treatment of the weld",
        words: &[],
    },
];

/// A kind of row.
#[derive(Debug)]
pub struct Kind {
    /// Name of its list in a catalogue: `[[metal]]`.
    pub word: &'static str,
    /// What such a row is.
    pub doc: &'static str,
    /// The values it may hold.
    pub fields: Vec<Field>,
    /// The values it must hold; what else a stage needs, the stage asks for.
    pub required: &'static [&'static str],
    /// Whether a row may name the metal it is of.
    pub of_metal: bool,
    /// The texts it must hold beside name and source.
    pub texts: &'static [Text],
    /// The texts it may hold.
    pub may_say: &'static [Text],
}

/// A text of a row.
#[derive(Debug)]
pub struct Text {
    /// Its key.
    pub key: &'static str,
    /// What it says.
    pub doc: &'static str,
    /// The words it may be; empty where it is free.
    pub words: &'static [&'static str],
}

impl Kind {
    /// Metals of liner and closures.
    pub fn metal() -> Self {
        let thickness = |key: &str, doc| Field {
            path: key.to_owned(),
            quantity: Quantity::Length,
            lower: 1e-5,
            upper: 1.0,
            applies: Applies::Always,
            index: 0,
            doc,
        };
        let mut fields = fields::<Metal<f64>>();
        fields.push(thickness(
            "least_thickness",
            "Thickness from which on its strengths hold.",
        ));
        fields.push(thickness(
            "greatest_thickness",
            "Thickness up to which its strengths hold.",
        ));
        Self {
            word: "metal",
            doc: "a metal of liner and closures",
            fields,
            required: &[],
            of_metal: false,
            texts: &[],
            may_say: OF_METAL,
        }
    }

    /// Fibres of the overwrap.
    pub fn fibre() -> Self {
        Self {
            word: "fibre",
            doc: "a fibre of the overwrap",
            fields: fields::<Fibre<f64>>(),
            required: &[],
            of_metal: false,
            texts: &[],
            may_say: &[],
        }
    }

    /// The texts it knows beside name and source: those it must hold, then those it may.
    pub fn says(&self) -> impl Iterator<Item = &'static Text> {
        self.texts.iter().chain(self.may_say)
    }
}
