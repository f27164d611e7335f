//! The day that is not standard: its limits, its derivatives, its bits, and what it does to a flight.

use crate::example;
use hoopline::atmosphere::{Air, EARTH_RADIUS, OffStandard, exact, standard};
use hoopline::numerics::{Dual, Lanes, Real};
use hoopline::stage::Stage;
use serde_json::json;

/// Geometric altitudes, m, in every layer, at and beside its limits, and beyond the atmosphere.
const ALTITUDES: [f64; 16] = [
    -6_000.0, -1_234.0, 0.0, 37.0, 4_321.0, 10_999.0, 11_019.1, 15_000.0, 20_100.0, 25_000.0,
    33_000.0, 49_000.0, 60_000.0, 75_000.0, 85_999.0, 90_000.0,
];

fn columns<R>(air: Air<R>) -> [R; 6] {
    [
        air.temperature,
        air.pressure,
        air.density,
        air.density_slope,
        air.sound_speed,
        air.unit_reynolds,
    ]
}

fn hot<R: Real>() -> OffStandard<R> {
    OffStandard::new(R::splat(1_200.0), R::splat(309.0), R::splat(87_500.0))
}

fn on_day(changes: &[(&str, serde_json::Value)]) -> Stage {
    let mut all = vec![
        ("atmosphere.model".to_owned(), json!("off_standard_day")),
        ("atmosphere.site_temperature".to_owned(), json!("32 degC")),
        (
            "atmosphere.site_pressure".to_owned(),
            json!("0.98 bar absolute"),
        ),
    ];
    for (path, value) in changes {
        all.retain(|(known, _)| known != path);
        all.push(((*path).to_owned(), value.clone()));
    }
    example("petrel_slim.toml")
        .replace(&all)
        .expect("a readable change")
}

#[test]
fn a_standard_day_is_the_standard_atmosphere() {
    for site in [-300.0, 0.0, 250.0, 1_500.0, 6_000.0, 12_000.0, 25_000.0] {
        let there = exact::air(site);
        let day = OffStandard::new(site, there.temperature, there.pressure);
        assert!(day.offset().abs() < 1e-12);
        for step in 0..=1_820 {
            let altitude = -5_000.0 + 50.0 * f64::from(step) + 0.123;
            let pairs = columns(day.air(altitude))
                .into_iter()
                .zip(columns(exact::air(altitude)));
            for (day, exact) in pairs {
                approx::assert_relative_eq!(day, exact, max_relative = 1e-12);
            }
        }
    }
}

#[test]
fn the_site_reads_what_was_read() {
    for site in [-400.0, 0.0, 1_200.0, 6_000.0, 12_000.0, 40_000.0] {
        let air = OffStandard::new(site, 305.0, 91_000.0).air(site);
        approx::assert_relative_eq!(air.temperature, 305.0, max_relative = 1e-14);
        approx::assert_relative_eq!(air.pressure, 91_000.0, max_relative = 1e-13);
    }
}

#[test]
fn every_kind_gives_the_bits_of_a_scalar_run() {
    // Sixteen days at once, each with an altitude of its own; two sites lie above the first layer.
    let day = |lane: usize| {
        let share = lane as f64;
        let site = if lane > 13 { 14_000.0 } else { 300.0 * share };
        (site, 262.0 + 3.0 * share, 101e3 - 2.2e3 * share)
    };
    let lanes = columns(
        OffStandard::new(
            Lanes(std::array::from_fn(|lane| day(lane).0)),
            Lanes(std::array::from_fn(|lane| day(lane).1)),
            Lanes(std::array::from_fn(|lane| day(lane).2)),
        )
        .air(Lanes(ALTITUDES)),
    );
    for (lane, altitude) in ALTITUDES.into_iter().enumerate() {
        let (site, temperature, pressure) = day(lane);
        let scalar = columns(OffStandard::new(site, temperature, pressure).air(altitude));
        let scalar = scalar.map(f64::to_bits);
        assert_eq!(lanes.map(|column| column.0[lane].to_bits()), scalar);
        let [site, temperature, pressure] =
            [site, temperature, pressure].map(|value| Dual::<2>::variable(value, 1));
        let dual =
            OffStandard::new(site, temperature, pressure).air(Dual::<2>::variable(altitude, 0));
        assert_eq!(columns(dual).map(|column| column.value.to_bits()), scalar);
    }
}

/// Derivatives by site altitude, temperature, pressure and altitude against central differences.
#[test]
fn derivatives_agree_with_differences() {
    for altitude in [
        -1_234.0, 37.0, 4_321.0, 15_000.0, 40_010.0, 60_000.0, 85_000.0,
    ] {
        let given = [1_200.0, 309.0, 87_500.0, altitude];
        let dual: [Dual<4>; 4] = std::array::from_fn(|k| Dual::variable(given[k], k));
        let exact = columns(OffStandard::new(dual[0], dual[1], dual[2]).air(dual[3]));
        for (k, step) in [1.0, 0.01, 10.0, 1.0].into_iter().enumerate() {
            let at = |change: f64| {
                let mut given = given;
                given[k] += change;
                columns(OffStandard::new(given[0], given[1], given[2]).air(given[3]))
            };
            for ((above, below), exact) in at(step).into_iter().zip(at(-step)).zip(exact) {
                approx::assert_relative_eq!(
                    exact.partials[k],
                    (above - below) / (2.0 * step),
                    max_relative = 2e-6,
                    epsilon = exact.value.abs() * 1e-11
                );
            }
        }
    }
}

#[test]
fn density_slope_is_the_derivative_of_density() {
    for altitude in [
        -900.0, 0.0, 10_000.0, 15_000.0, 33_333.0, 49_000.0, 85_999.0,
    ] {
        let air = hot().air(Dual::<1>::variable(altitude, 0));
        approx::assert_relative_eq!(
            air.density.partials[0],
            air.density_slope.value,
            max_relative = 1e-12
        );
    }
}

/// dp/dz = -rho g with gravity by the inverse square.
#[test]
fn pressure_is_hydrostatic_in_every_layer() {
    for altitude in [
        -900.0, 5_000.0, 15_000.0, 25_000.0, 40_000.0, 49_000.0, 60_000.0, 80_000.0,
    ] {
        let air = hot().air(Dual::<1>::variable(altitude, 0));
        let gravity = 9.80665 * (EARTH_RADIUS / (EARTH_RADIUS + altitude)).powi(2);
        approx::assert_relative_eq!(
            air.pressure.partials[0],
            -air.density.value * gravity,
            max_relative = 1e-12
        );
    }
}

#[test]
fn nothing_jumps_at_a_layer_limit() {
    for geopotential in [11_000.0, 20_000.0, 32_000.0, 47_000.0, 51_000.0, 71_000.0] {
        let altitude = EARTH_RADIUS * geopotential / (EARTH_RADIUS - geopotential);
        let (below, above) = (hot().air(altitude - 1e-4), hot().air(altitude + 1e-4));
        approx::assert_relative_eq!(below.pressure, above.pressure, max_relative = 1e-7);
        approx::assert_relative_eq!(below.temperature, above.temperature, max_relative = 1e-8);
    }
}

/// At equal pressure; higher up the hotter column holds more air above, and the order turns round.
#[test]
fn a_hotter_day_is_less_dense_at_equal_pressure() {
    let mut last = f64::INFINITY;
    for kelvin in [250.0, 270.0, 288.15, 300.0, 320.0] {
        let day = OffStandard::new(300.0, kelvin, 97_000.0);
        assert!(day.air(300.0).density < last && day.air(3_000.0).pressure > 0.0);
        last = day.air(300.0).density;
    }
    let [cold, hot] = [270.0, 310.0].map(|kelvin| OffStandard::new(300.0, kelvin, 97_000.0));
    assert!(hot.air(3_000.0).pressure > cold.air(3_000.0).pressure);
    assert!(hot.air(30_000.0).density > cold.air(30_000.0).density);
}

#[test]
fn beyond_the_atmosphere_the_rules_of_the_standard_hold() {
    let top = hot().air(86_000.0);
    let lowest = hot().air(exact::LOWEST_ALTITUDE);
    for altitude in [86_000.1, 1.0e9, f64::INFINITY] {
        let air = hot().air(altitude);
        assert_eq!(
            (air.density, air.pressure, air.density_slope),
            (0.0, 0.0, 0.0)
        );
        assert_eq!(air.temperature, top.temperature);
        assert_eq!(air.unit_reynolds, top.unit_reynolds);
    }
    for altitude in [-1.0e6, f64::NEG_INFINITY] {
        let air = hot().air(altitude);
        assert_eq!((air.density, air.density_slope), (lowest.density, 0.0));
    }
    assert!(
        columns(hot().air(f64::NAN))
            .iter()
            .all(|column| column.is_nan())
    );
}

#[test]
fn the_thinner_air_of_a_hot_day_carries_higher() {
    let mut last = 0.0;
    for temperature in ["-5 degC", "10 degC", "25 degC", "38 degC"] {
        let apogee = on_day(&[("atmosphere.site_temperature", json!(temperature))])
            .outcome()
            .ascent
            .apogee;
        assert!(apogee > last, "{temperature}: {apogee} after {last}");
        last = apogee;
    }
    let low = on_day(&[("atmosphere.site_pressure", json!("955 hPa absolute"))]);
    let high = on_day(&[("atmosphere.site_pressure", json!("1005 hPa absolute"))]);
    assert!(low.outcome().ascent.apogee > high.outcome().ascent.apogee);
}

#[test]
fn a_standard_day_flies_like_the_standard_atmosphere() {
    let plain = example("petrel_slim.toml").outcome();
    let air = standard(250.0);
    let day = on_day(&[
        ("atmosphere.site_temperature", json!(air.temperature)),
        ("atmosphere.site_pressure", json!(air.pressure)),
    ])
    .outcome();
    approx::assert_relative_eq!(day.ascent.apogee, plain.ascent.apogee, max_relative = 1e-8);
    approx::assert_relative_eq!(
        day.pressures.site,
        plain.pressures.site,
        max_relative = 1e-12
    );
}

#[test]
fn the_station_pressure_is_the_site_pressure_and_gauge_refers_to_it() {
    let outcome = on_day(&[]).outcome();
    assert_eq!(outcome.pressures.site, 98_000.0);
    let plain = example("petrel_slim.toml").outcome();
    approx::assert_relative_eq!(
        outcome.pressures.meop_closed + outcome.pressures.site,
        plain.pressures.meop_closed + plain.pressures.site,
        max_relative = 1e-12
    );
}

#[test]
fn both_readings_are_asked_for_and_only_on_such_a_day() {
    let slim = example("petrel_slim.toml");
    let alone = [("atmosphere.model".to_owned(), json!("off_standard_day"))];
    let error = slim.replace(&alone).expect_err("no readings").to_string();
    assert!(error.contains("atmosphere.site_temperature"), "{error}");
    let stray = [(
        "atmosphere.site_pressure".to_owned(),
        json!("1 bar absolute"),
    )];
    assert!(slim.replace(&stray).is_err());
}

#[test]
fn readings_that_look_like_another_pressure_are_questioned() {
    let said = |changes: &[(&str, serde_json::Value)]| {
        let assessment = on_day(changes).assess().expect("a sound design");
        assessment.cautions.join("; ")
    };
    assert!(!said(&[]).contains("station pressure"));
    let high = ("site.altitude", json!("1200 m"));
    let reduced = [
        high.clone(),
        ("atmosphere.site_pressure", json!("1.02 bar absolute")),
    ];
    assert!(said(&reduced).contains("station pressure"));
    let true_one = [
        high,
        ("atmosphere.site_pressure", json!("0.88 bar absolute")),
    ];
    assert!(!said(&true_one).contains("station pressure"));
    let frozen = [("atmosphere.site_temperature", json!("-25 degC"))];
    assert!(said(&frozen).contains("colder"));
    let torrid = [("atmosphere.site_temperature", json!("50 degC"))];
    assert!(said(&torrid).contains("warmer") && !said(&[]).contains("warmer"));
}
