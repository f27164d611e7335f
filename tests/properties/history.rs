//! The recorded ascent is the one that was assessed: the same bits at its ends, the same maxima.

use crate::{example, hot_day, replaced};
use hoopline::ascent::{Instant, Moment, Phase};
use hoopline::stage::Stage;
use serde_json::json;

fn stages() -> Vec<(&'static str, Stage)> {
    let slim = example("petrel_slim.toml");
    let change = |changes: &[(&str, serde_json::Value)]| {
        replaced(&slim, changes).expect("a readable change")
    };
    vec![
        ("vertical", change(&[("rail.direction", json!("vertical"))])),
        ("fine", change(&[("ascent.grid", json!("fine"))])),
        ("low", change(&[("rail.elevation", json!("70 deg"))])),
        ("long rail", change(&[("rail.length", json!("60 m"))])),
        ("hot day", hot_day()),
        (
            "smooth",
            change(&[("skin.sand_grain_roughness", json!("0.1 um"))]),
        ),
        ("plain", example("petrel_plain.toml")),
        ("hoop", example("petrel_hoop.toml")),
        ("published", example("published/v2_textbook.toml")),
        ("slim", slim),
    ]
}

fn last(history: &[Moment], phase: Phase) -> Option<Instant<f64>> {
    let mut rows = history.iter().rev();
    rows.find(|moment| moment.phase == phase)
        .map(|moment| moment.instant)
}

#[test]
fn ends_have_the_bits_of_the_results() {
    for (name, stage) in stages() {
        let ascent = stage.outcome().ascent;
        let history = stage.history().expect("a sound design");
        let first = history[0].instant;
        let same = |found: f64, wanted: f64, what: &str| {
            assert_eq!(
                found.to_bits(),
                wanted.to_bits(),
                "{name}: {what} {found} {wanted}"
            );
        };
        same(first.time, ascent.lift_off_time, "lift-off");
        same(first.speed, 0.0, "speed at lift-off");
        let burnout = last(&history, Phase::Burn).expect("a burn");
        same(
            burnout.altitude,
            ascent.burnout_altitude,
            "burnout altitude",
        );
        same(burnout.speed, ascent.burnout_speed, "burnout speed");
        let top = last(&history, Phase::Coast).expect("a coast");
        same(top.altitude, ascent.apogee, "apogee");
        same(top.time, ascent.apogee_time, "time of apogee");
        same(top.downrange, ascent.downrange, "downrange");
        assert_eq!(history[history.len() - 1].instant, top, "{name}");
        let coast = history.iter().find(|row| row.phase == Phase::Coast);
        let coast = coast.expect("a coast").instant;
        // On a vertical course time is a state of the coast; it begins as the burn ended.
        same(coast.time, burnout.time, "time of burnout");
        same(coast.altitude, burnout.altitude, "altitude of burnout");
        assert!(coast.thrust == 0.0 && burnout.thrust > 0.0, "{name}");
    }
}

#[test]
fn the_end_of_an_inclined_rail_is_a_row() {
    for (name, stage) in stages() {
        if stage.form().course == hoopline::ascent::Course::Inclined {
            let ascent = stage.outcome().ascent;
            let exit = last(&stage.history().expect("a sound design"), Phase::Rail);
            let exit = exit.expect("a rail");
            assert_eq!(
                exit.speed.to_bits(),
                ascent.rail_exit_speed.to_bits(),
                "{name}"
            );
            approx::assert_relative_eq!(exit.time, ascent.rail_exit_time, max_relative = 1e-14);
        }
    }
}

/// Speed and path angle alone give altitude and distance again, by trapezoids over the rows, whose
/// error on these grids is below a thousandth; distance is measured at the site's level of a round
/// earth.
#[test]
fn speed_and_path_angle_lead_to_altitude_and_distance() {
    for (name, stage) in stages() {
        let site = stage.point().site.altitude;
        let history = stage.history().expect("a sound design");
        let earth = match stage.form().atmosphere {
            hoopline::stage::AtmosphereModel::Exponential => {
                stage.point().atmosphere.exponential.planet_radius
            }
            _ => hoopline::atmosphere::EARTH_RADIUS,
        };
        let (mut climbed, mut covered) = (0.0, 0.0);
        for pair in history.windows(2) {
            let [from, to] = [pair[0].instant, pair[1].instant];
            let along = |at: Instant<f64>| {
                let level = (earth + site) / (earth + at.altitude_above_sea_level);
                (
                    at.speed * at.path_angle.sin(),
                    at.speed * at.path_angle.cos() * level,
                )
            };
            let half = 0.5 * (to.time - from.time);
            climbed += half * (along(from).0 + along(to).0);
            covered += half * (along(from).1 + along(to).1);
            if pair[1].phase == Phase::Burn {
                approx::assert_relative_eq!(
                    covered,
                    to.downrange,
                    max_relative = 0.02,
                    epsilon = 0.01
                );
            }
        }
        let top = history[history.len() - 1].instant;
        approx::assert_relative_eq!(climbed, top.altitude, max_relative = 1e-3);
        approx::assert_relative_eq!(covered, top.downrange, max_relative = 1e-3, epsilon = 1e-6);
        for Moment { instant, phase } in &history {
            approx::assert_relative_eq!(
                instant.altitude_above_sea_level - instant.altitude,
                site,
                epsilon = 1e-8
            );
            if *phase == Phase::Rail && stage.form().course == hoopline::ascent::Course::Inclined {
                let elevation = stage.point().rail.elevation;
                assert_eq!(instant.path_angle.to_bits(), elevation.to_bits(), "{name}");
            }
        }
    }
}

#[test]
fn a_row_is_on_the_rail_as_far_as_the_rail_reaches() {
    for (name, stage) in stages() {
        if !stage.form().rail {
            continue;
        }
        let length = stage.point().rail.length;
        let mut seen = 0;
        for Moment { instant, phase } in stage.history().expect("a sound design") {
            let ahead = instant.altitude.hypot(instant.downrange);
            match phase {
                Phase::Rail => assert!(ahead <= length * (1.0 + 1e-6), "{name}: {ahead}"),
                _ => assert!(ahead >= length * (1.0 - 1e-6), "{name}: {ahead}"),
            }
            seen += usize::from(phase == Phase::Rail);
        }
        assert!(seen > 1, "{name}");
    }
}

/// Thrust falls in a straight line with the ambient pressure (momentum balance of a nozzle: thrust
/// in vacuum less pressure times exit area).
#[test]
fn thrust_falls_with_ambient_pressure_times_exit_area() {
    for (name, stage) in stages() {
        let area = stage.point().motor.exit_area;
        let site = stage.outcome().pressures.site;
        for row in stage.thrust_rows().expect("a sound design") {
            let loss = |thrust: f64| row.thrust_in_vacuum - thrust;
            let near = |found: f64, wanted: f64| {
                approx::assert_abs_diff_eq!(found, wanted, epsilon = 1e-9 * row.thrust_in_vacuum);
            };
            near(loss(row.thrust_at_sea_level), area * 101_325.0);
            near(loss(row.thrust_at_site), area * site);
            assert!(row.thrust_in_vacuum > 0.0, "{name}");
        }
    }
}

/// Friction of a smooth skin rises with altitude, where the Reynolds number falls; that of a rough
/// one does not know it.
#[test]
fn friction_of_the_drag_sheet_is_that_of_its_altitude() {
    for (name, rises) in [("smooth", true), ("slim", false)] {
        let found = stages().into_iter().find(|(one, _)| *one == name);
        let (_, stage) = found.expect("a stage of that name");
        let at = |altitude| stage.drag_rows(altitude).expect("a sound design");
        for (low, high) in at(0.0).iter().zip(at(8_000.0)) {
            if low.mach > 0.3 {
                let risen = high.body_friction > low.body_friction * 1.02;
                assert!(risen || !rises, "{name} at Mach {}", low.mach);
                assert!(high.body_friction >= low.body_friction, "{name}");
            }
        }
    }
}

/// Mach number and acceleration are watched at the ends of the steps, so their largest rows are the
/// results. The peak of dynamic pressure is taken inside a step, so its largest row lies below.
#[test]
fn largest_rows_are_the_results() {
    for (name, stage) in stages() {
        let ascent = stage.outcome().ascent;
        let history = stage.history().expect("a sound design");
        let largest = |of: fn(&Instant<f64>) -> f64| {
            let rows = history.iter().map(|row| of(&row.instant));
            rows.fold(f64::NEG_INFINITY, f64::max)
        };
        // A peak within a step lies above both rows beside it.
        let share = largest(|row| row.mach) / ascent.max_mach;
        assert!((0.999..=1.0).contains(&share), "{name}: {share}");
        assert_eq!(
            largest(|row| row.axial_acceleration).to_bits(),
            ascent.max_axial_acceleration.to_bits(),
            "{name}"
        );
        let share = largest(|row| row.dynamic_pressure) / ascent.max_dynamic_pressure;
        assert!((0.999..=1.0).contains(&share), "{name}: {share}");
    }
}

#[test]
fn rows_ascend_in_time_and_what_they_hold_agrees() {
    for (name, stage) in stages() {
        let history = stage.history().expect("a sound design");
        let burn_time = stage.outcome().thrust.burn_time;
        let mut jumps = 0;
        for pair in history.windows(2) {
            let [from, to] = [pair[0].instant, pair[1].instant];
            jumps += usize::from(from.time.to_bits() == to.time.to_bits());
            assert!(to.time >= from.time && to.mass <= from.mass, "{name}");
            assert!(to.altitude >= from.altitude, "{name}: {from:?} {to:?}");
        }
        assert_eq!(jumps, 1, "{name}: only the end of thrust stands twice");
        for Moment { instant, phase } in &history {
            let felt = (instant.thrust - instant.drag) / instant.mass;
            assert_eq!(
                felt.to_bits(),
                instant.axial_acceleration.to_bits(),
                "{name}"
            );
            let burns = *phase != Phase::Coast;
            assert_eq!(burns, instant.thrust > 0.0, "{name}");
            assert!(
                !burns || instant.time <= burn_time * (1.0 + 1e-12),
                "{name}"
            );
        }
    }
}

/// A thrust that begins below the weight: steps before lift-off have no length and no row.
#[test]
fn the_pad_has_no_rows() {
    let mut text =
        std::fs::read_to_string(crate::example_file("petrel_slim.toml")).expect("an example");
    text = text.replace(
        "thrust = \"4200 N\"",
        "curve = { rows = [[0, 0], [0.4, 300], [0.8, 4000], [5, 4200]] }",
    );
    let stage = Stage::from_toml(&text, std::path::Path::new("slow.toml")).expect("a stage");
    let lift_off = stage.outcome().ascent.lift_off_time;
    let history = stage.history().expect("a sound design");
    assert!(lift_off > 0.4);
    assert_eq!(history[0].instant.time.to_bits(), lift_off.to_bits());
    assert!(history[0].instant.mass < stage.outcome().mass.lift_off);
    assert!(history[1].instant.time > lift_off);
}

/// Propellant left falls from the load to the residual, and impulse over its flow is the exhaust
/// speed of every row.
#[test]
fn the_thrust_sheet_spends_what_is_burned() {
    for (name, stage) in stages() {
        let outcome = stage.outcome();
        let rows = stage.thrust_rows().expect("a sound design");
        let (first, end) = (rows[0], rows[rows.len() - 1]);
        approx::assert_relative_eq!(
            first.propellant_left,
            outcome.load.propellant,
            max_relative = 1e-14
        );
        approx::assert_relative_eq!(
            end.propellant_left,
            outcome.load.residual,
            max_relative = 1e-10,
            epsilon = 1e-9
        );
        approx::assert_relative_eq!(end.time, outcome.thrust.burn_time, max_relative = 1e-12);
        let impulse: f64 = rows
            .windows(2)
            .map(|pair| {
                (pair[0].thrust_at_basis + pair[1].thrust_at_basis)
                    * 0.5
                    * (pair[1].time - pair[0].time)
            })
            .sum();
        approx::assert_relative_eq!(impulse, outcome.thrust.impulse, max_relative = 1e-12);
        for row in rows {
            assert!(
                row.thrust_in_vacuum >= row.thrust_at_site
                    && row.thrust_at_site >= row.thrust_at_sea_level,
                "{name}"
            );
        }
    }
}

#[test]
fn terms_of_the_drag_sheet_add_up() {
    for (name, stage) in stages() {
        let altitude = stage.point().site.altitude;
        let rows = stage.drag_rows(altitude).expect("a sound design");
        if stage.form().body().is_none() {
            assert!(
                rows.iter().all(|row| row.power_off == row.power_on),
                "{name}"
            );
            continue;
        }
        for row in rows {
            let shared = row.body_friction + row.fin_friction + row.nose + row.fins_wave;
            approx::assert_relative_eq!(
                shared + row.base_power_off,
                row.power_off,
                max_relative = 1e-12
            );
            approx::assert_relative_eq!(
                shared + row.base_power_on,
                row.power_on,
                max_relative = 1e-12
            );
            if row.mach == 2.0 {
                approx::assert_relative_eq!(
                    row.power_off,
                    stage.outcome().drag.supersonic,
                    max_relative = 1e-14
                );
            }
        }
        assert!(stage.drag_rows(1e6).is_err() && stage.drag_rows(f64::NAN).is_err());
    }
}

#[test]
fn a_design_with_a_fault_has_no_history() {
    let stage = replaced(
        &example("petrel_slim.toml"),
        &[("motor.thrust", json!("20 N"))],
    );
    let stage = stage.expect("readable");
    let said = stage.history().expect_err("too weak").to_string();
    assert_eq!(said, stage.assess().expect_err("too weak").to_string());
    assert!(stage.thrust_rows().is_err() && stage.drag_rows(0.0).is_err());
}
