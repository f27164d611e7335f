//! Ascents of any number of designs over threads, into one contiguous array.

use crate::fleet::{Design, VARIED};
use crate::vehicles::{Set, Vehicles};
use hoopline::ascent::{Course, Grid, Trajectory, fly as ascend};
use hoopline::numerics::{Lanes, Real};
use rayon::prelude::*;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// What is kept of an ascent: `N` numbers.
pub trait Kept<const N: usize> {
    fn of<R: Real>(flown: &Trajectory<R>) -> [R; N];
}

/// Most designs whose inputs exist at a time, on each thread.
const MOST_AT_ONCE: usize = 8192;

/// How a batch is flown.
#[derive(Debug, Clone, Copy)]
pub struct Plan {
    pub set: Set,
    pub designs: usize,
    pub order: Order,
    pub lanes: usize,
    pub threads: usize,
    pub course: Course,
    pub grid: Grid,
}

/// Which design is flown at a place of the batch: `place * stride + shift`, over and over. A stride without
/// a divisor in common with the number of designs reaches each of them once.
#[derive(Debug, Clone, Copy)]
pub struct Order {
    pub stride: usize,
    pub shift: usize,
}

impl Order {
    /// One after the other.
    pub const PLAIN: Self = Self {
        stride: 1,
        shift: 0,
    };

    /// The design at a place.
    pub fn at(&self, place: usize, designs: usize) -> usize {
        (place * self.stride + self.shift) % designs
    }
}

/// A batch flown.
pub struct Flown<const N: usize> {
    /// In the order of the batch.
    pub rows: Vec<[f64; N]>,
    /// From the first design to the last row.
    pub elapsed: Duration,
    /// Summed over the threads: making the inputs, and flying.
    pub making: Duration,
    pub flying: Duration,
}

/// Flies designs of a set; the inputs are made block by block and not kept.
pub fn fly<K: Kept<N>, const N: usize>(plan: &Plan) -> Result<Flown<N>, String> {
    let per_block = match plan.lanes {
        1 => fly_block::<f64, K, N>,
        4 => fly_block::<Lanes<4>, K, N>,
        8 => fly_block::<Lanes<8>, K, N>,
        16 => fly_block::<Lanes<16>, K, N>,
        other => return Err(format!("{other} lanes: 1, 4, 8 and 16 are built")),
    };
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(plan.threads)
        .build()
        .map_err(|error| error.to_string())?;
    let vehicles = Vehicles::of(plan.set);
    // Eight blocks for every thread keep them all busy to the end.
    let even = plan.designs.div_ceil(8 * plan.threads);
    let block = even.next_multiple_of(plan.lanes).min(MOST_AT_ONCE);
    let start = Instant::now();
    let mut rows = vec![[0.0; N]; plan.designs];
    let (making, flying) = pool.install(|| {
        rows.par_chunks_mut(block)
            .enumerate()
            .map(|(index, rows)| {
                let start = Instant::now();
                let first = index * block;
                let designs: Vec<_> = (first..first + rows.len())
                    .map(|place| vehicles.design(plan.order.at(place, plan.designs)))
                    .collect();
                let made = Instant::now();
                per_block(plan, &vehicles, &designs, rows);
                (made - start, made.elapsed())
            })
            .reduce(Default::default, |a, b| (a.0 + b.0, a.1 + b.1))
    });
    Ok(Flown {
        rows,
        elapsed: start.elapsed(),
        making,
        flying,
    })
}

/// A number kind that holds one design or several.
trait Packed: Real {
    fn pack(lane: impl Fn(usize) -> f64) -> Self;
}

impl Packed for f64 {
    fn pack(lane: impl Fn(usize) -> f64) -> Self {
        lane(0)
    }
}

impl<const N: usize> Packed for Lanes<N> {
    fn pack(lane: impl Fn(usize) -> f64) -> Self {
        Self(std::array::from_fn(lane))
    }
}

/// A last group that is not full repeats its last design.
fn fly_block<R: Packed, K: Kept<N>, const N: usize>(
    plan: &Plan,
    vehicles: &Vehicles,
    designs: &[Design<f64>],
    rows: &mut [[f64; N]],
) {
    for (designs, rows) in designs.chunks(R::WIDTH).zip(rows.chunks_mut(R::WIDTH)) {
        let last = designs.len() - 1;
        let group: Design<R> =
            std::array::from_fn::<_, { VARIED.len() }, _>(|k| R::pack(|i| designs[i.min(last)][k]));
        // All that an ascent tells is asked for, whether it is kept or not.
        let flown = black_box(vehicles.with_flight(&group, plan.course, plan.grid, ascend));
        for (lane, row) in rows.iter_mut().enumerate() {
            *row = K::of(&flown).map(|column| column.lane(lane));
        }
    }
}
