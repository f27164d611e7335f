//! A proof test at another temperature than service.

use super::given::ProofTest;
use crate::quantity::slots;

slots! {
    /// The proof test against the temperature of service.
    pub struct ProofTestResult<R> {
        /// Proof pressure of the rule set, at the temperature of service.
        proof_pressure: GaugePressure, ProofTest;
        /// Proof pressure that proves the same at the temperature of the test.
        required_pressure: GaugePressure, ProofTest;
        /// Pressure that the test is planned at.
        planned_pressure: GaugePressure, ProofTest;
        /// Smallest of the margins against yield at proof pressure, if the test is run as planned.
        planned_margin: Ratio, ProofTest;
        /// The same, if it is run at the required pressure.
        required_margin: Ratio, ProofTest;
    }
}

/// Proof pressure times the ratio of strength at the temperature of the test to that at the temperature of service,
/// from a proof pressure, Pa gauge, and the smallest margin against yield there.
///
/// As the lowest stress ratio of ASME Boiler and Pressure Vessel Code, section VIII division 1, UG-99(b), does to
/// 1.3 times the working pressure (read in two engineers' summaries of the paragraph; the code's own page was not
/// seen). Stress grows with pressure in proportion while it is elastic, so a margin `m` at one pressure is
/// `(1 + m) p / p' - 1` at another.
///
/// ```
/// use hoopline::vessel::service::{ProofTest, proof_test};
/// // 1.3 x 200 psi, allowable stress 20.0 ksi cold, 17.8 ksi hot.
/// let given = ProofTest { planned_pressure: 280.0, strength_ratio: 20.0 / 17.8 };
/// let test = proof_test(&given, 1.3 * 200.0, 0.2);
/// assert!(test.required_pressure > given.planned_pressure);
/// ```
pub fn proof_test(given: &ProofTest<f64>, proof: f64, margin: f64) -> ProofTestResult<f64> {
    let required = proof * given.strength_ratio;
    let at = |pressure: f64| (1.0 + margin) * proof / pressure - 1.0;
    ProofTestResult {
        proof_pressure: proof,
        required_pressure: required,
        planned_pressure: given.planned_pressure,
        planned_margin: at(given.planned_pressure),
        required_margin: at(required),
    }
}
