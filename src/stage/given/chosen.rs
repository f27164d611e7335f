//! What a stage rests on besides numbers: words of its choices, names of rows on record, tables.

use super::choices::CHOICES;
use super::on_record::Named;
use super::plies::PLIES;
use super::stage::{Origin, Stage};
use super::stock::PLACES;
use crate::stage::chain::form::Shell;
use crate::stage::chain::schema::INPUTS;
use serde_json::{Map, Value, json};

impl Stage {
    /// Every choice of this stage by its path: the word chosen.
    pub(in crate::stage) fn choices(&self) -> Map<String, Value> {
        let made = CHOICES.iter().flat_map(|choice| choice.made(self.form()));
        made.map(|(path, word)| (path, json!(word))).collect()
    }

    /// Names of metal, fibre and rule set by the path they are given at; empty for values of one's
    /// own.
    pub(in crate::stage) fn on_record(&self) -> Map<String, Value> {
        let sourced = self.sourced();
        let sourced = sourced.map(|(table, (name, _))| (format!("{table}.name"), json!(name)));
        let stock = self.stock().filter(|_| self.form().tank.is_some());
        let stock = stock.map(|named| (named.place.path.to_owned(), json!(named.row.name)));
        sourced.chain(stock).collect()
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
        let wound = form.tank.as_ref().map_or(0, |side| side.tank.plies);
        let listed = self.plies_listed();
        if wound < listed {
            tables.insert(
                PLIES.to_owned(),
                json!(format!("{wound} of {listed} listed")),
            );
        }
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
