//! Which designs the steps do not serve, and why, and how all of them end.
//!
//! A set is flown in blocks. Every design that was flown again flies once more alone, one attempt after the
//! other, which tells why; its last attempt has to have the bits of the block.

use crate::batch::{Order, Plan, fly};
use crate::outputs::{All, OUTPUTS, all, bits, output};
use crate::vehicles::{Set, Vehicles};
use hoopline::ascent::{Course, Grid, Trajectory, attempts};
use hoopline::quantity::Choice;
use rayon::prelude::*;
use serde_json::{Map, Value, json};

type Row = [f64; OUTPUTS.len()];

/// Most doublings of the steps, and one for none.
const COUNTS: usize = 7;
/// How many numbers of designs are told of each kind.
const EXAMPLES: usize = 4;

/// Why a design was flown again.
const CAUSES: [&str; 3] = [
    "error beyond tolerance",
    "seemed to stop in the burn",
    "came to no number",
];

/// How a design ends; the first that holds counts, as in an assessment. No number: without any of these.
const ENDS: [&str; 6] = ["grounded", "stopped", "lost", "held", "no number", "apogee"];

/// Both courses on the trade grid, half of the designs each.
pub fn fallen(set: Set, designs: usize) -> Result<Value, String> {
    let courses = Course::ALL.iter().map(|course| {
        let plan = Plan {
            set,
            designs: designs.div_ceil(Course::ALL.len()),
            order: Order::PLAIN,
            lanes: 16,
            threads: rayon::current_num_threads(),
            course: *course,
            grid: Grid::Trade,
        };
        Ok((course.word().to_owned(), tally(&plan)?))
    });
    courses
        .collect::<Result<Map<_, _>, String>>()
        .map(Value::Object)
}

/// How many there are of a kind, by how often their steps were doubled, and the first few.
#[derive(Clone, Default)]
struct Kind {
    by_doublings: [usize; COUNTS],
    examples: Vec<usize>,
}

impl Kind {
    fn add(&mut self, index: usize, row: &Row) {
        self.by_doublings[row[output("grid doublings")] as usize] += 1;
        if self.examples.len() < EXAMPLES {
            self.examples.push(index);
        }
    }

    fn told(&self) -> Value {
        json!({
            "designs": self.by_doublings.iter().sum::<usize>(),
            "by_doublings": self.by_doublings,
            "examples": self.examples,
        })
    }
}

fn named(names: &[&str], kinds: &[Kind]) -> Value {
    let pairs = names.iter().zip(kinds);
    Value::Object(
        pairs
            .map(|(name, kind)| ((*name).to_owned(), kind.told()))
            .collect(),
    )
}

fn tally(plan: &Plan) -> Result<Value, String> {
    let rows = fly::<All, _>(plan)?.rows;
    let vehicles = Vehicles::of(plan.set);
    let tries = |index: usize| {
        let design = vehicles.design(index);
        vehicles.with_flight(&design, plan.course, plan.grid, attempts)
    };
    // Every design of a set begins with the same doublings, for they share the Mach knots.
    let begun = tries(0)[0].grid_doublings;
    let tolerance = plan.grid.tolerance();

    let mut ends = vec![Kind::default(); ENDS.len()];
    let (mut high, mut unserved) = (Kind::default(), Kind::default());
    let (mut all_doublings, mut again) = (Kind::default(), Vec::new());
    for (index, row) in rows.iter().enumerate() {
        let end = end(row);
        ends[end].add(index, row);
        all_doublings.add(index, row);
        if ENDS[end] == "apogee" {
            if row[output("apogee")] > 20e3 {
                high.add(index, row);
            }
            if row[output("apogee error")] > tolerance {
                unserved.add(index, row);
            }
        }
        if row[output("grid doublings")] > begun {
            again.push(index);
        }
    }

    let why: Vec<(Vec<usize>, bool)> = again
        .par_iter()
        .map(|index| {
            let flown = tries(*index);
            let last = flown.last().expect("a flight");
            let same = all(last).map(bits) == rows[*index].map(bits);
            let repeated = &flown[..flown.len() - 1];
            (
                repeated.iter().map(|one| cause(one, tolerance)).collect(),
                same,
            )
        })
        .collect();
    let mut causes = vec![Kind::default(); CAUSES.len()];
    let (mut several, mut differing) = (Kind::default(), Kind::default());
    for (index, (found, same)) in again.iter().zip(&why) {
        let row = &rows[*index];
        causes[found[0]].add(*index, row);
        if found.iter().any(|cause| cause != &found[0]) {
            several.add(*index, row);
        }
        if !same {
            differing.add(*index, row);
        }
    }
    Ok(json!({
        "designs": plan.designs,
        "doublings_for_close_mach_knots": begun,
        "by_doublings": all_doublings.by_doublings,
        "flown_again": again.len(),
        "flown_again_first_because": named(&CAUSES, &causes),
        "flown_again_for_several_causes": several.told(),
        "other_bits_alone": differing.told(),
        "ends": named(&ENDS, &ends),
        "above_20_km": high.told(),
        "error_beyond_tolerance_at_last": unserved.told(),
    }))
}

fn end(row: &Row) -> usize {
    let holds = |name: &str| match name {
        "no number" => row.iter().any(|value| !value.is_finite()),
        "apogee" => true,
        mask => row[output(mask)] > 0.0,
    };
    ENDS.iter()
        .position(|name| holds(name))
        .expect("the last holds")
}

fn cause(flown: &Trajectory<f64>, tolerance: f64) -> usize {
    if flown.stopped {
        1
    } else if flown.apogee_error > tolerance {
        0
    } else {
        2
    }
}
