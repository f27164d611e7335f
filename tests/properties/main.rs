//! Properties that hold whatever the numbers: kinds of number, follow rules, limits, monotonicity.

// What is computed here is compared, not shipped: the standard library's functions will do.
#![allow(clippy::disallowed_methods)]

#[path = "../bench/batch.rs"]
#[allow(dead_code)] // The times of a batch are for the benchmarks.
mod batch;
#[path = "../bench/fleet.rs"]
mod fleet;
#[path = "../bench/outputs.rs"]
mod outputs;
#[path = "../bench/vehicles.rs"]
#[allow(dead_code)] // So are the words for its sets.
mod vehicles;

mod bits;
mod bolts;
mod catalogue;
mod closed_tank;
mod derivative;
mod door;
mod drag;
mod edges;
mod fittings;
mod flight_loads;
mod follow;
mod history;
mod inclined;
mod isotensoid;
mod lanes;
mod layout;
mod lightest;
mod load_history;
mod maturity;
mod monotone;
mod neutral;
mod off_standard;
mod optimise;
mod optimise_edges;
mod plies;
mod rising;
mod rooms;
mod service;
mod standard;
mod stepping;
mod sweep;
mod traps;
mod vessel;
mod winding;

use hoopline::stage::Stage;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};

fn example_file(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("python/hoopline/examples")
        .join(name)
}

/// A packaged example.
fn example(name: &str) -> Stage {
    Stage::load(&example_file(name)).expect("a readable example")
}

/// The example with one input replaced.
fn with(stage: &Stage, path: &str, value: &str) -> Stage {
    stage
        .replace(&[(path.to_owned(), json!(value))])
        .expect("a readable change")
}

/// The example with several inputs replaced together.
fn replaced(stage: &Stage, changes: &[(&str, Value)]) -> hoopline::Result<Stage> {
    let changes: Vec<_> = changes
        .iter()
        .map(|(path, value)| ((*path).to_owned(), value.clone()))
        .collect();
    stage.replace(&changes)
}

/// The cautions of a sound design, one to a line.
fn cautions(stage: &Stage) -> String {
    stage.assess().expect("a sound design").cautions.join("\n")
}

/// Petrel slim on a hot day of low pressure.
fn hot_day() -> Stage {
    let changes = [
        ("atmosphere.model", json!("off_standard_day")),
        ("atmosphere.site_temperature", json!(305.0)),
        ("atmosphere.site_pressure", json!(98e3)),
    ];
    replaced(&example("petrel_slim.toml"), &changes).expect("a day")
}
