//! Rows a stage may name, and which inputs each fills in: metal and fibre, and stock as it is bought.
//! A tube gives the liner its outside diameter and wall; a sheet gives a wall or a closure its
//! thickness.

use super::stage::{FIBRE, LINER_METAL};
use crate::material::Kind;
use crate::quantity::Field;
use crate::stage::chain::schema::INPUTS;
use std::sync::LazyLock;

/// A value of a piece of stock: its name in the row, what it is, the input it fills in.
type Fill = (&'static str, &'static str, &'static str);

/// A path at which a stage names a row.
#[derive(Debug)]
pub(super) struct Place {
    /// Path of the name.
    pub path: &'static str,
    /// Kind of row it names.
    pub kind: &'static str,
    /// Table whose inputs are those of the row by the same names; none for stock.
    pub table: Option<&'static str>,
    /// Values of stock.
    fills: &'static [Fill],
}

const TUBE: &[Fill] = &[
    (
        "outer_diameter",
        "Outside diameter of the tube.",
        "tank.liner.outer_diameter",
    ),
    ("wall", "Wall thickness of the tube.", "tank.liner.wall"),
    (
        "wall_under_tolerance",
        "Share by which the tube's wall may be thinner than nominal.",
        "tank.liner.wall_under_tolerance",
    ),
];

const THICKNESS: &str = "Thickness of the sheet.";
const TOLERANCE: &str = "Share by which the sheet may be thinner than nominal.";

const SHEET_OF_FORE_CLOSURE: &[Fill] = &[
    ("thickness", THICKNESS, "tank.fore_closure.thickness"),
    (
        "thickness_under_tolerance",
        TOLERANCE,
        "tank.fore_closure.thickness_under_tolerance",
    ),
];

/// Path of the liner metal's name.
pub(super) const METAL: &str = "tank.liner.metal.name";

/// Every path at which a row can be named.
pub(super) const PLACES: &[Place] = &[
    Place {
        path: METAL,
        kind: "metal",
        table: Some(LINER_METAL),
        fills: &[],
    },
    Place {
        path: "tank.overwrap.fibre.name",
        kind: "fibre",
        table: Some(FIBRE),
        fills: &[],
    },
    Place {
        path: "tank.liner.tube",
        kind: "tube",
        table: None,
        fills: TUBE,
    },
    Place {
        path: "tank.liner.sheet",
        kind: "sheet",
        table: None,
        fills: &[
            ("thickness", THICKNESS, "tank.liner.wall"),
            (
                "thickness_under_tolerance",
                TOLERANCE,
                "tank.liner.wall_under_tolerance",
            ),
        ],
    },
    Place {
        path: "tank.fore_closure.sheet",
        kind: "sheet",
        table: None,
        fills: SHEET_OF_FORE_CLOSURE,
    },
    Place {
        path: "tank.aft_closure.sheet",
        kind: "sheet",
        table: None,
        fills: &[
            ("thickness", THICKNESS, "tank.aft_closure.thickness"),
            (
                "thickness_under_tolerance",
                TOLERANCE,
                "tank.aft_closure.thickness_under_tolerance",
            ),
        ],
    },
];

impl Place {
    /// The place of a path.
    pub fn of(path: &str) -> Option<&'static Self> {
        PLACES.iter().find(|place| place.path == path)
    }

    /// Values of the row and the slots of the inputs they fill in.
    pub fn fills(&self) -> Vec<(&'static str, usize)> {
        if let Some(table) = self.table {
            let fields = INPUTS.fields.iter().enumerate();
            fields
                .filter_map(|(slot, field)| {
                    let key = field.path.strip_prefix(table)?.strip_prefix('.')?;
                    Some((key, slot))
                })
                .collect()
        } else {
            let fills = self.fills.iter();
            fills
                .filter_map(|(key, _, input)| Some((*key, INPUTS.slot(input)?)))
                .collect()
        }
    }

    /// The table the name stands in.
    pub fn stands_in(&self) -> &'static str {
        self.path.rsplit_once('.').map_or("", |(table, _)| table)
    }

    /// Whether it names a piece of stock.
    pub fn is_stock(&self) -> bool {
        self.table.is_none()
    }
}

/// Kinds of rows of a catalogue. Limits of stock are those of the inputs it fills in.
pub static KINDS: LazyLock<[Kind; 4]> = LazyLock::new(|| {
    let fields = |fills: &[Fill]| -> Vec<Field> {
        let known = fills.iter().filter_map(|(key, doc, input)| {
            let field = &INPUTS.fields[INPUTS.slot(input)?];
            Some(Field {
                path: (*key).to_owned(),
                doc,
                ..field.clone()
            })
        });
        known.collect()
    };
    [
        Kind::metal(),
        Kind::fibre(),
        Kind {
            word: "tube",
            doc: "a tube as bought, for the liner",
            fields: fields(TUBE),
            required: &["outer_diameter", "wall"],
            of_metal: true,
            texts: &[],
            may_say: &[],
        },
        Kind {
            word: "sheet",
            doc: "a sheet as bought, for the liner's wall or a closure",
            fields: fields(SHEET_OF_FORE_CLOSURE),
            required: &["thickness"],
            of_metal: true,
            texts: &[],
            may_say: &[],
        },
    ]
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_value_of_every_kind_fills_an_input_but_the_range_of_thickness() {
        for place in PLACES {
            let kind = KINDS.iter().find(|kind| kind.word == place.kind);
            let kind = kind.expect("a kind");
            let range = ["least_thickness", "greatest_thickness"];
            let fields = kind.fields.iter();
            let filling = fields.filter(|field| !range.contains(&field.path.as_str()));
            assert_eq!(place.fills().len(), filling.count(), "{}", place.path);
            for (key, _) in place.fills() {
                assert!(kind.fields.iter().any(|field| field.path == key), "{key}");
            }
        }
    }
}
