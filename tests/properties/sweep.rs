//! A sweep gives, row by row, what single assessments give, however it is run.

use crate::{example, with};
use hoopline::Error;
use hoopline::stage::outcome_slots;
use hoopline::study::{Axis, Progress, Sweep, sweep};
use serde_json::json;

fn axes() -> Vec<Axis> {
    let axis = |path: &str, values: Vec<serde_json::Value>| Axis {
        path: path.to_owned(),
        values,
    };
    vec![
        axis(
            "tank.outer_diameter",
            vec![json!("140 mm"), json!("160 mm"), json!(0.9)],
        ),
        axis(
            "tank.fore_closure.kind",
            vec![json!("hemisphere"), json!("ellipsoid_2_1")],
        ),
        axis(
            "tank.liner.wall",
            (0..7)
                .map(|k| json!(0.002 + 0.0004 * f64::from(k)))
                .collect(),
        ),
    ]
}

fn run(threads: usize) -> Sweep {
    sweep(
        &example("petrel_slim.toml"),
        &axes(),
        Some(threads),
        &Progress::default(),
    )
    .expect("a sweep")
}

fn bits(sweep: &Sweep) -> Vec<Vec<u64>> {
    let columns = sweep.columns.iter().map(|(_, column)| column);
    columns
        .map(|column| column.iter().map(|value| value.to_bits()).collect())
        .collect()
}

#[test]
fn threads_do_not_change_a_bit() {
    let (one, two) = (run(1), run(2));
    assert_eq!(bits(&one), bits(&two));
    assert_eq!(one.status, two.status);
}

#[test]
fn rows_equal_single_assessments() {
    let result = run(2);
    let stage = example("petrel_slim.toml");
    let fields = &hoopline::stage::RESULTS.fields;
    let mut case = 0;
    for diameter in ["140 mm", "160 mm", "900 mm"] {
        for kind in ["hemisphere", "ellipsoid_2_1"] {
            for k in 0..7 {
                let wall = format!("{} m", 0.002 + 0.0004 * f64::from(k));
                let design = with(
                    &with(
                        &with(&stage, "tank.fore_closure.kind", kind),
                        "tank.outer_diameter",
                        diameter,
                    ),
                    "tank.liner.wall",
                    &wall,
                );
                let outcome = design.outcome();
                assert_eq!(result.status[case], outcome.status.code);
                let slots = outcome_slots(&outcome, 0.0);
                for (path, column) in &result.columns {
                    let slot = fields
                        .iter()
                        .position(|field| field.path == *path)
                        .expect("known");
                    if outcome.status.code > 0.0 {
                        assert!(column[case].is_nan(), "{path} of a failed row");
                    } else {
                        assert_eq!(
                            column[case].to_bits(),
                            slots[slot].to_bits(),
                            "{path}, case {case}"
                        );
                    }
                }
                case += 1;
            }
        }
    }
    assert_eq!(result.status.len(), case);
    assert!(
        result.status.iter().any(|code| *code > 0.0),
        "the widest tank is too short"
    );
}

#[test]
fn a_cancelled_sweep_says_so() {
    let progress = Progress::default();
    progress.cancel();
    let error =
        sweep(&example("petrel_slim.toml"), &axes(), None, &progress).expect_err("cancelled");
    assert_eq!(error, Error::Cancelled { done: 0, total: 42 });
}

#[test]
fn a_sweep_that_cannot_begin_says_why() {
    let stage = example("petrel_slim.toml");
    let attempt = |path: &str, values: Vec<serde_json::Value>| {
        let axis = Axis {
            path: path.to_owned(),
            values,
        };
        sweep(&stage, &[axis], None, &Progress::default())
            .expect_err("refused")
            .to_string()
    };
    assert!(attempt("tank.outer_diametr", vec![json!(0.1)]).contains("tank.outer_diameter"));
    assert!(attempt("tank.outer_diameter", vec![]).contains("no values"));
    assert!(attempt("tank.outer_diameter", vec![json!(-0.1)]).contains("outside"));
    assert!(attempt("tank.length", vec![json!(1.0)]).contains("follow.tank"));
    assert!(attempt("nose.shape", vec![json!("box")]).contains("von_karman"));
}
