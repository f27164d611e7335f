//! Inputs with a neutral value: absent without complaint, and inputs like any other when given.

use crate::{example, example_file, with};
use hoopline::airframe::{DragTable, GivenDrag, stated_drag};
use hoopline::stage::{INPUTS, Origin, Stage};
use hoopline::study::{Axis, Progress, sweep};
use std::path::Path;

const OF_A_BODY: [&str; 3] = [
    "drag.friction_multiplier",
    "drag.wave_multiplier",
    "drag.base_multiplier",
];

fn origin(stage: &Stage, path: &str) -> Origin {
    stage.origin(INPUTS.slot(path).expect("an input"))
}

fn value(stage: &Stage, path: &str) -> f64 {
    stage.slots()[INPUTS.slot(path).expect("an input")]
}

fn from_text(text: &str) -> Result<Stage, hoopline::Error> {
    Stage::from_toml(text, Path::new("stage.toml"))
}

#[test]
fn what_is_left_out_takes_its_neutral_value_and_says_so() {
    let stage = example("petrel_slim.toml");
    for path in OF_A_BODY {
        assert_eq!(value(&stage, path), 1.0);
        assert_eq!(origin(&stage, path), Origin::Neutral, "{path}");
    }
    assert_eq!(value(&stage, "mass.added"), 0.0);
    assert_eq!(origin(&stage, "mass.added"), Origin::Neutral);
    assert_eq!(origin(&stage, "drag.table_multiplier"), Origin::Absent);
    let published = example("published/v2_textbook.toml");
    assert_eq!(origin(&published, "drag.table_multiplier"), Origin::Neutral);
    assert_eq!(value(&published, "drag.table_multiplier"), 1.0);
}

#[test]
fn stated_or_replaced_by_the_neutral_value_changes_no_bit() {
    let stage = example("petrel_slim.toml");
    let apogee = stage.outcome().ascent.apogee;
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    for path in OF_A_BODY {
        let replaced = with(&stage, path, "1");
        assert_eq!(origin(&replaced, path), Origin::Given);
        assert_eq!(replaced.outcome().ascent.apogee.to_bits(), apogee.to_bits());
        let key = path.trim_start_matches("drag.");
        let stated = from_text(&format!("{text}\n[drag]\n{key} = 1.0\n")).expect("a stage");
        assert_eq!(origin(&stated, path), Origin::Given);
        assert_eq!(stated.outcome().ascent.apogee.to_bits(), apogee.to_bits());
        assert_eq!(stated.digest(), stage.digest());
    }
}

#[test]
fn a_multiplier_acts_on_its_term_alone() {
    let stage = example("petrel_slim.toml");
    let drag = |path: &str, value: &str| with(&stage, path, value).outcome().drag;
    let base = stage.outcome().drag;
    let without = OF_A_BODY.map(|path| {
        let none = drag(path, "0");
        let twice = drag(path, "2");
        for (one, none, twice) in [
            (base.subsonic, none.subsonic, twice.subsonic),
            (base.transonic, none.transonic, twice.transonic),
            (base.supersonic, none.supersonic, twice.supersonic),
        ] {
            approx::assert_relative_eq!(
                twice - one,
                one - none,
                max_relative = 1e-9,
                epsilon = 1e-12
            );
        }
        none
    });
    // A von Karman nose and sharp fins have no pressure drag at Mach 0.5, but for what the spline
    // carries there from the transonic ramp. The three are all there is.
    approx::assert_relative_eq!(without[1].subsonic, base.subsonic, max_relative = 1e-4);
    let sum = |of: fn(&hoopline::stage::Outcome<f64>) -> f64| {
        OF_A_BODY
            .iter()
            .map(|path| of(&stage.outcome()) - of(&with(&stage, path, "0").outcome()))
            .sum::<f64>()
    };
    approx::assert_relative_eq!(
        sum(|o| o.drag.subsonic),
        base.subsonic,
        max_relative = 1e-12
    );
    approx::assert_relative_eq!(
        sum(|o| o.drag.supersonic),
        base.supersonic,
        max_relative = 1e-12
    );
}

#[test]
fn a_stated_table_is_multiplied_as_a_whole() {
    let table = DragTable::new(&[(0.0, 0.3), (1.0, 0.6), (3.0, 0.2)]).expect("a table");
    let mut given = GivenDrag {
        reference_diameter: 0.2,
        table_multiplier: 1.0,
        friction_multiplier: 1.0,
        wave_multiplier: 1.0,
        base_multiplier: 1.0,
    };
    let before = stated_drag(&table, &given).coefficient(1.3, 7.0, 0.0);
    given.table_multiplier = 1.5;
    let after = stated_drag(&table, &given).coefficient(1.3, 7.0, 0.0);
    approx::assert_relative_eq!(after, 1.5 * before, max_relative = 1e-14);
    let stage = example("published/v2_textbook.toml");
    let more = with(&stage, "drag.table_multiplier", "1.2");
    assert!(more.outcome().ascent.apogee < stage.outcome().ascent.apogee);
}

#[test]
fn they_can_be_varied() {
    let stage = example("petrel_slim.toml");
    let axes = OF_A_BODY.map(|path| Axis {
        path: path.to_owned(),
        values: vec![serde_json::json!(0.8), serde_json::json!(1.2)],
    });
    let swept = sweep(&stage, &axes, Some(1), &Progress::default()).expect("a sweep");
    let apogee = swept
        .columns
        .iter()
        .find(|(path, _)| path == "ascent.apogee");
    let apogee = apogee.expect("a column").1.to_vec();
    // The grid ends with the largest of each, which has the most drag.
    assert_eq!(apogee.len(), 8);
    assert!(apogee[1..].iter().all(|value| *value < apogee[0]));
    assert!(apogee[..7].iter().all(|value| *value > apogee[7]));
}

#[test]
fn where_they_do_not_apply_they_are_refused() {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    let refused = |addition: &str, words: &str| {
        let error = from_text(&format!("{text}\n[drag]\n{addition}\n")).expect_err("refused");
        assert!(error.to_string().contains(words), "{error}");
    };
    refused(
        "table_multiplier = 1.1",
        "drag.table_multiplier does not apply to this stage",
    );
    refused("reference_diameter = \"160 mm\"", "keep one");
    refused("friction_multiplier = 6.0", "outside");
    let published = example("published/v2_textbook.toml");
    let error = published
        .replace(&[(
            "drag.friction_multiplier".to_owned(),
            serde_json::json!(1.1),
        )])
        .expect_err("no body");
    assert!(error.to_string().contains("does not apply"), "{error}");
}
