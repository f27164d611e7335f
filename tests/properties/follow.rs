//! Follow rules choose the input among equivalents and change nothing else.

use crate::{example, example_file, with};
use hoopline::stage::{CHOICES, RESULTS, Stage, outcome_slots};

fn results(stage: &Stage) -> Vec<f64> {
    outcome_slots(&stage.outcome(), 0.0).to_vec()
}

#[test]
fn changing_a_rule_leaves_the_base_design_as_it_is() {
    let stage = example("petrel_slim.toml");
    let base = results(&stage);
    for choice in CHOICES
        .iter()
        .filter(|choice| choice.path.starts_with("follow."))
    {
        if choice.path == "follow.skin" {
            continue;
        }
        for (word, _) in choice.options {
            let changed = results(&with(&stage, choice.path, word));
            for (field, (was, is)) in RESULTS.fields.iter().zip(base.iter().zip(&changed)) {
                let scale = was.abs().max(1e-9);
                assert!(
                    (was - is).abs() <= 1e-9 * scale,
                    "{} = {word}: {} {was} {is}",
                    choice.path,
                    field.path
                );
            }
        }
    }
}

#[test]
fn the_quantity_of_the_rule_stays_when_the_diameter_changes() {
    let stage = example("petrel_slim.toml");
    let before = stage.outcome().geometry;
    let after = |rule: &str| {
        let ruled = with(&stage, "follow.tank", rule);
        with(&ruled, "tank.outer_diameter", "150 mm")
            .outcome()
            .geometry
    };
    approx::assert_relative_eq!(
        after("volume").tank_volume,
        before.tank_volume,
        max_relative = 1e-12
    );
    approx::assert_relative_eq!(
        after("length").tank_length,
        before.tank_length,
        max_relative = 1e-12
    );
    let fineness = after("fineness").tank_fineness_ratio;
    approx::assert_relative_eq!(fineness, before.tank_fineness_ratio, max_relative = 1e-12);
    assert!(after("volume").tank_length > before.tank_length);
}

#[test]
fn replacing_what_follows_names_the_rule() {
    let stage = example("petrel_slim.toml");
    for (path, value, rule) in [
        ("tank.length", "1 m", "follow.tank"),
        ("propellant.oxidiser_mass", "10 kg", "follow.load"),
        ("motor.burn_time", "5 s", "follow.thrust"),
        ("nose.length", "0.5 m", "follow.nose"),
        ("fins.root_chord", "0.2 m", "follow.fins"),
        ("payload_bay.length", "0.2 m", "follow.bays"),
        ("tank.liner.inner_diameter", "140 mm", "exactly two of"),
    ] {
        let error = stage
            .replace(&[(path.to_owned(), serde_json::json!(value))])
            .expect_err("it follows");
        assert!(error.to_string().contains(rule), "{error}");
    }
}

#[test]
fn a_file_may_state_any_of_the_equivalents() {
    let text = std::fs::read_to_string(example_file("petrel_slim.toml")).expect("a file");
    let read =
        |text: &str| Stage::from_toml(text, std::path::Path::new("x.toml")).expect("a stage");
    let base = read(&text);
    let size = base.outcome().geometry;
    let load = base.outcome().load;
    for (from, to) in [
        (
            "volume = \"24 L\"",
            format!("length = \"{} m\"", size.tank_length),
        ),
        (
            "volume = \"24 L\"",
            format!("fineness_ratio = {}", size.tank_fineness_ratio),
        ),
        (
            "ullage = \"25 %\"",
            format!("oxidiser_mass = \"{} kg\"", load.oxidiser),
        ),
        (
            "outer_diameter = \"160 mm\"
volume = \"24 L\"
fittings_mass = \"0.9 kg\"

[tank.liner]
",
            format!(
                "volume = \"24 L\"
fittings_mass = \"0.9 kg\"

[tank.liner]
outer_diameter = \"{} m\"
",
                size.liner_outer_diameter
            ),
        ),
        (
            "static_margin = 2.0",
            format!("root_chord = \"{} m\"", size.fin_root_chord),
        ),
        (
            "fineness_ratio = 5",
            format!("length = \"{} m\"", size.nose_length),
        ),
    ] {
        assert!(text.contains(from), "{from}");
        let replaced = text.replacen(from, &to, 1);
        let apogee = read(&replaced).outcome().ascent.apogee;
        approx::assert_relative_eq!(apogee, base.outcome().ascent.apogee, max_relative = 1e-9);
    }
    // Load mass and ullage together size the tank.
    let sized = text.replacen("volume = \"24 L\"\n", "", 1).replacen(
        "ullage = \"25 %\"",
        &format!(
            "ullage = \"25 %\"\noxidiser_mass = \"{} kg\"",
            load.oxidiser
        ),
        1,
    );
    let volume = read(&sized).outcome().geometry.tank_volume;
    approx::assert_relative_eq!(volume, size.tank_volume, max_relative = 1e-12);
}
