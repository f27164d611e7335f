//! Nitrous oxide against an independent implementation of the same published equation of state, and
//! against the filling rule of transport cylinders.

use crate::Outside;
use hoopline::fluid::nitrous_oxide::{
    CRITICAL_DENSITY, CRITICAL_TEMPERATURE, Saturation, TRIPLE_TEMPERATURE, VALID_DENSITY_MAX,
    dry_temperature, liquid_full_temperature, pressure, pressure_slope, saturation, warmed_to,
};

/// The library's paper: I. H. Bell, J. Wronski, S. Quoilin, V. Lemort, "Pure and Pseudo-pure Fluid
/// Thermophysical Property Evaluation and the Open-Source Thermophysical Property Library `CoolProp`",
/// Ind. Eng. Chem. Res. 53 (2014), pages 2498 to 2508 (citation from memory).
const COOLPROP: Outside = Outside {
    room: "fluid",
    source: "CoolProp 8.0.0, Helmholtz-energy model for nitrous oxide after Lemmon and Span (2006)",
};

/// Temperature degC, vapour pressure in 1e6 Pa, density of liquid and of vapour kg/m3, as printed.
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
        COOLPROP.printed(
            &at("vapour pressure, MPa,"),
            state.pressure / 1e6,
            megapascal,
            1e-6,
        );
        COOLPROP.printed(
            &at("liquid density, kg/m3,"),
            state.liquid_density,
            liquid,
            1e-4,
        );
        COOLPROP.printed(
            &at("vapour density, kg/m3,"),
            state.vapour_density,
            vapour,
            1e-4,
        );
    }
}

/// Other temperatures to nine figures: degC, vapour pressure Pa, density of liquid and vapour kg/m3.
#[test]
fn saturation_to_nine_figures() {
    for (celsius, vapour_pressure, liquid, vapour) in [
        (-40.0, 938783.033468, 1074.75980055, 24.3635470888),
        (-10.0, 2393368.20810, 954.934854272, 63.2884147971),
        (5.0, 3541605.65613, 880.711046873, 98.8236947955),
        (15.0, 4503718.25458, 820.709860902, 134.196890887),
        (22.0, 5285885.49970, 769.230830731, 169.246497422),
        (27.0, 5906891.30175, 723.136830891, 204.141726220),
        (29.0, 6171487.46557, 700.700997420, 222.241873929),
        (31.0, 6446253.13724, 674.247848282, 244.439400016),
        (33.0, 6732135.38582, 640.693994254, 273.790226880),
        (35.5, 7107753.43418, 568.830243555, 340.167484410),
        (36.2, 7217580.27645, 514.035792908, 392.843734386),
    ] {
        let state: Saturation<f64> = saturation(celsius + 273.15);
        let at = |what| format!("{what} at {celsius} degC, nine figures");
        COOLPROP.relative(
            &at("vapour pressure, Pa,"),
            state.pressure,
            vapour_pressure,
            1e-9,
        );
        COOLPROP.relative(
            &at("liquid density, kg/m3,"),
            state.liquid_density,
            liquid,
            1e-9,
        );
        COOLPROP.relative(
            &at("vapour density, kg/m3,"),
            state.vapour_density,
            vapour,
            1e-9,
        );
    }
}

/// Saturated liquid at 182.33 K: 87837.43922598523 Pa, 28113.432079361246 mol/m3 of 0.0440128 kg/mol.
#[test]
fn triple_point() {
    let state: Saturation<f64> = saturation(TRIPLE_TEMPERATURE);
    let density = 28_113.432_079_361_246 * 0.0440128;
    COOLPROP.printed("triple pressure, Pa", state.pressure, 87_837.439_226, 1e-4);
    COOLPROP.printed("triple liquid, kg/m3", state.liquid_density, density, 1e-5);
    COOLPROP.printed("densest state, kg/m3", VALID_DENSITY_MAX, density, 1e-4);
}

/// 309.52067823 K, 7.24481670 MPa, 10290.9035 mol/m3.
#[test]
fn critical_point() {
    let density = 10290.9035 * 0.0440128;
    let check = |what: &str, computed: f64, expected: f64, unit: f64| {
        COOLPROP.printed(&format!("critical point: {what}"), computed, expected, unit);
    };
    check("temperature, K", CRITICAL_TEMPERATURE, 309.52067823, 1e-8);
    check("density, kg/m3", CRITICAL_DENSITY, density, 1e-5);
    let state: Saturation<f64> = saturation(CRITICAL_TEMPERATURE);
    check(
        "vapour pressure, MPa",
        state.pressure / 1e6,
        7.24481670,
        1e-8,
    );
    check("liquid, kg/m3", state.liquid_density, density, 1e-5);
    check("vapour, kg/m3", state.vapour_density, density, 1e-5);
    let by_equation: f64 = pressure(CRITICAL_TEMPERATURE, CRITICAL_DENSITY);
    check(
        "pressure by equation, MPa",
        by_equation / 1e6,
        7.24481670,
        1e-8,
    );
}

/// Temperature K, density kg/m3, pressure Pa, and the unit to which density or pressure was printed.
#[test]
fn single_phase_states() {
    for (temperature, density, printed, unit) in [
        (320.0, 691.05, 12.1470938e6, 0.1),
        (330.0, 400.0, 10.1054061e6, 0.1),
        // Density printed to 1e-6 kg/m3 in a liquid of about 0.3 MPa per kg/m3.
        (293.15, 852.384342, 10.0e6, 0.4),
        (293.15, 1.84027620, 101_325.0, 1e-3),
    ] {
        let computed: f64 = pressure(temperature, density);
        let case = format!("pressure at {temperature} K and {density} kg/m3, Pa");
        COOLPROP.printed(&case, computed, printed, unit);
    }
}

const TWICE: Outside = Outside {
    room: "fluid",
    source: "CoolProp 8.0.0 (first_partial_deriv for the slope), and the published coefficients summed \
             and differentiated with mpmath at 30 digits; the two agree to all digits used",
};

/// A rigid tank whose content is one phase: degC, mean density kg/m3, pressure MPa, slope Pa/K.
#[test]
fn isochores_of_a_full_or_supercritical_tank() {
    for (celsius, density, megapascal, slope) in [
        (25.0, 850.0, 12.7359156078, 597433.42090817),
        (30.0, 800.0, 10.8375165438, 504511.93559332),
        (35.0, 700.0, 8.2572840930, 352841.96676934),
        (40.0, 452.0, 7.8270390926, 160893.55833968),
        (40.0, 650.0, 8.8604091599, 297438.50639178),
        (45.0, 550.0, 9.0987655976, 215005.86648675),
        (50.0, 300.0, 8.4911701257, 97956.42540673),
        (50.0, 700.0, 13.6381258196, 363437.53482869),
        (50.0, 800.0, 21.0011473713, 510604.81111676),
        (60.0, 500.0, 11.6436468992, 189986.44715497),
        (65.0, 740.0, 22.1187288232, 421141.29285278),
    ] {
        let kelvin = celsius + 273.15;
        let at = |what: &str| format!("{what} of {density} kg/m3 at {celsius} degC");
        TWICE.relative(
            &at("pressure, MPa,"),
            pressure(kelvin, density) / 1e6,
            megapascal,
            1e-9,
        );
        TWICE.relative(
            &at("dp/dT, Pa/K,"),
            pressure_slope(kelvin, density),
            slope,
            1e-9,
        );
        let warmed = warmed_to(megapascal * 1e6, density).expect("within the equation");
        TWICE.relative(
            &format!("temperature, K, of {density} kg/m3 at {megapascal} MPa"),
            warmed,
            kelvin,
            1e-9,
        );
    }
}

const FULL: Outside = Outside {
    room: "fluid",
    source: "CoolProp 8.0.0: saturation density met by SciPy 1.17.1 brentq, and first_partial_deriv there",
};

/// Mean density kg/m3, temperature K at which the closed tank is full of liquid, slope there bar/K.
#[test]
fn where_a_closed_tank_is_full_of_liquid() {
    for (density, kelvin, slope) in [
        (500.0, 309.4269748695, 1.80440799),
        (550.0, 308.9793090583, 2.07511116),
        (600.0, 307.8342860618, 2.43171191),
        (650.0, 305.6534960998, 2.89149416),
        (691.05, 302.9240839187, 3.35221095),
        (700.0, 302.2079610573, 3.46291682),
        (740.0, 298.4603068876, 4.00352628),
        (800.0, 291.1442576896, 4.96003404),
        (850.0, 283.5117808998, 5.90176793),
        (900.0, 274.5263050201, 6.99386743),
        (1000.0, 252.6818666132, 9.74742346),
        (1200.0, 194.8861797969, 19.02127819),
    ] {
        let full = liquid_full_temperature(density).expect("denser than critical");
        FULL.printed(
            &format!("full of liquid at {density} kg/m3, K"),
            full,
            kelvin,
            1e-7,
        );
        let climb = pressure_slope(full, density) / 1e5;
        FULL.relative(
            &format!("climb where full, {density} kg/m3, bar/K"),
            climb,
            slope,
            1e-8,
        );
    }
}

/// Mean density kg/m3, temperature K at which the closed tank's last liquid evaporates.
#[test]
fn where_a_closed_tank_runs_dry() {
    for (density, kelvin) in [
        (5.0, 194.5508257851),
        (20.0, 227.5642766533),
        (50.0, 255.3516790386),
        (100.0, 278.5457117031),
        (200.0, 299.6401416643),
        (300.0, 307.4242375830),
        (400.0, 309.3940885281),
        (440.0, 309.5143346983),
    ] {
        let dry = dry_temperature(density).expect("thinner than critical");
        FULL.printed(&format!("dry at {density} kg/m3, K"), dry, kelvin, 1e-7);
    }
}

const FILLING: Outside = Outside {
    room: "fluid",
    source: "CoolProp 8.0.0; rule of 49 CFR 173.302b and 173.335: the pressure at 65 degC must not exceed \
             the test pressure, and, from memory, the test pressures of packing instruction P200 of the \
             UN Model Regulations for UN 1070",
};

/// Filling ratio kg/L, pressure bar, test pressure bar.
#[test]
fn filling_rule_at_65_degrees() {
    for (ratio, bar, test_pressure) in [
        (0.68, 179.6, 180.0),
        (0.74, 221.2, 225.0),
        (0.75, 230.2, 250.0),
    ] {
        let computed = pressure(65.0 + 273.15, ratio * 1000.0) / 1e5;
        FILLING.printed(&format!("{ratio} kg/L at 65 degC, bar"), computed, bar, 0.1);
        assert!(computed <= test_pressure);
    }
}
