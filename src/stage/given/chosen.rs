//! What a stage rests on besides numbers: words of its choices, names of rows on record, tables.

use super::choices::CHOICES;
use super::on_record::Named;
use super::stage::{Origin, Stage};
use super::stock::PLACES;
use crate::stage::chain::form::Shell;
use crate::stage::chain::schema::INPUTS;
use serde_json::{Map, Value, json};

impl Stage {
    /// Every choice of this stage by its path: the word chosen.
    pub(in crate::stage) fn choices(&self) -> Map<String, Value> {
        CHOICES
            .iter()
            .flat_map(|choice| {
                let count = if choice.path.contains("[]") {
                    crate::mass::MAX_ITEMS.max(crate::vessel::MAX_PLIES)
                } else {
                    1
                };
                (0..count).map_while(move |index| {
                    let word = choice.get(self.form(), index)?;
                    let path = choice.path.replace("[]", &format!("[{index}]"));
                    Some((path, json!(word)))
                })
            })
            .collect()
    }

    /// Names of metal, fibre and rule set by the path they are given at; empty for values of one's
    /// own.
    pub(in crate::stage) fn on_record(&self) -> Map<String, Value> {
        let labels = self.labels();
        let Some(side) = &self.form().tank else {
            return Map::new();
        };
        let wrapped = side.tank.plies > 0;
        [
            ("rule_set.name", &labels.rule_set, true),
            ("tank.liner.metal.name", &labels.metal, true),
            ("tank.overwrap.fibre.name", &labels.fibre, wrapped),
        ]
        .into_iter()
        .filter(|(_, _, exists)| *exists)
        .map(|(path, (name, _), _)| (path.to_owned(), json!(name)))
        .chain(self.stock().map(|named| {
            let name = json!(named.row.name);
            (named.place.path.to_owned(), name)
        }))
        .collect()
    }

    /// Pieces of stock that are named.
    pub(super) fn stock(&self) -> impl Iterator<Item = &Named> {
        let places = PLACES.iter().filter(|place| place.is_stock());
        places.filter_map(|place| {
            let mut named = self.named.iter();
            named.find(|named| named.place.path == place.path)
        })
    }

    /// Each piece of stock in words: name, source, and the numbers stated in place of its own.
    pub(in crate::stage) fn stock_in_words(&self) -> impl Iterator<Item = String> {
        self.stock().map(|named| {
            let fills = named.place.fills().into_iter();
            let stated = fills.filter(|(key, slot)| {
                named.row.value(key).is_some() && self.origin(*slot) == Origin::Given
            });
            let stated: Vec<String> = stated
                .map(|(_, slot)| {
                    let field = &INPUTS.fields[slot];
                    let value = crate::quantity::show(self.slots()[slot], field.quantity);
                    format!("{} {value}", field.path)
                })
                .collect();
            let row = &named.row;
            let words = format!("{}: {} ({})", named.place.path, row.name, row.source);
            if stated.is_empty() {
                words
            } else {
                format!("{words}; stated: {}", stated.join(", "))
            }
        })
    }

    /// Tables and counts that are no numbers of the schema, by path, in words.
    pub(in crate::stage) fn tables(&self) -> Map<String, Value> {
        let form = self.form();
        let curve = &form.curve;
        let mut tables = Map::new();
        let points = |count: usize, mark: String| json!(format!("{count} points, mark {mark}"));
        tables.insert(
            "motor.curve".to_owned(),
            points(curve.times.len(), curve.mark()),
        );
        match &form.shell {
            Shell::Stated(table) => {
                tables.insert(
                    "drag.table".to_owned(),
                    points(table.mach().len(), table.mark()),
                );
            }
            Shell::Drawn(body) => {
                tables.insert("fins.count".to_owned(), json!(body.fins.count.to_string()));
            }
        }
        tables
    }
}
