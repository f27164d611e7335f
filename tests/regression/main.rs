//! Our own numbers, locked so that a change of them is seen. They prove nothing about the world; the
//! checks against it are in `tests/validation`. When a model is improved, update them in the same
//! commit and say why.

use hoopline::stage::Stage;
use std::path::Path;

#[test]
fn packaged_examples() {
    // Name, predicted dry mass kg, smallest margin, apogee m.
    for (name, predicted, margin, apogee) in [
        (
            "petrel_slim.toml",
            35.925860664719984,
            0.05015764692167468,
            9172.427314536188,
        ),
        (
            "petrel_hoop.toml",
            38.48215408562038,
            0.04592333053075737,
            8574.224960875605,
        ),
        (
            "petrel_plain.toml",
            37.70197752477866,
            0.02074149025020766,
            8193.949510043902,
        ),
    ] {
        let file = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("python/hoopline/examples")
            .join(name);
        let assessment = Stage::load(&file)
            .and_then(|stage| stage.assess())
            .expect("an example");
        let now = (
            assessment.outcome.mass.predicted,
            assessment.margins[0].1,
            assessment.outcome.ascent.apogee,
        );
        approx::assert_relative_eq!(now.0, predicted, max_relative = 1e-9);
        approx::assert_relative_eq!(now.1, margin, max_relative = 1e-7);
        approx::assert_relative_eq!(now.2, apogee, max_relative = 1e-9);
    }
}
