//! The estimated error of the steps, and what happens to a design that the grid does not serve.

use crate::fleet::{VARIED, ascend, curve, design};
use hoopline::airframe::{DragTable, GivenDrag, stated_drag};
use hoopline::ascent::{AirModel, Course, Flight, Grid, Trajectory, fly};
use hoopline::motor::{Curve, Drive};
use hoopline::numerics::Lanes;

const COURSES: [Course; 2] = [Course::Vertical, Course::Inclined];

/// Errors of the apogee of 200 vehicles against a grid of eight times the steps, and their estimates.
fn errors(grid: Grid) -> Vec<(f64, f64)> {
    let curve = curve();
    let designs = (0..200).map(|index| (COURSES[index % 2], design(index)));
    let flown = designs.map(|(course, design)| {
        let found = ascend(&curve, &design, course, grid);
        let fine = ascend(&curve, &design, course, Grid::Fine);
        ((found.apogee - fine.apogee).abs(), found.apogee_error)
    });
    flown.collect()
}

#[test]
fn the_trade_grid_keeps_its_promise_and_the_estimate_lies_above_the_error() {
    let found = errors(Grid::Trade);
    let largest = found.iter().map(|(error, _)| *error).fold(0.0, f64::max);
    let below = found.iter().filter(|(error, guess)| guess < error).count();
    println!("largest error {largest:.3} m; {below} of 200 estimates lie below it");
    assert!(largest > 1e-3 && largest < 0.1, "{largest} m");
    assert!(below <= 2, "{below}");
    assert!(
        found
            .iter()
            .all(|(_, guess)| *guess < Grid::Trade.tolerance())
    );
}

/// A wall in the drag at Mach 0.7, which no fixed grid follows.
fn walled(course: Course, grid: Grid) -> Trajectory<f64> {
    let curve = Curve::new(&[(0.0, 3000.0), (6.0, 2500.0), (6.5, 0.0)]).expect("a curve");
    let rows = [
        (0.0, 0.3),
        (0.699, 0.3),
        (0.7, 3.0),
        (0.701, 0.3),
        (5.0, 0.3),
    ];
    let table = DragTable::new(&rows).expect("a table");
    fly(&Flight {
        curve: &curve,
        drive: Drive {
            time_scale: 1.0,
            force_scale: 1.0,
            mean_thrust: curve.mean(),
            burn_time: curve.duration(),
            exhaust_speed: 2000.0,
            reference_pressure: 101_325.0,
            exit_area: 0.002,
        },
        drag: &stated_drag(&table, &GivenDrag::on(0.2)),
        air: AirModel::Standard,
        site_altitude: 0.0,
        course,
        elevation: 1.4,
        rail_length: 6.0,
        lift_off_mass: 45.0,
        mass_ahead: 0.0,
        grid,
    })
}

#[test]
fn a_design_that_the_grid_does_not_serve_is_flown_with_more_steps() {
    for course in COURSES {
        let found = walled(course, Grid::Trade);
        assert!(found.grid_doublings >= 1.0, "{course:?} {found:?}");
        let reference = walled(course, Grid::Fine).apogee;
        let off = (found.apogee - reference).abs();
        assert!(off < Grid::Trade.tolerance(), "{course:?}: {off} m");
        // Six doublings are the most, and the wall is as thin as their steps.
        assert!(
            found.apogee_error < 5.0 * Grid::Trade.tolerance(),
            "{found:?}"
        );
    }
}

#[test]
fn neighbours_in_a_block_keep_their_own_grid() {
    let curve = curve();
    for course in COURSES {
        let alone: Vec<Trajectory<f64>> = (0..8)
            .map(|lane| ascend(&curve, &stretched(lane), course, Grid::Trade))
            .collect();
        let block =
            std::array::from_fn(|k| Lanes::<8>(std::array::from_fn(|lane| stretched(lane)[k])));
        let together = ascend(&curve, &block, course, Grid::Trade);
        let doubled = alone
            .iter()
            .filter(|flown| flown.grid_doublings > 0.0)
            .count();
        assert!(doubled > 0 && doubled < 8, "{doubled}");
        for (lane, flown) in alone.iter().enumerate() {
            let pairs = [
                (flown.apogee, together.apogee),
                (flown.apogee_error, together.apogee_error),
                (flown.grid_doublings, together.grid_doublings),
                (flown.max_dynamic_pressure, together.max_dynamic_pressure),
                (flown.rail_exit_speed, together.rail_exit_speed),
            ];
            for (one, block) in pairs {
                assert_eq!(one.to_bits(), block.0[lane].to_bits(), "lane {lane}");
            }
        }
    }
}

/// Every second vehicle carries eight times the propellant at twice the thrust, so that its steps are long.
fn stretched(lane: usize) -> [f64; VARIED.len()] {
    let mut design = design(lane);
    if lane % 2 == 1 {
        design[3] *= 8.0;
        design[4] *= 2.2;
    }
    design
}

/// Slow starts from a low rail, which turn far: the estimate must see a wrong direction.
#[test]
fn an_error_of_the_direction_is_seen() {
    let curve = curve();
    let mut below = 0;
    for index in 0..40 {
        let mut slow = design(index);
        slow[3] *= 2.0;
        slow[4] *= 0.45;
        slow[7] = 78.0;
        let found = ascend(&curve, &slow, Course::Inclined, Grid::Trade);
        let fine = ascend(&curve, &slow, Course::Inclined, Grid::Fine);
        assert!(
            !found.grounded && !found.held && !found.stopped,
            "{found:?}"
        );
        below += usize::from(found.apogee_error < (found.apogee - fine.apogee).abs());
    }
    println!("{below} of 40 estimates lie below the error");
    assert!(below <= 4, "{below} of 40");
}
