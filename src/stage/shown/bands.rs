//! What the known errors of the drag models mean for the apogee.

use crate::stage::chain::evaluate;
use crate::stage::chain::schema::{INPUTS, point};
use crate::stage::given::Stage;
use serde_json::json;

/// A model with a known error: the multiplier that spans it, and where the span comes from.
struct Model {
    name: &'static str,
    input: &'static str,
    span: [f64; 2],
    basis: &'static str,
}

const MODELS: [Model; 3] = [
    Model {
        name: "friction",
        input: "drag.friction_multiplier",
        span: [0.95, 1.10],
        basis: "van Driest's second method reads 4 % more at Mach 2 and 8 % at Mach 3; body form factors \
                of three texts differ by 4 % (from memory)",
    },
    Model {
        name: "wave drag",
        input: "drag.wave_multiplier",
        span: [0.8, 1.2],
        basis: "nose and fins, own judgement: the fit for cones is within 8 % of exact flow to Mach 3; \
                slender-body limit and transonic ramp are rougher",
    },
    Model {
        name: "base drag",
        input: "drag.base_multiplier",
        span: [0.5, 1.77],
        basis: "Raymer's equations 12.37 and 12.38 give 1.1 to 1.77 times as much between Mach 0.5 and 3; \
                for slender rough bodies at low speed Hoerner (from memory) a third, of which one half over \
                all Mach numbers is our own choice",
    },
];

/// What the bands do not hold, and which way it goes (`tests/validation/flown.rs`).
const BIAS: &str = "Blunt fin edges and interference are not modelled and lower the apogee: one flown rocket \
    reached 9 to 14 % less than predicted.";

/// Change of the apogee over the span of one model.
#[derive(Debug, Clone, PartialEq)]
struct Band {
    /// Name of the model.
    model: &'static str,
    /// Input that spans its error.
    input: &'static str,
    /// Values of that input relative to the stage's own: the one that lowers the apogee, the one that
    /// raises it.
    span: [f64; 2],
    /// Where the span comes from.
    basis: &'static str,
    /// Lowest and highest change of the apogee, m.
    change: [f64; 2],
}

/// Bands of a drawn body, one model at a time; none for a stated table, whose error is its author's.
/// A model whose span leads to a fault is left out. Costs two ascents per model.
fn bands(stage: &Stage) -> Vec<Band> {
    if stage.form().body().is_none() {
        return Vec::new();
    }
    let apogee = stage.outcome().ascent.apogee;
    let flown = |input: &str, multiplier: f64| {
        let mut slots = *stage.slots();
        let slot = INPUTS.slot(input)?;
        slots[slot] *= multiplier;
        let outcome = evaluate(stage.form(), &point(&slots)).outcome;
        (outcome.status.code == 0.0).then_some(outcome.ascent.apogee - apogee)
    };
    MODELS
        .iter()
        .filter_map(|model| {
            let [less, more] = model.span.map(|multiplier| flown(model.input, multiplier));
            let (less, more) = (less?, more?);
            let [low, high] = model.span;
            // Ends in the order of the apogee: more drag comes first.
            let (span, change) = if more < less {
                ([high, low], [more, less])
            } else {
                ([low, high], [less, more])
            };
            Some(Band {
                model: model.name,
                input: model.input,
                span,
                basis: model.basis,
                change,
            })
        })
        .collect()
}

/// All bands together, as the root of the sum of squares: the models err independently of each other.
fn together(bands: &[Band]) -> [f64; 2] {
    let root = |side: usize| {
        let squares = bands
            .iter()
            .fold(0.0, |sum, band| sum + band.change[side].powi(2));
        squares.sqrt()
    };
    [0.0 - root(0), root(1)]
}

impl Stage {
    /// What the known errors of the drag models mean for the apogee, as JSON: each model, and all together.
    pub fn bands_json(&self) -> String {
        let bands = bands(self);
        let rows: Vec<_> = bands
            .iter()
            .map(|band| {
                json!({
                    "model": band.model,
                    "input": band.input,
                    "span": band.span,
                    "basis": band.basis,
                    "change": band.change,
                })
            })
            .collect();
        json!({ "bands": rows, "band_together": together(&bands), "band_bias": BIAS }).to_string()
    }
}
