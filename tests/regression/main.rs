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
            36.74507916407892,
            0.06309013324490875,
            8949.447807987815,
        ),
        (
            "petrel_hoop.toml",
            39.5370786398766,
            0.04460904179132252,
            8331.980622460807,
        ),
        (
            "petrel_plain.toml",
            38.70819288042974,
            0.023291525658349244,
            7983.88193878813,
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
