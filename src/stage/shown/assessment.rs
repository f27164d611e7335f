//! [`Assessment`]: one design, with everything a reader wants beside the numbers.

use super::cautions::cautions;
use super::matrix::Judgement;
use crate::error::Result;
use crate::mass::{Group, Line};
use crate::quantity::Choice;
use crate::quantity::field::is_below;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::point::Point;
use crate::stage::chain::schema::{INPUTS, RESULTS, outcome_slots};
use crate::stage::chain::{Evaluation, evaluate};
use crate::stage::given::choices::CHOICES;
use crate::stage::given::{Origin, Stage};
use crate::vessel::rule_set::{self, Published};
use serde_json::{Map, Value, json};

/// What an assessment does not show; it stands in every report.
pub const SAFETY: &str = "First-order estimates for trade studies. They do not show that a tank is \
    safe to fill, to test or to fly. That takes an independent review of the design by someone \
    qualified, the local codes, the rules of the launch site and its range safety, and a proof test \
    of the built tank with nobody near it. Nitrous oxide decomposes violently when hot, contaminated \
    or compressed quickly: follow its supplier's rules.";

/// Number of the layout of an assessment's JSON; it grows when a key changes its meaning.
pub const SCHEMA: u32 = 1;

/// One design assessed.
#[derive(Debug, Clone)]
pub struct Assessment {
    /// Every scalar result.
    pub outcome: Outcome<f64>,
    /// The lines of the mass statement without propellant, items under their own names.
    pub mass_lines: Vec<MassLine>,
    /// Propellant on board at ignition, and what is left of it at burnout.
    pub propellant_lines: [Vec<MassLine>; 2],
    /// Margins that apply, smallest first.
    pub margins: Vec<(String, f64)>,
    /// What sets the frontal area.
    pub frontal_governed_by: &'static str,
    /// Cautions in words.
    pub cautions: Vec<String>,
}

/// One line of the mass statement as printed.
#[derive(Debug, Clone)]
pub struct MassLine {
    /// Its name; the user's for an item.
    pub name: String,
    /// The numbers.
    pub line: Line<f64>,
    /// The class of maturity its growth allowance rests on, and that class's source.
    pub maturity: Option<(String, String)>,
}

impl MassLine {
    fn plain(line: &Line<f64>) -> Self {
        Self {
            name: line.name.to_owned(),
            line: *line,
            maturity: None,
        }
    }

    fn json(&self) -> Value {
        let Self { name, line, .. } = self;
        let own = line.own_inertia();
        json!({
            "name": name,
            "group": line.group.word(),
            "basic": line.basic,
            "growth": line.growth(),
            "predicted": line.predicted(),
            "station": line.station,
            "shape": line.spread.shape,
            "own_pitch_inertia": own.pitch,
            "own_roll_inertia": own.roll,
            "maturity": self.maturity.as_ref().map(|(class, _)| class),
        })
    }
}

impl Stage {
    /// Assesses the stage. A design with a fault is an error that says what to change.
    pub fn assess(&self) -> Result<Assessment> {
        let point = self.point();
        let Evaluation { outcome, vehicle } = &self.sound(&point)?;
        let slots = outcome_slots(outcome, 0.0);
        let margins = self.margins(&slots).into_iter();
        let mut items = self.labels().items.iter().enumerate();
        let mass_lines = vehicle
            .statement
            .lines()
            .iter()
            .map(|line| {
                let own = match line.group {
                    Group::Item => items.next(),
                    _ => None,
                };
                let class = self.maturity(line.group, own.map_or(0, |(index, _)| index));
                MassLine {
                    name: own.map_or_else(|| line.name.to_owned(), |(_, name)| name.clone()),
                    line: *line,
                    maturity: class.map(|class| (class.name.clone(), class.source.clone())),
                }
            })
            .collect();
        let propellant = &vehicle.propellant;
        let plain = |lines: &[Line<f64>]| -> Vec<MassLine> {
            let on_board = lines.iter().filter(|line| line.basic > 0.0);
            on_board.map(MassLine::plain).collect()
        };
        Ok(Assessment {
            outcome: *outcome,
            mass_lines,
            propellant_lines: [
                plain(&propellant.at_ignition),
                plain(&propellant.at_burnout),
            ],
            margins: margins
                .map(|(path, value)| (path.to_owned(), value))
                .collect(),
            frontal_governed_by: vehicle.frontal_governed_by(self.form(), &point),
            cautions: cautions(self, outcome),
        })
    }

    /// The margins that apply among the results of a design, smallest first.
    pub(super) fn margins(&self, results: &[f64]) -> Vec<(&'static str, f64)> {
        let slots = self.form().margin_slots();
        let mut margins: Vec<(&str, f64)> = slots
            .map(|slot| (RESULTS.fields[slot].path.as_str(), results[slot]))
            .collect();
        margins.sort_by(|a, b| a.1.total_cmp(&b.1));
        margins
    }

    /// The design evaluated, or what is wrong with it and what to change.
    pub(super) fn sound(&self, point: &Point<f64>) -> Result<Evaluation<f64>> {
        let found = evaluate(self.form(), point);
        found.outcome.status.refuse_fault()?;
        Ok(found)
    }

    /// The assessment as JSON, without what is looked at more rarely: [`Stage::inputs_json`],
    /// [`Stage::layout`], [`Stage::bands_json`].
    pub fn assess_json(&self) -> Result<String> {
        let assessment = self.assess()?;
        let slots = outcome_slots(&assessment.outcome, 0.0);
        let results: Map<String, Value> = RESULTS
            .fields
            .iter()
            .zip(slots)
            .filter(|(field, _)| {
                !field.path.starts_with("status.")
                    && self.form().applies(field.applies, field.index)
            })
            .map(|(field, value)| (field.path.clone(), json!(value)))
            .collect();
        let doc = |path: &str| {
            RESULTS
                .slot(path)
                .map_or("", |slot| RESULTS.fields[slot].doc)
        };
        let margins: Vec<Value> = assessment
            .margins
            .iter()
            .map(|(path, value)| json!({"path": path, "value": value, "doc": doc(path)}))
            .collect();
        let listed =
            |lines: &[MassLine]| -> Vec<Value> { lines.iter().map(MassLine::json).collect() };
        let [at_ignition, at_burnout] = &assessment.propellant_lines;
        let labels = self.labels();
        let tank = self.form().tank.as_ref();
        Ok(json!({
            "schema": SCHEMA,
            "name": labels.name,
            "description": labels.description,
            "digest": self.digest(),
            "version": env!("CARGO_PKG_VERSION"),
            "follow": self.follow_rules(),
            "results": results,
            "margins": margins,
            "requirements": self
                .matrix(&assessment.outcome)
                .iter()
                .map(Judgement::json)
                .collect::<Vec<_>>(),
            "governing": assessment.margins.first().map(|(path, _)| path),
            "mass_lines": listed(&assessment.mass_lines),
            "maturities": assessment
                .mass_lines
                .iter()
                .filter_map(|line| line.maturity.clone())
                .collect::<std::collections::BTreeMap<_, _>>(),
            "propellant_lines": {
                "at_ignition": listed(at_ignition),
                "at_burnout": listed(at_burnout),
            },
            "frontal_governed_by": assessment.frontal_governed_by,
            "rule_set": tank.map(|side| {
                let (name, source) = &labels.rule_set;
                let published = rule_set::named(name);
                json!({
                    "name": name,
                    "source": source,
                    "scope": published.map(|known| &known.scope),
                    "hold": published.and_then(Published::hold_as_read),
                    "burst_basis": side.burst_basis.word(),
                })
            }),
            "meop_basis": tank.map(|side| json!({"basis": side.basis.word(), "reason": labels.reason})),
            "basis": self.basis(),
            "choices": self.choices(),
            "on_record": self.on_record(),
            "tables": self.tables(),
            "conditions": self.conditions(),
            "stated": self.stated(),
            "cautions": assessment.cautions,
            "safety": SAFETY,
        })
        .to_string())
    }

    /// The follow rules of this stage: rule and word.
    pub fn follow_rules(&self) -> Map<String, Value> {
        CHOICES
            .iter()
            .filter_map(|choice| {
                let rule = choice.path.strip_prefix("follow.")?;
                Some((rule.to_owned(), json!(choice.get(self.form(), 0)?)))
            })
            .collect()
    }

    /// Where and how it is launched: site, air, rail.
    fn conditions(&self) -> Vec<String> {
        let words = ["atmosphere.model", "rail.direction"]
            .into_iter()
            .filter_map(|path| {
                let (choice, index) = crate::stage::given::choices::find(path)?;
                Some(format!("{path} = {}", choice.get(self.form(), index)?))
            });
        let numbers = INPUTS
            .fields
            .iter()
            .enumerate()
            .filter_map(|(slot, field)| {
                let table = field.path.split('.').next()?;
                let shown =
                    ["site", "atmosphere", "rail"].contains(&table) && self.input(slot).is_ok();
                let value = crate::quantity::show(self.slots()[slot], field.quantity);
                shown.then(|| format!("{} = {value}", field.path))
            });
        words.chain(numbers).collect()
    }

    /// What was assessed: choices, rows on record and the numbers that replace theirs, in words.
    fn basis(&self) -> Vec<String> {
        let mut basis = Vec::new();
        let materials = self.sourced().filter(|(table, _)| is_below("tank", table));
        for (table, (name, source)) in materials {
            let own: Vec<String> = INPUTS
                .fields
                .iter()
                .enumerate()
                .filter(|(slot, field)| {
                    is_below(table, &field.path)
                        && self.input(*slot).is_ok()
                        && self.origin(*slot) == Origin::Given
                })
                .map(|(slot, field)| {
                    format!(
                        "{} {}",
                        field.path,
                        crate::quantity::show(self.slots()[slot], field.quantity)
                    )
                })
                .collect();
            let stated = if own.is_empty() {
                String::new()
            } else {
                format!("; stated: {}", own.join(", "))
            };
            let name = if name.is_empty() {
                "values of one's own"
            } else {
                name
            };
            basis.push(format!("{table}: {name} ({source}){stated}").replace(" ()", ""));
        }
        basis.extend(self.stock_in_words());
        let of_tank = CHOICES
            .iter()
            .filter(|choice| is_below("tank", choice.path));
        let made = of_tank.flat_map(|choice| choice.made(self.form()));
        basis.extend(made.map(|(path, word)| format!("{path} = {word}")));
        basis
    }

    /// Results that the user stated instead of having them computed.
    fn stated(&self) -> Vec<&'static str> {
        let tank = self.form().tank.as_ref();
        let mut stated = Vec::new();
        if tank.is_some_and(|side| side.basis == crate::stage::chain::form::PressureBasis::Stated) {
            stated.push("pressures.meop");
        }
        if tank.is_some_and(|side| side.stated_mass) {
            stated.push("mass.predicted");
        }
        if self.form().body().is_none() {
            stated.extend(["drag.subsonic", "drag.transonic", "drag.supersonic"]);
        }
        stated
    }

    /// The inputs of this stage as JSON: path, value, unit, as printed, where it comes from.
    pub fn inputs_json(&self) -> String {
        let rows = INPUTS
            .fields
            .iter()
            .enumerate()
            .filter(|(slot, _)| self.input(*slot).is_ok())
            .map(|(slot, field)| {
                let value = self.slots()[slot];
                let origin = match self.origin(slot) {
                    Origin::Catalogue if self.by_maturity(&field.path) => "by maturity",
                    origin => origin.words(),
                };
                json!({
                    "path": field.path,
                    "value": value,
                    "unit": field.quantity.si(),
                    "shown": crate::quantity::show(value, field.quantity),
                    "origin": origin,
                    "source": self.printed_source(slot),
                    "doc": field.doc,
                })
            });
        Value::Array(rows.collect()).to_string()
    }
}
