//! The atmosphere, on a standard day and on others, against printed tables, worked problems and
//! independent integration.

use crate::Outside;
use hoopline::atmosphere::{Air, EARTH_RADIUS, OffStandard, STANDARD_GRAVITY, gravity, standard};

/// Half a unit in the last of five printed figures, and a tenth of that for the arithmetic behind
/// the print.
fn five_figures(printed: f64) -> f64 {
    0.55 * 10f64.powi(libm::log10(printed).floor() as i32 - 4)
}

/// Geometric altitude, m, of a geopotential one.
fn geometric(geopotential: f64) -> f64 {
    EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential)
}

/// Of many rows of one column, the one that departs most for its tolerance.
#[derive(Default)]
struct Worst(Option<(f64, String, f64, f64, f64)>);

impl Worst {
    fn see(&mut self, case: &str, computed: f64, expected: f64, tolerance: f64) {
        let share = (computed - expected).abs() / tolerance;
        // A share that is no number is the worst of all.
        let worse = |(worst, ..): &(f64, String, f64, f64, f64)| share > *worst || share.is_nan();
        if self.0.as_ref().is_none_or(worse) {
            self.0 = Some((share, case.to_owned(), computed, expected, tolerance));
        }
    }

    fn check(self, outside: &Outside) {
        let (_, case, computed, expected, tolerance) = self.0.expect("at least one row");
        outside.within(&case, computed, expected, tolerance);
    }
}

const BY_TWO: Outside = Outside {
    room: "atmosphere",
    source: "R. L. Carmichael, Public Domain Aeronautical Software, table \"Atmosphere to 86 km by 2 km \
             (SI units)\" of the U.S. Standard Atmosphere 1976, as transcribed in the tests of the open \
             library fluids",
};

/// Geometric altitude m, temperature K, pressure Pa, density kg/m3, speed of sound m/s, dynamic
/// viscosity Pa s.
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

/// Each column's worst row is the one listed.
#[test]
fn table_by_two_kilometres() {
    let mut worst: [Worst; 5] = std::array::from_fn(|_| Worst::default());
    for (altitude, temperature, pressure, density, sound_speed, viscosity) in BY_TWO_KILOMETRES {
        let air: Air<f64> = standard(altitude);
        let computed = air.density * air.sound_speed / libm::pow(10.0, air.unit_reynolds);
        for (column, (what, computed, printed, tolerance)) in [
            ("temperature, K", air.temperature, temperature, 0.00505),
            (
                "pressure, Pa",
                air.pressure,
                pressure,
                five_figures(pressure),
            ),
            (
                "density, kg/m3",
                air.density,
                density,
                five_figures(density),
            ),
            ("sound speed, m/s", air.sound_speed, sound_speed, 0.00505),
            (
                "viscosity, Pa s",
                computed,
                viscosity,
                five_figures(viscosity),
            ),
        ]
        .into_iter()
        .enumerate()
        {
            let case = format!("{what}, worst of 45 rows, at {altitude} m");
            worst[column].see(&case, computed, printed, tolerance);
        }
    }
    for column in worst {
        column.check(&BY_TWO);
    }
}

const HANDBOOK: Outside = Outside {
    room: "atmosphere",
    source: "Mechanical Engineers' Handbook, volume 4, table 6 (U.S. Standard Atmosphere 1976, \
             geometric altitude)",
};

#[test]
fn handbook_rows() {
    for (altitude, temperature, pressure, density) in [
        (5_000.0, 255.68, Some(0.5405), 0.7364),
        (10_000.0, 223.25, Some(0.2650), 0.4135),
        (11_000.0, 216.77, None, 0.3648),
    ] {
        let air: Air<f64> = standard(altitude);
        let at = |what: &str| format!("{what} at {altitude} m");
        HANDBOOK.printed(&at("temperature, K,"), air.temperature, temperature, 0.0101);
        HANDBOOK.printed(&at("density, kg/m3,"), air.density, density, 1.01e-4);
        if let Some(bar) = pressure {
            HANDBOOK.printed(&at("pressure, bar,"), air.pressure / 1e5, bar, 1.01e-4);
        }
    }
    let speed = standard(10_000.0).sound_speed;
    HANDBOOK.printed("sound speed at 10000 m, m/s", speed, 299.5, 0.101);
}

const STANDARD: Outside = Outside {
    room: "atmosphere",
    source: "\"U.S. Standard Atmosphere, 1976\", NOAA-S/T 76-1562, table I, row of 86 km; table 26 for \
             the molar mass there, 28.9522082 kg/kmol",
};

/// The molar mass turns the molecular-scale temperature into the kinetic one.
#[test]
fn top_of_the_atmosphere() {
    let air: Air<f64> = standard(86_000.0);
    let kinetic = air.temperature * 28.9522082 / 28.9644;
    STANDARD.printed("kinetic temperature at 86 km, K", kinetic, 186.87, 0.0101);
    STANDARD.printed("pressure at 86 km, Pa", air.pressure, 3.7338e-1, 1.01e-5);
    STANDARD.printed("density at 86 km, kg/m3", air.density, 6.958e-6, 1.01e-9);
}

const LIMITS: Outside = Outside {
    room: "atmosphere",
    source: "J. S. Denker, \"Altimetry\", av8n.com, 2007, section 1, table of the standard atmosphere's \
             layers (geopotential altitude)",
};

#[test]
fn layer_limits() {
    for (geopotential, temperature, pressure, unit) in [
        (0.0, 288.15, 101_325.0, 1.0),
        (11_000.0, 216.65, 22_632.1, 0.1),
        (20_000.0, 216.65, 5_474.89, 0.01),
        (32_000.0, 228.65, 868.019, 1e-3),
        (47_000.0, 270.65, 110.906, 1e-3),
        (51_000.0, 270.65, 66.9389, 1e-4),
        (71_000.0, 214.65, 3.95642, 1e-5),
        (80_000.0, 196.65, 0.88628, 1e-5),
    ] {
        let air: Air<f64> = standard(geometric(geopotential));
        let at = |what: &str| format!("{what} at {geopotential} m of geopotential altitude");
        LIMITS.printed(&at("temperature, K,"), air.temperature, temperature, 0.0101);
        LIMITS.printed(&at("pressure, Pa,"), air.pressure, pressure, 1.01 * unit);
    }
}

const INVERSE_SQUARE: Outside = Outside {
    room: "atmosphere",
    source: "the inverse-square law of the U.S. Standard Atmosphere 1976 with its radius of 6356766 m, \
             computed with Python 3 decimal arithmetic and with NumPy",
};

#[test]
fn gravity_falls_with_the_square_of_the_distance() {
    for (altitude, expected) in [
        (0.0, 9.80665),
        (5_000.0, 9.7912410770),
        (10_000.0, 9.7758684429),
        (20_000.0, 9.7452315865),
        (30_000.0, 9.7147385252),
        (50_000.0, 9.6541802012),
        (86_000.0, 9.5465930283),
    ] {
        let computed = gravity(STANDARD_GRAVITY, EARTH_RADIUS, altitude);
        let case = format!("gravity at {altitude} m, m/s2");
        INVERSE_SQUARE.printed(&case, computed, expected, 1e-10);
    }
}

const INTEGRATED: Outside = Outside {
    room: "atmosphere",
    source: "SciPy 1.17.1, twice: solve_ivp (DOP853, relative tolerance 1e-13) of dp/dz = -rho g in \
             geometric altitude with inverse-square gravity, and quad of dH/T in geopotential altitude; \
             the two agree within 1e-13",
};

/// Offset K, site m, station pressure Pa, altitude m; pressure Pa, density kg/m3.
const OFF_STANDARD_DAYS: [(f64, f64, f64, f64, f64, f64); 14] = [
    (
        25.0,
        0.0,
        101_325.0,
        5_000.0,
        56991.62418247,
        0.7073661330589,
    ),
    (
        25.0,
        0.0,
        101_325.0,
        11_000.0,
        26016.69141682,
        0.3748703972392,
    ),
    (
        25.0,
        0.0,
        101_325.0,
        20_000.0,
        7334.200952181,
        0.105731357116,
    ),
    (
        25.0,
        0.0,
        101_325.0,
        30_000.0,
        1854.3575964,
        0.02568488430454,
    ),
    (
        25.0,
        0.0,
        101_325.0,
        60_000.0,
        48.7990808944,
        6.249527658403e-4,
    ),
    (
        -20.0,
        0.0,
        101_325.0,
        5_000.0,
        51410.8677777,
        0.7599380999356,
    ),
    (
        -20.0,
        0.0,
        101_325.0,
        11_000.0,
        19919.03031277,
        0.3526463190132,
    ),
    (
        -20.0,
        0.0,
        101_325.0,
        20_000.0,
        4202.753751967,
        0.07445224447348,
    ),
    (
        -20.0,
        0.0,
        101_325.0,
        30_000.0,
        781.6224904436,
        0.01318547223995,
    ),
    (
        -20.0,
        0.0,
        101_325.0,
        60_000.0,
        10.1557707784,
        1.558421313212e-4,
    ),
    (
        25.0,
        1_500.0,
        84_000.0,
        5_000.0,
        55789.89316193,
        0.6924505408614,
    ),
    (
        25.0,
        1_500.0,
        84_000.0,
        20_000.0,
        7179.551265993,
        0.1035018952694,
    ),
    (
        -20.0,
        1_500.0,
        86_000.0,
        11_000.0,
        20538.65570137,
        0.3636161608692,
    ),
    (
        -20.0,
        1_500.0,
        86_000.0,
        30_000.0,
        805.9365826345,
        0.01359563544731,
    ),
];

#[test]
fn off_standard_days_by_integration() {
    for (offset, site, station, altitude, pressure, density) in OFF_STANDARD_DAYS {
        let temperature = standard(site).temperature + offset;
        let air = OffStandard::new(site, temperature, station).air(altitude);
        let case = |what: &str| {
            format!("{what} at {altitude} m, {offset} K off, {station} Pa read at {site} m")
        };
        INTEGRATED.relative(&case("pressure, Pa,"), air.pressure, pressure, 1e-11);
        INTEGRATED.relative(&case("density, kg/m3,"), air.density, density, 1e-11);
    }
}

const PERFORMANCE: Outside = Outside {
    room: "atmosphere",
    source: "M. H. Sadraey, \"Aircraft Performance: An Engineering Approach\", 2nd edition, CRC Press, \
             2023, problems 1.2 and 1.3, as solved in the author's manual",
};

/// The book's altitude is the geopotential one and its day's offset reaches down to sea level, where
/// the pressure is standard. It rounds 288.15 to 288 K and 255.65 to 255.5 K, and in 1.3 takes 2 K per
/// 1000 ft for the standard's 1.98: the tolerances are what that moves. A pressure that ignored the
/// offset would be off by 2.4 % and by 3.3 %.
#[test]
fn warmer_and_colder_days_of_a_textbook() {
    for (problem, geopotential, offset, temperature, rounding, pressure, share) in [
        (
            "1.2, 5000 m at ISA-10",
            5_000.0,
            -10.0,
            245.5,
            0.2,
            52_714.2,
            5e-4,
        ),
        (
            "1.3, 20000 ft at ISA+15",
            6_096.0,
            15.0,
            263.0,
            0.6,
            48_143.9,
            9e-3,
        ),
    ] {
        let day = OffStandard::new(0.0, 288.15 + offset, 101_325.0);
        let air = day.air(geometric(geopotential));
        PERFORMANCE.within(
            &format!("{problem}: temperature, K"),
            air.temperature,
            temperature,
            rounding,
        );
        PERFORMANCE.relative(
            &format!("{problem}: pressure, Pa"),
            air.pressure,
            pressure,
            share,
        );
    }
}

const WEATHER_SERVICE: Outside = Outside {
    room: "atmosphere",
    source: "National Weather Service, formula sheet \"Density Altitude\" (station pressure in inches of \
             mercury, virtual temperature; here in dry air)",
};

/// The altitude at which the standard has the density that thermometer and barometer give. The sheet's
/// constants are rounded (it gives 20 ft for the standard day at sea level), hence 40 ft.
#[test]
fn density_altitude_of_a_site() {
    for (celsius, inches, site) in [
        (30.0, 24.90, 1_500.0),
        (31.6, 29.09, 50.0),
        (-10.0, 27.00, 900.0),
        (38.0, 25.50, 1_300.0),
    ] {
        let rankine: f64 = 1.8 * celsius + 32.0 + 459.69;
        let printed = 145_366.0 * (1.0 - (17.326 * inches / rankine).powf(0.235));
        // 1 inch of mercury, conventional: 3386.389 Pa.
        let day = OffStandard::new(site, celsius + 273.15, inches * 3386.389);
        let density = day.air(site).density;
        let (mut low, mut high) = (-3_000.0, 9_000.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if standard(geometric(middle)).density > density {
                low = middle;
            } else {
                high = middle;
            }
        }
        let case = format!("density altitude at {celsius} degC and {inches} inHg, ft");
        WEATHER_SERVICE.within(&case, low / 0.3048, printed, 40.0);
    }
}

const HYPSOMETRIC: Outside = Outside {
    room: "atmosphere",
    source: "J. M. Wallace and P. V. Hobbs, \"Atmospheric Science: An Introductory Survey\", 2nd edition, \
             2006, exercise 3.3, thickness of the layer from 1000 to 500 hPa (numbers from memory); the \
             hypsometric equation itself as in the AMS Glossary of Meteorology",
};

/// 5846 m at a mean of 15 degC and 4730 m at -40 degC, by the book's rounded 20.3 m/K (a thousandth).
/// The layer of even temperature above 11 km is the one whose mean needs no averaging.
#[test]
fn thickness_between_1000_and_500_hectopascals() {
    for (kelvin, thickness) in [(288.0, 5_846.0), (233.0, 4_730.0)] {
        let bottom = 12_000.0;
        let day = OffStandard::new(geometric(bottom), kelvin, 100_000.0);
        let (mut low, mut high) = (bottom, 20_000.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if day.air(geometric(middle)).pressure > 50_000.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        let case = format!("thickness of the 1000 to 500 hPa layer at {kelvin} K, m");
        HYPSOMETRIC.relative(&case, low - bottom, thickness, 1e-3);
    }
}
