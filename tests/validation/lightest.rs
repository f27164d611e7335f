//! The lightest bare liner has a closed form.

use crate::Outside;
use hoopline::stage::Stage;
use hoopline::study::{Constraint, Direction, Goal, Method, Problem, Progress, Variable, optimise};
use serde_json::json;
use std::path::Path;

const YIELD_AT_THE_BORE: Outside = Outside {
    room: "study",
    source: "a closed thick cylinder yields by von Mises at the bore at p = (Y / sqrt 3) (1 - a^2 / b^2): \
             elementary from Lame's stresses with the axial stress midway between hoop and radial; \
             derived, solved here for the bore a with the outer radius b held",
};

/// Petrel plain with no wall tolerance, its wall sought so that the parent metal just yields at proof
/// pressure, in one go with the closures left out of the question.
#[test]
fn lightest_bare_liner_at_proof_yield() {
    let file =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("python/hoopline/examples/petrel_plain.toml");
    let stage = Stage::load(&file).expect("a readable example");
    for diameter in [0.14, 0.18, 0.22] {
        let stage = stage
            .replace(&[
                ("tank.liner.wall_under_tolerance".to_owned(), json!(0)),
                ("tank.outer_diameter".to_owned(), json!(diameter)),
            ])
            .expect("a change");
        let problem = Problem {
            goal: Goal {
                direction: Direction::Minimise,
                path: "tank.liner_mass".to_owned(),
            },
            vary: vec![Variable::Continuous {
                path: "tank.liner.wall".to_owned(),
                lower: json!("1 mm"),
                upper: json!("12 mm"),
            }],
            subject_to: Some(vec![Constraint {
                path: "margins.liner_yield_proof".to_owned(),
                at_least: Some(json!(0)),
                at_most: None,
            }]),
        };
        let found = optimise(&stage, &problem, Method::default(), &Progress::default());
        let wall = found.expect("an optimum").candidates[0].inputs[0].1.clone();
        let outcome = stage.outcome();
        let proof = outcome.pressures.proof;
        let strength = stage.point().tank.liner.metal.yield_strength;
        let outer = diameter / 2.0;
        let bore = outer * (1.0 - 3f64.sqrt() * proof / strength).sqrt();
        let case = format!("lightest wall at {:.0} mm, m", diameter * 1e3);
        let wall = wall.as_f64().expect("a number");
        YIELD_AT_THE_BORE.relative(&case, wall, outer - bore, 1e-9);
    }
}
