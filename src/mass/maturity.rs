//! Maturity: what is known about a part, and the growth allowance that follows from it.

use std::sync::LazyLock;

/// A class of maturity: its name, the growth allowance it calls for, and who says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Maturity {
    /// Name to put into a stage file.
    pub name: String,
    /// Growth allowance as a share of basic mass.
    pub growth_allowance: f64,
    /// Document and table, or whose experience it is.
    pub source: String,
}

/// The classes on record. A stage file may bring its own, which come first.
pub static MATURITIES: LazyLock<Vec<Maturity>> = LazyLock::new(|| {
    let table: toml::Table = include_str!("maturity.toml").parse().unwrap_or_default();
    let entries = table.get("maturity").and_then(toml::Value::as_array);
    entries
        .into_iter()
        .flatten()
        .map(|entry| {
            let text = |key: &str| entry.get(key).and_then(toml::Value::as_str);
            let share = entry
                .get("growth_allowance")
                .and_then(toml::Value::as_float);
            Maturity {
                name: text("name").unwrap_or_default().to_owned(),
                growth_allowance: share.unwrap_or(f64::NAN),
                source: text("source").unwrap_or_default().to_owned(),
            }
        })
        .collect()
});
