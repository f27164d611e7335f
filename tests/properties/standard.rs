//! The table of the standard atmosphere against the exact functions it is built from.

use hoopline::atmosphere::{Air, exact, standard};

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
        let top = standard(86_000.0);
        for air in [standard(altitude), exact::air(altitude)] {
            assert_eq!(
                (air.density, air.pressure, air.density_slope),
                (0.0, 0.0, 0.0)
            );
            approx::assert_relative_eq!(air.temperature, top.temperature, max_relative = 1e-9);
            approx::assert_relative_eq!(air.sound_speed, top.sound_speed, max_relative = 1e-9);
        }
    }
}
