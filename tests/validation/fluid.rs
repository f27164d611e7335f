//! Nitrous oxide against an independent implementation of the same published equation of state, and
//! against the filling rule of transport cylinders.
//!
//! The reference library is `CoolProp` 8.0.0 (I. H. Bell, J. Wronski, S. Quoilin, V. Lemort, "Pure
//! and Pseudo-pure Fluid Thermophysical Property Evaluation and the Open-Source Thermophysical
//! Property Library `CoolProp`", Ind. Eng. Chem. Res. 53 (2014), pages 2498 to 2508; citation from
//! memory), with its Helmholtz-energy model for nitrous oxide after Lemmon and Span (2006).

use crate::assert_printed;
use hoopline::fluid::nitrous_oxide::{
    CRITICAL_DENSITY, CRITICAL_TEMPERATURE, Saturation, TRIPLE_TEMPERATURE, VALID_DENSITY_MAX,
    pressure, saturation,
};

/// Computed with `CoolProp` 8.0.0: temperature degC, vapour pressure in 1e6 Pa, density of liquid and
/// of vapour kg/m3.
const SATURATION: [(f64, f64, f64, f64); 20] = [
    (-20.0, 1.797108, 998.0729, 46.7273),
    (-16.0, 2.020776, 981.2900, 52.8202),
    (-12.0, 2.264054, 963.8906, 59.6068),
    (-8.0, 2.527975, 945.7928, 67.1798),
    (-4.0, 2.813610, 926.8946, 75.6532),
    (0.0, 3.122082, 907.0664, 85.1708),
    (4.0, 3.454580, 886.1395, 95.9177),
    (8.0, 3.812381, 863.8861, 108.1409),
    (10.0, 4.001202, 852.1674, 114.9079),
    (12.0, 4.196884, 839.9876, 122.1822),
    (16.0, 4.609655, 813.9740, 138.5390),
    (20.0, 5.052509, 785.1040, 157.9856),
    (24.0, 5.527652, 752.0885, 181.8498),
    (25.0, 5.651799, 742.9330, 188.7650),
    (28.0, 6.037964, 712.3137, 212.7865),
    (30.0, 6.307549, 688.1060, 232.6998),
    (32.0, 6.587728, 658.6904, 257.8926),
    (34.0, 6.879697, 618.8212, 293.5487),
    (35.0, 7.030747, 589.5249, 320.6555),
    (36.0, 7.185924, 536.7836, 370.8318),
];

#[test]
fn saturation_table() {
    for (celsius, megapascal, liquid, vapour) in SATURATION {
        let state: Saturation<f64> = saturation(celsius + 273.15);
        let at = |what| format!("{what} at {celsius} degC");
        assert_printed(&at("pressure"), state.pressure / 1e6, megapascal, 1e-6);
        assert_printed(&at("liquid"), state.liquid_density, liquid, 1e-4);
        assert_printed(&at("vapour"), state.vapour_density, vapour, 1e-4);
    }
}

#[test]
fn triple_point() {
    // Computed with `CoolProp` 8.0.0: saturated liquid at 182.33 K, 87837.43922598523 Pa,
    // 28113.432079361246 mol/m3 of 0.0440128 kg/mol.
    let state: Saturation<f64> = saturation(TRIPLE_TEMPERATURE);
    assert_printed("pressure", state.pressure, 87_837.439_226, 1e-4);
    let density = 28_113.432_079_361_246 * 0.0440128;
    assert_printed("liquid", state.liquid_density, density, 1e-5);
    assert_printed("densest state", VALID_DENSITY_MAX, density, 1e-4);
}

#[test]
fn critical_point() {
    // Computed with `CoolProp` 8.0.0: 309.52067823 K, 7.24481670 MPa, 10290.9035 mol/m3.
    let density = 10290.9035 * 0.0440128;
    assert_printed("temperature", CRITICAL_TEMPERATURE, 309.52067823, 1e-8);
    assert_printed("density", CRITICAL_DENSITY, density, 1e-5);
    let state: Saturation<f64> = saturation(CRITICAL_TEMPERATURE);
    assert_printed("pressure", state.pressure / 1e6, 7.24481670, 1e-8);
    assert_printed("liquid", state.liquid_density, density, 1e-5);
    assert_printed("vapour", state.vapour_density, density, 1e-5);
    let by_equation: f64 = pressure(CRITICAL_TEMPERATURE, CRITICAL_DENSITY);
    assert_printed("pressure by equation", by_equation / 1e6, 7.24481670, 1e-8);
}

#[test]
fn single_phase_states() {
    // Computed with `CoolProp` 8.0.0: temperature K, density kg/m3, pressure Pa, and the unit to
    // which density or pressure was printed.
    for (temperature, density, printed, unit) in [
        (320.0, 691.05, 12.1470938e6, 0.1),
        (330.0, 400.0, 10.1054061e6, 0.1),
        // Density printed to 1e-6 kg/m3 in a liquid of about 0.3 MPa per kg/m3.
        (293.15, 852.384342, 10.0e6, 0.4),
        (293.15, 1.84027620, 101_325.0, 1e-3),
    ] {
        let computed: f64 = pressure(temperature, density);
        assert_printed(&format!("{temperature} K"), computed, printed, unit);
    }
}

#[test]
fn filling_rule_at_65_degrees() {
    // The rule of 49 CFR 173.302b and 173.335: the pressure at 65 degC must not exceed the test
    // pressure. Filling ratio kg/L, pressure bar computed with `CoolProp` 8.0.0 and, from memory,
    // the test pressure (bar) of packing instruction P200 of the UN Model Regulations for UN 1070.
    for (ratio, bar, test_pressure) in [
        (0.68, 179.6, 180.0),
        (0.74, 221.2, 225.0),
        (0.75, 230.2, 250.0),
    ] {
        let computed = pressure(65.0 + 273.15, ratio * 1000.0) / 1e5;
        assert_printed(&format!("{ratio} kg/L"), computed, bar, 0.1);
        assert!(computed <= test_pressure);
    }
}
