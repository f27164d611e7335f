//! Vehicles at random: what a step grid promises of the apogee, and its estimate of the error.

use super::ADAPTIVE;
use super::integrated::integrated;
use super::shapes::STATED;
use super::stepped::stepped;
use super::varied::varied;
use hoopline::airframe::DragTable;
use hoopline::ascent::{Grid, Trajectory};

/// What the docs of the presets say, m: what nearly all apogees are within, and what all are.
const PROMISED: [(Grid, f64, f64); 2] = [(Grid::Trade, 0.1, 0.5), (Grid::Fine, 1e-3, 5e-3)];
/// Largest apogee taken, m; above it there is next to no air left.
const HIGHEST: f64 = 80e3;

/// An apogee by the ascent.
struct Found {
    /// Off the integrator's by, m.
    off: f64,
    guess: f64,
}

/// Of the first vehicles those that fly, with their apogees by the integrator, on every grid.
fn found(count: u64) -> Vec<[Found; 2]> {
    let table = DragTable::new(&STATED).expect("a table");
    let flies = |flown: &Trajectory<f64>| {
        let fails = flown.grounded || flown.held || flown.stopped || flown.lost;
        !fails && (100.0..HIGHEST).contains(&flown.apogee)
    };
    let mut all = Vec::new();
    for index in 0..count {
        let Some(varied) = varied(index, &table) else {
            continue;
        };
        let vehicle = varied.vehicle();
        let flown = PROMISED.map(|(grid, ..)| stepped(&vehicle, grid));
        if flown.iter().all(flies) {
            let expected = integrated(&vehicle, 1).apogee;
            all.push(flown.map(|flown| Found {
                off: (flown.apogee - expected).abs(),
                guess: flown.apogee_error,
            }));
        }
    }
    all
}

/// Of `count` vehicles all but a share keep the promise, and the estimates of all but two in a hundred lie
/// above the error, where that is a tenth of what is promised at least (own choice: smaller ones harm nobody).
fn check(count: u64, share: f64) {
    let all = found(count);
    for (k, (grid, most, all_within)) in PROMISED.into_iter().enumerate() {
        let number = |counts: &dyn Fn(&Found) -> bool| {
            all.iter().filter(|found| counts(&found[k])).count() as f64 / all.len() as f64
        };
        let beyond = number(&|found| found.off > most);
        let below = number(&|found| found.off > 0.1 * most && found.guess < found.off);
        let worst = all.iter().map(|found| found[k].off).fold(0.0, f64::max);
        println!(
            "{grid:?}, {} vehicles: {beyond:.4} beyond {most} m, worst {worst:.2e} m, {below:.4} of the \
             estimates below the error",
            all.len()
        );
        let case = format!("{grid:?}: largest error of {} apogees, m", all.len());
        ADAPTIVE.within(&case, worst, 0.0, all_within);
        assert!(beyond <= share, "{grid:?}: {beyond} beyond {most} m");
        assert!(below <= 0.02, "{grid:?}: {below} estimates below the error");
    }
}

#[test]
fn vehicles_at_random_keep_the_promise() {
    check(600, 0.02);
}

#[test]
#[ignore = "takes a minute; do.py test --long runs it"]
fn very_many_vehicles_at_random_keep_the_promise() {
    check(6000, 0.01);
}
