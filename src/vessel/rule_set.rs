//! Rule sets: the factors a design is judged by, as data with source and scope.

use crate::quantity::slots;
use std::sync::LazyLock;

slots! {
    /// Factors of a rule set.
    pub struct RuleSet<R> {
        /// Proof pressure over MEOP.
        proof_factor: Ratio [1.0, 10.0], Tank;
        /// Required burst pressure over MEOP.
        burst_factor: Ratio [1.0, 20.0], Tank;
    }
}

/// A published rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    /// Name to put into a stage file.
    pub name: String,
    /// Document, edition, paragraph.
    pub source: String,
    /// What the rule set covers; whether that fits is the user's judgement.
    pub scope: String,
    /// Whether it is for overwrapped tanks, bare metal tanks, or both.
    pub wall: Wall,
    /// Whether its document excludes welded liners.
    pub excludes_welded_liners: bool,
    /// Proof pressure over MEOP.
    pub proof_factor: f64,
    /// Required burst pressure over MEOP.
    pub burst_factor: f64,
}

/// The kind of wall a rule set covers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wall {
    /// Metal only.
    Metal,
    /// Metal with a fibre overwrap.
    Overwrapped,
}

/// The published rule sets on record.
pub static PUBLISHED: LazyLock<Vec<Published>> = LazyLock::new(|| {
    let table: toml::Table = include_str!("rule_sets.toml").parse().unwrap_or_default();
    let entries = table.get("rule_set").and_then(toml::Value::as_array);
    entries
        .into_iter()
        .flatten()
        .map(|entry| {
            let text = |key: &str| {
                let value = entry.get(key).and_then(toml::Value::as_str);
                value.unwrap_or_default().to_owned()
            };
            let number = |key: &str| {
                entry
                    .get(key)
                    .and_then(toml::Value::as_float)
                    .unwrap_or(0.0)
            };
            Published {
                name: text("name"),
                source: text("source"),
                scope: text("scope"),
                wall: match text("wall").as_str() {
                    "metal" => Wall::Metal,
                    _ => Wall::Overwrapped,
                },
                excludes_welded_liners: text("welded_liner") == "excluded",
                proof_factor: number("proof_factor"),
                burst_factor: number("burst_factor"),
            }
        })
        .collect()
});
