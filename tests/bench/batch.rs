//! Ascents of any number of designs over threads, into one contiguous array.

use crate::fleet::{Design, VARIED, ascend, curve, design};
use hoopline::ascent::{Course, Grid, Trajectory};
use hoopline::motor::Curve;
use hoopline::numerics::{Lanes, Real};
use rayon::prelude::*;
use std::hint::black_box;
use std::time::{Duration, Instant};

/// What is kept of an ascent.
pub const KEPT: [&str; 8] = [
    "apogee [m]",
    "burnout altitude [m]",
    "burnout speed [m/s]",
    "apogee time [s]",
    "rail exit speed [m/s]",
    "largest dynamic pressure [Pa]",
    "largest Mach number",
    "largest axial acceleration [m/s2]",
];

/// The numbers of one ascent, in the order of [`KEPT`].
pub type Row = [f64; KEPT.len()];

/// Most designs whose inputs exist at a time, on each thread.
const MOST_AT_ONCE: usize = 8192;

/// How a batch is flown.
#[derive(Clone, Copy)]
pub struct Plan {
    pub designs: usize,
    pub lanes: usize,
    pub threads: usize,
    pub course: Course,
    pub grid: Grid,
}

/// A batch flown.
pub struct Flown {
    pub rows: Vec<Row>,
    /// From the first design to the last row.
    pub elapsed: Duration,
    /// Summed over the threads: making the inputs, and flying.
    pub making: Duration,
    pub flying: Duration,
}

/// Flies the first designs of the fleet; the inputs are made block by block and not kept.
pub fn fly(plan: &Plan) -> Result<Flown, String> {
    let per_block: fn(&Plan, &Curve, &[Design<f64>], &mut [Row]) = match plan.lanes {
        1 => fly_block::<f64>,
        4 => fly_block::<Lanes<4>>,
        8 => fly_block::<Lanes<8>>,
        16 => fly_block::<Lanes<16>>,
        other => return Err(format!("{other} lanes: 1, 4, 8 and 16 are built")),
    };
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(plan.threads)
        .build()
        .map_err(|error| error.to_string())?;
    let curve = curve();
    // Eight blocks for every thread keep them all busy to the end.
    let even = plan.designs.div_ceil(8 * plan.threads);
    let block = even.next_multiple_of(plan.lanes).min(MOST_AT_ONCE);
    let start = Instant::now();
    let mut rows = vec![Row::default(); plan.designs];
    let (making, flying) = pool.install(|| {
        rows.par_chunks_mut(block)
            .enumerate()
            .map(|(index, rows)| {
                let start = Instant::now();
                let first = index * block;
                let designs: Vec<_> = (first..first + rows.len()).map(design).collect();
                let made = Instant::now();
                per_block(plan, &curve, &designs, rows);
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
    const WIDTH: usize;
    fn pack(lane: impl Fn(usize) -> f64) -> Self;
    fn lane(self, lane: usize) -> f64;
}

impl Packed for f64 {
    const WIDTH: usize = 1;
    fn pack(lane: impl Fn(usize) -> f64) -> Self {
        lane(0)
    }
    fn lane(self, _lane: usize) -> f64 {
        self
    }
}

impl<const N: usize> Packed for Lanes<N> {
    const WIDTH: usize = N;
    fn pack(lane: impl Fn(usize) -> f64) -> Self {
        Self(std::array::from_fn(lane))
    }
    fn lane(self, lane: usize) -> f64 {
        self.0[lane]
    }
}

/// A last group that is not full repeats its last design.
fn fly_block<R: Packed>(plan: &Plan, curve: &Curve, designs: &[Design<f64>], rows: &mut [Row]) {
    for (designs, rows) in designs.chunks(R::WIDTH).zip(rows.chunks_mut(R::WIDTH)) {
        let last = designs.len() - 1;
        let group: Design<R> =
            std::array::from_fn::<_, { VARIED.len() }, _>(|k| R::pack(|i| designs[i.min(last)][k]));
        // All that an ascent tells is asked for, whether it is kept or not.
        let flown = black_box(ascend(curve, &group, plan.course, plan.grid));
        for (lane, row) in rows.iter_mut().enumerate() {
            *row = kept(&flown).map(|column| column.lane(lane));
        }
    }
}

fn kept<R: Real>(flown: &Trajectory<R>) -> [R; KEPT.len()] {
    [
        flown.apogee,
        flown.burnout_altitude,
        flown.burnout_speed,
        flown.apogee_time,
        flown.rail_exit_speed,
        flown.max_dynamic_pressure,
        flown.max_mach,
        flown.max_axial_acceleration,
    ]
}
