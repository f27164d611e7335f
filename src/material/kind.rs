//! Kinds of rows a catalogue may hold.

use super::{Fibre, Metal};
use crate::quantity::{Field, fields};

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
        Self {
            word: "metal",
            doc: "a metal of liner and closures",
            fields: fields::<Metal<f64>>(),
            required: &[],
            of_metal: false,
            texts: &[],
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
        }
    }
}
