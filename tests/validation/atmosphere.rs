//! The standard atmosphere against printed tables.

use hoopline::atmosphere::{Air, EARTH_RADIUS, STANDARD_GRAVITY, exact, gravity, standard};

/// Half a unit in the last of five printed figures, and a tenth of that for the arithmetic behind
/// the print.
fn five_figures(printed: f64) -> f64 {
    0.55 * 10f64.powi(libm::log10(printed).floor() as i32 - 4)
}

fn assert_printed(what: &str, altitude: f64, computed: f64, printed: f64, tolerance: f64) {
    assert!(
        (computed - printed).abs() <= tolerance,
        "{what} at {altitude} m: computed {computed}, printed {printed}"
    );
}

/// R. L. Carmichael, Public Domain Aeronautical Software, table "Atmosphere to 86 km by 2 km (SI
/// units)" of the U.S. Standard Atmosphere 1976, as transcribed in the tests of the open library
/// `fluids`. Geometric altitude m, temperature K, pressure Pa, density kg/m3, speed of sound m/s,
/// dynamic viscosity Pa s.
const BY_TWO_KILOMETRES: [(f64, f64, f64, f64, f64, f64); 45] = [
    (-2000.0, 301.15, 1.2778e5, 1.4782e0, 347.89, 1.8515e-5),
    (0.0, 288.15, 1.0132e5, 1.2250e0, 340.29, 1.7894e-5),
    (2000.0, 275.15, 7.9501e4, 1.0066e0, 332.53, 1.7260e-5),
    (4000.0, 262.17, 6.1660e4, 8.1935e-1, 324.59, 1.6612e-5),
    (6000.0, 249.19, 4.7218e4, 6.6011e-1, 316.45, 1.5949e-5),
    (8000.0, 236.22, 3.5652e4, 5.2579e-1, 308.11, 1.5271e-5),
    (10000.0, 223.25, 2.6500e4, 4.1351e-1, 299.53, 1.4577e-5),
    (12000.0, 216.65, 1.9399e4, 3.1194e-1, 295.07, 1.4216e-5),
    (14000.0, 216.65, 1.4170e4, 2.2786e-1, 295.07, 1.4216e-5),
    (16000.0, 216.65, 1.0353e4, 1.6647e-1, 295.07, 1.4216e-5),
    (18000.0, 216.65, 7.5652e3, 1.2165e-1, 295.07, 1.4216e-5),
    (20000.0, 216.65, 5.5293e3, 8.8910e-2, 295.07, 1.4216e-5),
    (22000.0, 218.57, 4.0475e3, 6.4510e-2, 296.38, 1.4322e-5),
    (24000.0, 220.56, 2.9717e3, 4.6938e-2, 297.72, 1.4430e-5),
    (26000.0, 222.54, 2.1884e3, 3.4257e-2, 299.06, 1.4538e-5),
    (28000.0, 224.53, 1.6162e3, 2.5076e-2, 300.39, 1.4646e-5),
    (30000.0, 226.51, 1.1970e3, 1.8410e-2, 301.71, 1.4753e-5),
    (32000.0, 228.49, 8.8906e2, 1.3555e-2, 303.02, 1.4859e-5),
    (34000.0, 233.74, 6.6341e2, 9.8874e-3, 306.49, 1.5140e-5),
    (36000.0, 239.28, 4.9852e2, 7.2579e-3, 310.10, 1.5433e-5),
    (38000.0, 244.82, 3.7714e2, 5.3666e-3, 313.67, 1.5723e-5),
    (40000.0, 250.35, 2.8714e2, 3.9957e-3, 317.19, 1.6009e-5),
    (42000.0, 255.88, 2.1997e2, 2.9948e-3, 320.67, 1.6293e-5),
    (44000.0, 261.40, 1.6950e2, 2.2589e-3, 324.12, 1.6573e-5),
    (46000.0, 266.92, 1.3134e2, 1.7141e-3, 327.52, 1.6851e-5),
    (48000.0, 270.65, 1.0230e2, 1.3167e-3, 329.80, 1.7037e-5),
    (50000.0, 270.65, 7.9779e1, 1.0269e-3, 329.80, 1.7037e-5),
    (52000.0, 269.03, 6.2215e1, 8.0562e-4, 328.81, 1.6956e-5),
    (54000.0, 263.52, 4.8338e1, 6.3900e-4, 325.43, 1.6680e-5),
    (56000.0, 258.02, 3.7362e1, 5.0445e-4, 322.01, 1.6402e-5),
    (58000.0, 252.52, 2.8724e1, 3.9626e-4, 318.56, 1.6121e-5),
    (60000.0, 247.02, 2.1959e1, 3.0968e-4, 315.07, 1.5837e-5),
    (62000.0, 241.53, 1.6689e1, 2.4071e-4, 311.55, 1.5551e-5),
    (64000.0, 236.04, 1.2606e1, 1.8605e-4, 307.99, 1.5262e-5),
    (66000.0, 230.55, 9.4609e0, 1.4296e-4, 304.39, 1.4970e-5),
    (68000.0, 225.07, 7.0529e0, 1.0917e-4, 300.75, 1.4675e-5),
    (70000.0, 219.58, 5.2209e0, 8.2829e-5, 297.06, 1.4377e-5),
    (72000.0, 214.26, 3.8363e0, 6.2373e-5, 293.44, 1.4085e-5),
    (74000.0, 210.35, 2.8009e0, 4.6385e-5, 290.75, 1.3868e-5),
    (76000.0, 206.45, 2.0333e0, 3.4311e-5, 288.04, 1.3650e-5),
    (78000.0, 202.54, 1.4674e0, 2.5239e-5, 285.30, 1.3430e-5),
    (80000.0, 198.64, 1.0525e0, 1.8458e-5, 282.54, 1.3208e-5),
    (82000.0, 194.74, 7.5009e-1, 1.3418e-5, 279.75, 1.2985e-5),
    (84000.0, 190.84, 5.3104e-1, 9.6939e-6, 276.94, 1.2760e-5),
    (86000.0, 186.95, 3.7338e-1, 6.9578e-6, 274.10, 1.2533e-5),
];

#[test]
fn table_by_two_kilometres() {
    for (altitude, temperature, pressure, density, sound_speed, viscosity) in BY_TWO_KILOMETRES {
        let air: Air<f64> = standard(altitude);
        let check = |what, computed, printed, tolerance| {
            assert_printed(what, altitude, computed, printed, tolerance);
        };
        check("temperature", air.temperature, temperature, 0.00505);
        check("pressure", air.pressure, pressure, five_figures(pressure));
        check("density", air.density, density, five_figures(density));
        check("sound speed", air.sound_speed, sound_speed, 0.00505);
        let computed = air.density * air.sound_speed / libm::pow(10.0, air.unit_reynolds);
        check("viscosity", computed, viscosity, five_figures(viscosity));
    }
}

#[test]
fn handbook_rows() {
    // "Mechanical Engineers' Handbook", volume 4, table 6 (U.S. Standard Atmosphere 1976, geometric
    // altitude): temperature K, pressure bar, density kg/m3.
    for (altitude, temperature, pressure, density) in [
        (5_000.0, 255.68, Some(0.5405), 0.7364),
        (10_000.0, 223.25, Some(0.2650), 0.4135),
        (11_000.0, 216.77, None, 0.3648),
    ] {
        let air: Air<f64> = standard(altitude);
        assert_printed(
            "temperature",
            altitude,
            air.temperature,
            temperature,
            0.00505,
        );
        assert_printed("density", altitude, air.density, density, 0.505e-4);
        if let Some(bar) = pressure {
            assert_printed("pressure", altitude, air.pressure / 1e5, bar, 0.505e-4);
        }
    }
    assert_printed(
        "sound speed",
        10_000.0,
        standard(10_000.0).sound_speed,
        299.5,
        0.0505,
    );
}

#[test]
fn top_of_the_atmosphere() {
    // "U.S. Standard Atmosphere, 1976", NOAA-S/T 76-1562, table I, row of 86 km: kinetic temperature
    // 186.87 K, pressure 3.7338e-1 Pa, density 6.958e-6 kg/m3; table 26 gives the molar mass there,
    // 28.9522082 kg/kmol, which turns the molecular-scale temperature into the kinetic one.
    let air: Air<f64> = standard(86_000.0);
    let kinetic = air.temperature * 28.9522082 / 28.9644;
    assert_printed("kinetic temperature", 86_000.0, kinetic, 186.87, 0.00505);
    assert_printed("pressure", 86_000.0, air.pressure, 3.7338e-1, 0.505e-5);
    assert_printed("density", 86_000.0, air.density, 6.958e-6, 0.505e-9);
}

#[test]
fn layer_limits() {
    // Computed independently from the defining constants (geopotential altitude m, temperature K,
    // pressure Pa), to six figures.
    for (geopotential, temperature, pressure, unit) in [
        (0.0, 288.15, 101_325.0, 1.0),
        (11_000.0, 216.65, 22_632.1, 0.1),
        (20_000.0, 216.65, 5_474.89, 0.01),
        (32_000.0, 228.65, 868.019, 1e-3),
        (47_000.0, 270.65, 110.906, 1e-3),
        (51_000.0, 270.65, 66.9389, 1e-4),
        (71_000.0, 214.65, 3.95642, 1e-5),
        (84_852.0, 186.946, 0.373384, 1e-6),
    ] {
        let altitude = EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential);
        let air: Air<f64> = standard(altitude);
        assert_printed(
            "temperature",
            altitude,
            air.temperature,
            temperature,
            0.000_505,
        );
        assert_printed("pressure", altitude, air.pressure, pressure, 0.505 * unit);
    }
}

#[test]
fn table_follows_the_exact_functions_in_every_layer() {
    for step in 0..=182_000 {
        let altitude = -5_000.0 + 0.5 * f64::from(step) + 0.123;
        let (fast, exact): (Air<f64>, Air<f64>) = (standard(altitude), exact::air(altitude));
        let relative = |fast: f64, exact: f64, bound: f64| {
            assert!(
                (fast / exact - 1.0).abs() < bound || fast == exact,
                "at {altitude} m: table {fast}, exact {exact}"
            );
        };
        relative(fast.temperature, exact.temperature, 1e-9);
        relative(fast.pressure, exact.pressure, 1e-9);
        relative(fast.density, exact.density, 1e-9);
        relative(fast.density_slope, exact.density_slope, 2e-7);
        relative(fast.sound_speed, exact.sound_speed, 1e-9);
        relative(fast.unit_reynolds, exact.unit_reynolds, 1e-9);
    }
}

#[test]
fn no_air_above_86_kilometres() {
    for altitude in [86_000.001, 100_000.0, 1.0e7] {
        for air in [standard(altitude), exact::air(altitude)] {
            assert_eq!(
                (air.density, air.pressure, air.density_slope),
                (0.0, 0.0, 0.0)
            );
            assert_printed("temperature", altitude, air.temperature, 186.946, 0.000_505);
            assert_printed("sound speed", altitude, air.sound_speed, 274.10, 0.00505);
        }
    }
}

#[test]
fn gravity_falls_with_the_square_of_the_distance() {
    // Computed independently from the law of the standard; m/s2 to five figures.
    for (altitude, printed) in [
        (0.0, 9.80665),
        (5_000.0, 9.7912),
        (10_000.0, 9.7759),
        (20_000.0, 9.7452),
        (30_000.0, 9.7147),
        (50_000.0, 9.6542),
        (86_000.0, 9.5466),
    ] {
        let computed = gravity(STANDARD_GRAVITY, EARTH_RADIUS, altitude);
        assert_printed("gravity", altitude, computed, printed, 0.505e-4);
    }
}
