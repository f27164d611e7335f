//! A thousand assessments allocate nothing. A binary of its own: the counter sees the whole process.

use hoopline::numerics::Lanes;
use hoopline::stage::{Stage, assess, point};
use stats_alloc::{INSTRUMENTED_SYSTEM, Region, StatsAlloc};
use std::alloc::System;
use std::path::Path;

#[global_allocator]
static COUNTER: &StatsAlloc<System> = &INSTRUMENTED_SYSTEM;

fn main() {
    let day = [
        ("atmosphere.model", serde_json::json!("off_standard_day")),
        ("atmosphere.site_temperature", serde_json::json!(305.0)),
        ("atmosphere.site_pressure", serde_json::json!(98e3)),
    ]
    .map(|(path, value)| (path.to_owned(), value));
    for (name, changes) in [
        ("petrel_slim.toml", &[][..]),
        ("petrel_slim.toml", &day),
        ("published/v2_textbook.toml", &[]),
    ] {
        let file = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("python/hoopline/examples")
            .join(name);
        let stage = Stage::load(&file)
            .and_then(|stage| stage.replace(changes))
            .expect("a readable example");
        let block = point(&stage.slots().map(|value| Lanes([value; 8])));
        // The shared tables are built at first use.
        let warm = stage.outcome().ascent.apogee;

        let region = Region::new(COUNTER);
        let mut highest = 0.0f64;
        for _ in 0..1000 {
            highest = highest.max(stage.outcome().ascent.apogee);
        }
        for _ in 0..20 {
            highest = highest.max(assess(stage.form(), &block).ascent.apogee.0[3]);
        }
        let change = region.change();
        assert_eq!(highest, warm);
        assert_eq!(
            (change.allocations, change.reallocations),
            (0, 0),
            "{name}: {change:?}"
        );
        println!(
            "{name}: 1000 assessments and 20 blocks, {} allocations",
            change.allocations
        );
    }
}
