//! A batch of ascents gives every design the same bits: in lanes of any width, on any number of threads, and
//! whatever designs stand beside it.

use crate::batch::{Order, Plan, fly};
use crate::outputs::{All, OUTPUTS, all, bits, output};
use crate::vehicles::{Set, Vehicles};
use hoopline::ascent::{Course, Grid, attempts, fly as ascend};

type Row = [f64; OUTPUTS.len()];

const COURSES: [Course; 2] = [Course::Vertical, Course::Inclined];

/// Prime, so that every stride reaches all designs and no width of lanes divides it.
const MANY: usize = 1009;
const FEW: usize = 101;

fn plan(set: Set, course: Course, grid: Grid) -> Plan {
    Plan {
        set,
        designs: if grid == Grid::Trade { MANY } else { FEW },
        order: Order::PLAIN,
        lanes: 1,
        threads: 1,
        course,
        grid,
    }
}

fn flown(plan: &Plan) -> Vec<Row> {
    fly::<All, _>(plan).expect("a batch").rows
}

/// Other widths, threads, strides and shifts than those of the plain order. A shift moves the borders of
/// all groups, a stride gives every design other neighbours.
const WAYS: [(usize, usize, usize, usize); 9] = [
    (1, 3, 1, 0),
    (4, 1, 1, 0),
    (8, 1, 1, 0),
    (16, 1, 1, 0),
    (16, 2, 1, 0),
    (16, 3, 1, 5),
    (4, 2, 1, 1),
    (8, 2, 57, 3),
    (16, 1, 57, 0),
];

fn hold(plan: &Plan) -> Vec<Row> {
    let alone = flown(plan);
    for (lanes, threads, stride, shift) in WAYS {
        let order = Order { stride, shift };
        let way = Plan {
            order,
            lanes,
            threads,
            ..*plan
        };
        for (place, row) in flown(&way).iter().enumerate() {
            let index = order.at(place, plan.designs);
            for (name, (one, other)) in OUTPUTS.iter().zip(alone[index].iter().zip(row)) {
                assert_eq!(
                    bits(*one),
                    bits(*other),
                    "{name} of design {index}: {one:e} alone, {other:e} by {way:?}"
                );
            }
        }
    }
    alone
}

/// Designs of which an output is above zero.
fn count(rows: &[Row], name: &str) -> usize {
    rows.iter().filter(|row| row[output(name)] > 0.0).count()
}

/// Of each kind named there have to be some among the designs, or nothing is shown of them.
fn wide(grid: Grid, kinds: &[&str]) {
    for course in COURSES {
        let rows = hold(&plan(Set::Wide, course, grid));
        let seen: Vec<_> = kinds
            .iter()
            .map(|name| (name, count(&rows, name)))
            .collect();
        println!("{course:?}: {seen:?} of {}", rows.len());
        assert!(
            seen.iter().all(|(_, seen)| (1..rows.len()).contains(seen)),
            "{seen:?}"
        );
    }
}

#[test]
fn wide_designs_keep_their_bits_on_the_trade_grid() {
    wide(
        Grid::Trade,
        &["grounded", "stopped", "held", "lost", "grid doublings"],
    );
}

#[test]
fn wide_designs_keep_their_bits_on_the_fine_grid() {
    wide(Grid::Fine, &["grounded", "stopped", "grid doublings"]);
}

#[test]
fn the_fleet_keeps_its_bits() {
    for course in COURSES {
        for grid in [Grid::Trade, Grid::Fine] {
            let rows = hold(&plan(Set::Fleet, course, grid));
            assert!(rows.iter().all(|row| row[output("apogee")] > 1000.0));
        }
    }
}

#[test]
fn close_mach_knots_keep_their_bits() {
    for course in COURSES {
        let few = Plan {
            designs: FEW,
            ..plan(Set::Walled, course, Grid::Trade)
        };
        assert_eq!(count(&hold(&few), "grid doublings"), FEW);
    }
}

#[test]
fn the_last_attempt_is_what_the_ascent_comes_to() {
    for set in [Set::Wide, Set::Walled] {
        let vehicles = Vehicles::of(set);
        let mut again = 0;
        for index in 0..FEW {
            let design = vehicles.design(index);
            let (tries, found) =
                vehicles.with_flight(&design, Course::Inclined, Grid::Trade, |flight| {
                    (attempts(flight), ascend(flight))
                });
            let last = tries.last().expect("a flight");
            assert_eq!(all(last).map(bits), all(&found).map(bits));
            let more = found.grid_doublings - tries[0].grid_doublings;
            assert_eq!(more, (tries.len() - 1) as f64);
            again += usize::from(more > 0.0);
        }
        assert!((1..FEW).contains(&again), "{again} of {FEW}");
    }
}
