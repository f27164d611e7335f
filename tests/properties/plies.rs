//! Plies that are listed and not wound are as good as not listed.

use crate::{example, example_file, replaced};
use hoopline::stage::{Stage, outcome_slots};
use serde_json::json;

fn bits(stage: &Stage) -> Vec<u64> {
    let slots = outcome_slots(&stage.outcome(), 0.0);
    slots.iter().map(|value| value.to_bits()).collect()
}

/// The text of Petrel slim with the first `plies` of its two.
fn listing(plies: usize) -> String {
    let file = example_file("petrel_slim.toml");
    let text = std::fs::read_to_string(file).expect("the example");
    let parts: Vec<&str> = text.split("[[tank.overwrap.ply]]").collect();
    let (_, behind) = parts[2]
        .split_once("\n[nose]")
        .expect("the nose behind the plies");
    let wrap = parts[0].find("[tank.overwrap]").expect("a wrap");
    match plies {
        0 => format!("{}\n[nose]{behind}", &parts[0][..wrap]),
        _ => format!(
            "{}[[tank.overwrap.ply]]{}[nose]{behind}",
            parts[0], parts[1]
        ),
    }
}

#[test]
fn a_ply_not_wound_is_as_good_as_not_listed() {
    let both = example("petrel_slim.toml");
    for plies in [0, 1] {
        let file = example_file("petrel_slim.toml");
        let fewer = Stage::from_toml(&listing(plies), &file).expect("a readable stage");
        let unwound = replaced(&both, &[("tank.overwrap.plies", json!(plies))]).expect("fewer");
        assert_eq!(bits(&unwound), bits(&fewer), "{plies} wound");
        assert_ne!(bits(&unwound), bits(&both));
        let wrap = format!("[tank.overwrap]\nplies = {plies}");
        let text = std::fs::read_to_string(&file).expect("the example");
        let counted = text.replace("[tank.overwrap]", &wrap);
        let counted = Stage::from_toml(&counted, &file).expect("a count in a file");
        assert_eq!(bits(&counted), bits(&fewer), "{plies} counted");
        let again = replaced(&unwound, &[("tank.overwrap.plies", json!(2))]).expect("all again");
        assert_eq!(bits(&again), bits(&both));
        let kept = Stage::restore(&unwound.store()).expect("a stored stage");
        assert_eq!(bits(&kept), bits(&unwound));
    }
}

#[test]
fn a_count_is_whole_and_of_plies_that_are_listed() {
    let both = example("petrel_slim.toml");
    for count in [json!(3), json!(-1), json!(1.5), json!("1")] {
        let error = replaced(&both, &[("tank.overwrap.plies", count)]).expect_err("no count");
        assert!(error.to_string().contains("from 0 to 2"), "{error}");
    }
    let unwound = replaced(&both, &[("tank.overwrap.plies", json!(1))]).expect("one");
    let beyond = [("tank.overwrap.ply[1].fibre_thickness", json!(1e-3))];
    assert!(replaced(&unwound, &beyond).is_err());
    // What is not wound needs nothing to hold it.
    let flat = [
        ("tank.overwrap.plies", json!(0)),
        ("tank.fore_closure.kind", json!("flat_clamped")),
    ];
    replaced(&both, &flat).expect("a bare tank");
}
