//! The chain for one design, with derivatives, in lanes, and as a sweep.

#![allow(missing_docs)]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use hoopline::numerics::{Dual, Lanes};
use hoopline::stage::{Stage, assess, point};
use hoopline::study::{Axis, Progress, sweep};
use hoopline::vessel::WallChoice;
use std::hint::black_box;
use std::path::Path;

fn chain(criterion: &mut Criterion) {
    let file =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("python/hoopline/examples/petrel_slim.toml");
    let stage = Stage::load(&file).expect("the packaged example");
    let design = stage.point();
    let block = point(&stage.slots().map(|value| Lanes([value; 16])));
    let dual = point(&stage.slots().map(|value| Dual::<4>::variable(value, 0)));
    let mut group = criterion.benchmark_group("assess");
    group.bench_function("one design", |bencher| {
        bencher.iter(|| assess(stage.form(), black_box(&design)));
    });
    group.bench_function("one design with 4 derivatives", |bencher| {
        bencher.iter(|| assess(stage.form(), black_box(&dual)));
    });
    let autofrettaged = [(
        "tank.autofrettage_pressure".to_owned(),
        serde_json::json!("200 bar gauge"),
    )];
    let autofrettaged = stage.replace(&autofrettaged).expect("a pressure");
    group.bench_function("load history of one vessel", |bencher| {
        bencher.iter(|| black_box(&autofrettaged).load_history(WallChoice::Minimum));
    });
    group.throughput(Throughput::Elements(16));
    group.bench_function("16 designs in lanes", |bencher| {
        bencher.iter(|| assess(stage.form(), black_box(&block)));
    });
    group.finish();

    let axis = Axis {
        path: "tank.outer_diameter".to_owned(),
        values: (0..2000)
            .map(|k| serde_json::json!(0.13 + 5e-5 * f64::from(k)))
            .collect(),
    };
    let mut group = criterion.benchmark_group("sweep");
    group.sample_size(10).throughput(Throughput::Elements(2000));
    for threads in [1, 2] {
        group.bench_function(format!("2000 designs, {threads} threads"), |bencher| {
            let axes = std::slice::from_ref(&axis);
            bencher.iter(|| sweep(&stage, axes, Some(threads), &Progress::default()));
        });
    }
    group.finish();
}

criterion_group!(benches, chain);
criterion_main!(benches);
