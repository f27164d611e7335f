//! The ascent alone: own drag columns for every design, all outputs.

#![allow(missing_docs)]

mod fleet;

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use fleet::{Design, ascend, curve, design};
use hoopline::ascent::{Course, Grid, Trajectory};
use hoopline::numerics::{Lanes, Real};
use hoopline::quantity::Choice;
use std::hint::black_box;

const COURSES: [Course; 2] = [Course::Vertical, Course::Inclined];
const GRIDS: [Grid; 2] = [Grid::Trade, Grid::Fine];

/// Sixteen designs side by side.
fn block<const N: usize>(first: usize) -> Design<Lanes<N>> {
    let designs: [Design<f64>; N] = std::array::from_fn(|lane| design(first + lane));
    std::array::from_fn(|k| Lanes(std::array::from_fn(|lane| designs[lane][k])))
}

fn widths(criterion: &mut Criterion) {
    fn one<R: Real>(criterion: &mut Criterion, name: &str, designs: u64, block: &Design<R>) {
        let curve = curve();
        let mut group = criterion.benchmark_group("ascent");
        group.throughput(Throughput::Elements(designs));
        for course in COURSES {
            for grid in GRIDS {
                let fly = || -> Trajectory<R> { ascend(&curve, black_box(block), course, grid) };
                group.bench_function(format!("{} {} {name}", course.word(), grid.word()), |b| {
                    b.iter(fly);
                });
            }
        }
        group.finish();
    }
    one(criterion, "alone", 1, &design(0));
    one(criterion, "4 lanes", 4, &block::<4>(0));
    one(criterion, "8 lanes", 8, &block::<8>(0));
    one(criterion, "16 lanes", 16, &block::<16>(0));
}

criterion_group!(benches, widths);
criterion_main!(benches);
