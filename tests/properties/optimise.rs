//! The search finds what a fine grid finds, and better by no more than the grid is coarse.

use crate::{example, replaced, with};
use hoopline::Error;
use hoopline::stage::{RESULTS, Stage, outcome_slots};
use hoopline::study::{
    Axis, Constraint, Direction, Goal, Method, Optimum, Problem, Progress, Standing, Sweep,
    Variable, optimise, sweep,
};
use serde_json::{Value, json};

/// Walls of the grid: 10 micrometres apart.
const WALLS: usize = 1001;
const THINNEST: f64 = 0.5e-3;
const THICKEST: f64 = 10.5e-3;

pub(super) fn wall_range() -> Variable {
    range("tank.liner.wall", json!(THINNEST), json!(THICKEST))
}

pub(super) fn range(path: &str, lower: Value, upper: Value) -> Variable {
    Variable::Continuous {
        path: path.to_owned(),
        lower,
        upper,
    }
}

pub(super) fn listed(path: &str, values: &[Value]) -> Variable {
    Variable::Listed {
        path: path.to_owned(),
        values: values.to_vec(),
    }
}

pub(super) fn at_least(path: &str, value: Value) -> Constraint {
    Constraint {
        path: path.to_owned(),
        at_least: Some(value),
        at_most: None,
    }
}

pub(super) fn lightest(vary: Vec<Variable>, subject_to: Option<Vec<Constraint>>) -> Problem {
    Problem {
        goal: Goal {
            direction: Direction::Minimise,
            path: "tank.mass".to_owned(),
        },
        vary,
        subject_to,
    }
}

pub(super) fn search(stage: &Stage, problem: &Problem) -> hoopline::Result<Optimum> {
    optimise(stage, problem, Method::default(), &Progress::default())
}

pub(super) fn clear() -> Vec<Constraint> {
    vec![at_least("margins", json!(0))]
}

fn grid(stage: &Stage, path: &str, values: Vec<Value>) -> Sweep {
    let axis = Axis {
        path: path.to_owned(),
        values,
    };
    sweep(stage, &[axis], None, &Progress::default()).expect("a grid")
}

/// The best of a grid: the smallest `goal` among cases of which no margin is negative.
fn best(grid: &Sweep, goal: impl Fn(usize) -> f64) -> Option<(usize, f64)> {
    let margins: Vec<_> = grid
        .columns
        .iter()
        .filter(|(path, _)| path.starts_with("margins."))
        .collect();
    (0..grid.status.len())
        .filter(|case| grid.status[*case] == 0.0)
        .filter(|case| margins.iter().all(|(_, column)| column[*case] >= 0.0))
        .map(|case| (case, goal(case)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

fn column<'a>(grid: &'a Sweep, path: &str) -> &'a ndarray::Array1<f64> {
    let found = grid.columns.iter().find(|(name, _)| name == path);
    &found.expect("a column").1
}

/// Seeded numbers between 0 and 1 (SplitMix64, public domain).
pub(super) struct Seeded(pub u64);

impl Seeded {
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    pub(super) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.next() * (high - low)
    }
}

/// A stage around one of the examples: other diameter, volume, soak, closures, wrap.
pub(super) fn seeded(seed: u64) -> Stage {
    let mut seeded = Seeded(seed);
    let examples = ["petrel_slim.toml", "petrel_plain.toml", "petrel_hoop.toml"];
    let stage = example(examples[seed as usize % 3]);
    let dome = json!(seeded.between(9e-3, 13e-3));
    let mut changes = vec![
        ("tank.outer_diameter", json!(seeded.between(0.14, 0.2))),
        ("tank.volume", json!(seeded.between(0.018, 0.03))),
        (
            "pressure.soak_temperature",
            json!(seeded.between(298.0, 309.0)),
        ),
        ("tank.fore_closure.thickness", dome.clone()),
        ("tank.aft_closure.thickness", dome),
        (
            "tank.liner.wall_under_tolerance",
            json!(seeded.between(0.0, 0.1)),
        ),
    ];
    if stage.form().tank.is_some_and(|side| side.tank.plies > 0) {
        let ply = json!(seeded.between(0.1e-3, 0.8e-3));
        changes.push(("tank.overwrap.ply[0].fibre_thickness", ply));
    }
    replaced(&stage, &changes).expect("a seeded stage")
}

#[test]
fn twenty_seeded_stages_agree_with_a_fine_grid() {
    let walls: Vec<f64> = (0..WALLS)
        .map(|k| THINNEST + (THICKEST - THINNEST) * k as f64 / (WALLS - 1) as f64)
        .collect();
    let values: Vec<Value> = walls.iter().map(|wall| json!(wall)).collect();
    for seed in 0..20 {
        let stage = seeded(seed);
        let grid = grid(&stage, "tank.liner.wall", values.clone());
        let mass = column(&grid, "tank.mass");
        let (case, lightest_of_grid) = best(&grid, |case| mass[case]).expect("one that clears");
        let found =
            search(&stage, &lightest(vec![wall_range()], Some(clear()))).expect("an optimum");
        let candidate = &found.candidates[0];
        let wall = candidate.inputs[0].1.as_f64().expect("a wall");
        let goal = candidate.goal.expect("a mass");
        assert!(found.feasible(), "seed {seed}");
        assert!(goal <= lightest_of_grid, "seed {seed}: the grid is lighter");
        assert!(
            walls[case - 1] < wall && wall <= walls[case],
            "seed {seed}: {wall} is not within a step below {}",
            walls[case]
        );
        assert!(
            lightest_of_grid - goal <= mass[case] - mass[case - 1],
            "seed {seed}: lighter than a step allows"
        );
        // The design is what an assessment of its own says, and a hair less wall breaks a bound.
        let alone = replaced(&stage, &[("tank.liner.wall", json!(wall))]).expect("a wall");
        assert_eq!(alone.outcome().tank.mass.to_bits(), goal.to_bits());
        let thinner = replaced(&stage, &[("tank.liner.wall", json!(wall - 1e-9))]).expect("a wall");
        let slots = outcome_slots(&thinner.outcome(), 0.0);
        let broken = &candidate.held[0].bound.path;
        assert!(
            slots[RESULTS.slot(broken).expect("a result")] < 0.0,
            "seed {seed}: {broken} does not govern"
        );
    }
}

#[test]
fn over_listed_walls_the_lightest_that_clears_wins_and_the_next_one_says_what_it_breaks() {
    for seed in 0..20 {
        let stage = seeded(seed);
        let walls: Vec<Value> = (2..20)
            .rev()
            .map(|k| json!(f64::from(k) * 0.5e-3))
            .collect();
        let grid = grid(&stage, "tank.liner.wall", walls.clone());
        let mass = column(&grid, "tank.mass");
        let (case, lightest_of_grid) = best(&grid, |case| mass[case]).expect("one that clears");
        let problem = lightest(vec![listed("tank.liner.wall", &walls)], Some(clear()));
        let found = search(&stage, &problem).expect("an optimum");
        assert_eq!(found.candidates[0].inputs[0].1, walls[case], "seed {seed}");
        assert_eq!(found.candidates[0].goal, Some(lightest_of_grid));
        let next = &found.candidates[found.next.expect("a thinner one")];
        assert_eq!(next.inputs[0].1, walls[case + 1], "seed {seed}");
        assert_eq!(next.standing, Standing::Violates);
        assert!(next.held[0].share < 0.0);
    }
}

#[test]
fn an_optimum_in_a_valley_is_found_between_scan_points() {
    let stage = example("petrel_plain.toml");
    let problem = Problem {
        goal: Goal {
            direction: Direction::Maximise,
            path: "ascent.apogee".to_owned(),
        },
        vary: vec![range("nose.fineness_ratio", json!(1.5), json!(10.5))],
        subject_to: Some(vec![at_least("airframe.length", json!("1 m"))]),
    };
    let values = (0..2001)
        .map(|k| json!(1.5 + 0.0045 * f64::from(k)))
        .collect();
    let grid = grid(&stage, "nose.fineness_ratio", values);
    let apogee = column(&grid, "ascent.apogee");
    let (case, lowest) = best(&grid, |case| -apogee[case]).expect("a case");
    assert!(case > 100 && case < 1900, "the optimum lies inside: {case}");
    let found = search(&stage, &problem).expect("an optimum");
    let goal = found.candidates[0].goal.expect("an apogee");
    assert!(goal >= -lowest, "{goal} against {}", -lowest);
    assert!((goal + lowest) / goal < 1e-5);
    assert!(found.candidates[0].on_limit.is_empty());
}

#[test]
fn two_continuous_variables_agree_with_a_grid_of_both() {
    for seed in [0, 3, 5] {
        let stage = seeded(seed);
        let vary = vec![
            range("tank.liner.wall", json!("1 mm"), json!("7 mm")),
            range(
                "tank.overwrap.ply[0].fibre_thickness",
                json!("0.1 mm"),
                json!("2 mm"),
            ),
        ];
        let steps = |low: f64, high: f64, count: usize| -> Vec<Value> {
            (0..count)
                .map(|k| json!(low + (high - low) * k as f64 / (count - 1) as f64))
                .collect()
        };
        let axes = [
            ("tank.liner.wall", steps(1e-3, 7e-3, 121)),
            (
                "tank.overwrap.ply[0].fibre_thickness",
                steps(0.1e-3, 2e-3, 77),
            ),
        ]
        .map(|(path, values)| Axis {
            path: path.to_owned(),
            values,
        });
        let grid = sweep(&stage, &axes, None, &Progress::default()).expect("a grid");
        let mass = column(&grid, "tank.mass");
        let (_, lightest_of_grid) = best(&grid, |case| mass[case]).expect("one that clears");
        let found = search(&stage, &lightest(vary, Some(clear()))).expect("an optimum");
        let goal = found.candidates[0].goal.expect("a mass");
        assert!(found.feasible(), "seed {seed}");
        assert!(
            goal <= lightest_of_grid,
            "seed {seed}: {goal} > {lightest_of_grid}"
        );
        assert!(goal > 0.97 * lightest_of_grid, "seed {seed}: too good");
    }
}

#[test]
fn threads_and_their_number_change_no_bit() {
    let stage = example("petrel_slim.toml");
    let vary = vec![
        wall_range(),
        listed(
            "tank.fore_closure.kind",
            &[json!("hemisphere"), json!("ellipsoid_2_1")],
        ),
        listed(
            "tank.outer_diameter",
            &[json!("150 mm"), json!("160 mm"), json!("900 mm")],
        ),
    ];
    let problem = lightest(vary, Some(clear()));
    let run = |threads| {
        let method = Method {
            threads: Some(threads),
            ..Method::default()
        };
        optimise(&stage, &problem, method, &Progress::default()).expect("an optimum")
    };
    let (one, two) = (run(1), run(2));
    assert_eq!(one.json().to_string(), two.json().to_string());
    let last = one.candidates.last().expect("a candidate");
    assert_eq!(last.standing, Standing::NoResults, "900 mm holds no tank");
    assert!(
        last.reason
            .as_ref()
            .is_some_and(|reason| reason.contains("closures"))
    );
}

#[test]
fn what_cannot_be_met_gives_the_least_violated_design_and_what_excludes_what() {
    let stage = example("petrel_slim.toml");
    let light = Constraint {
        path: "tank.mass".to_owned(),
        at_least: None,
        at_most: Some(json!("5 kg")),
    };
    let bounds = vec![at_least("margins", json!(0)), light];
    let found = search(&stage, &lightest(vec![wall_range()], Some(bounds))).expect("a design");
    assert!(!found.feasible());
    let conflict: Vec<&str> = found
        .conflict
        .iter()
        .map(|bound| bound.path.as_str())
        .collect();
    assert_eq!(conflict.len(), 2, "{conflict:?}");
    assert!(conflict.contains(&"tank.mass"));
    let least = &found.candidates[0];
    assert_eq!(least.standing, Standing::Violates);
    // Between the two it is short of both alike: less of one would be more of the other.
    assert!(
        (least.held[0].share - least.held[1].share).abs() < 1e-6,
        "{:?}",
        least.held
    );
    let values = (0..WALLS)
        .map(|k| json!(THINNEST + 1e-5 * k as f64))
        .collect();
    let grid = grid(&stage, "tank.liner.wall", values);
    let mass = column(&grid, "tank.mass");
    let worst = (0..WALLS)
        .filter(|case| grid.status[*case] == 0.0)
        .map(|case| {
            let margins = grid
                .columns
                .iter()
                .filter(|(path, _)| path.starts_with("margins."));
            let margin = margins
                .map(|(_, column)| column[case])
                .fold(f64::INFINITY, f64::min);
            margin.min(1.0 - mass[case] / 5.0)
        })
        .fold(f64::NEG_INFINITY, f64::max);
    assert!(least.held[0].share >= worst);
    assert!(least.held[0].share - worst < 2e-3);
}

#[test]
fn a_search_that_cannot_begin_says_why() {
    let stage = example("petrel_slim.toml");
    let wall = || wall_range();
    let word = |vary: Vec<Variable>, bounds: Vec<Constraint>| -> String {
        let refused = search(&stage, &lightest(vary, Some(bounds))).expect_err("refused");
        refused.to_string()
    };
    assert!(word(vec![], vec![]).contains("nothing to vary"));
    assert!(word(vec![wall(), wall()], vec![]).contains("tank.liner.wall is varied twice"));
    let upside_down = range("tank.liner.wall", json!("5 mm"), json!("4 mm"));
    assert!(word(vec![upside_down], vec![]).contains("lower limit comes first"));
    let choice = range("tank.fore_closure.kind", json!(0), json!(1));
    assert!(word(vec![choice], vec![]).contains("list its words"));
    let unknown = range("tank.liner.wal", json!(0), json!(1));
    assert!(word(vec![unknown], vec![]).contains("did you mean \"tank.liner.wall\"?"));
    let mut nothing = at_least("tank.mass", json!(0));
    nothing.at_least = None;
    assert!(word(vec![wall()], vec![nothing]).contains("has no limit"));
    let input = at_least("tank.liner.wall", json!(0));
    assert!(word(vec![wall()], vec![input]).contains("is an input"));
    let unit = at_least("tank.mass", json!("3 mm"));
    assert!(word(vec![wall()], vec![unit]).contains("mm"));
    let derived = range("tank.length", json!("1 m"), json!("2 m"));
    assert!(word(vec![derived], vec![]).contains("tank.length"));
    let progress = Progress::default();
    progress.cancel();
    let stopped = optimise(
        &stage,
        &lightest(vec![wall()], Some(clear())),
        Method::default(),
        &progress,
    );
    assert!(matches!(stopped, Err(Error::Cancelled { .. })));
}

#[test]
fn without_bounds_of_its_own_a_search_holds_margins_and_requirements() {
    let stage = with(&example("petrel_slim.toml"), "tank.liner.wall", "5 mm");
    let found = search(&stage, &lightest(vec![wall_range()], None)).expect("a design");
    let held = &found.candidates[0].held;
    let has = |path: &str| held.iter().any(|held| held.bound.path == path);
    assert!(has("margins.hoop_burst") && has("ascent.apogee") && has("tank.mass"));
    assert_eq!(
        held.iter()
            .filter(|held| held.bound.path == "margins.girth_seam_proof")
            .count(),
        1,
        "named twice, held once"
    );
}

#[test]
fn a_band_narrower_than_a_step_of_the_scan_is_found() {
    let stage = example("petrel_slim.toml");
    let band = Constraint {
        path: "tank.mass".to_owned(),
        at_least: Some(json!("9.0000 kg")),
        at_most: Some(json!("9.0002 kg")),
    };
    let found = search(&stage, &lightest(vec![wall_range()], Some(vec![band]))).expect("a design");
    assert!(found.feasible(), "{:?}", found.candidates[0].held);
    let goal = found.candidates[0].goal.expect("a mass");
    assert!((9.0..9.0 + 1e-9).contains(&goal), "{goal}");
}

#[test]
fn of_equals_the_smaller_input_wins() {
    let stage = example("petrel_slim.toml");
    let proof = Problem {
        goal: Goal {
            direction: Direction::Minimise,
            path: "pressures.proof".to_owned(),
        },
        ..lightest(vec![wall_range()], Some(clear()))
    };
    let wall = |problem: &Problem| {
        let found = search(&stage, problem).expect("an optimum");
        found.candidates[0].inputs[0].1.as_f64().expect("a wall")
    };
    // The fill decides the pressure: every wall that clears is as good as any other.
    let thinnest = wall(&lightest(vec![wall_range()], Some(clear())));
    assert!((wall(&proof) - thinnest).abs() < 1e-12);
}

#[test]
fn what_lies_on_a_limit_says_on_which() {
    let stage = example("petrel_slim.toml");
    for (direction, upper) in [(Direction::Minimise, false), (Direction::Maximise, true)] {
        let problem = Problem {
            goal: Goal {
                direction,
                path: "tank.mass".to_owned(),
            },
            vary: vec![
                range("tank.liner.wall", json!("4 mm"), json!("5 mm")),
                range(
                    "tank.overwrap.ply[0].fibre_thickness",
                    json!("0.3 mm"),
                    json!("0.5 mm"),
                ),
            ],
            subject_to: Some(clear()),
        };
        let best = search(&stage, &problem)
            .expect("an optimum")
            .candidates
            .remove(0);
        let expected = [
            ("tank.liner.wall".to_owned(), upper),
            ("tank.overwrap.ply[0].fibre_thickness".to_owned(), upper),
        ];
        assert_eq!(best.on_limit, expected);
    }
}
