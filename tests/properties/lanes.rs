//! One source for `f64`, lanes and duals: the same bits. Other widths of lanes are flown in `bits`.

use crate::example;
use hoopline::numerics::{Dual, Lanes};
use hoopline::stage::{INPUT_COUNT, INPUTS, RESULT_COUNT, Stage, assess, outcome_slots, point};

/// Sixteen different designs of one form, two of them without results.
pub(crate) fn mixed(stage: &Stage) -> Vec<[f64; INPUT_COUNT]> {
    let slot = |path: &str| INPUTS.slot(path).expect("an input");
    let (diameter, wall) = (slot("tank.outer_diameter"), slot("tank.liner.wall"));
    let (thrust, ullage) = (slot("motor.thrust"), slot("propellant.ullage"));
    (0..16)
        .map(|lane| {
            let mut slots = *stage.slots();
            let step = f64::from(lane);
            slots[diameter] = 0.130 + 0.008 * step;
            slots[wall] = 0.002 + 0.0002 * step;
            slots[ullage] = 0.10 + 0.02 * step;
            slots[thrust] = if lane == 5 {
                50.0
            } else {
                3000.0 + 150.0 * step
            };
            slots
        })
        .collect()
}

fn bits(values: &[f64; RESULT_COUNT]) -> [u64; RESULT_COUNT] {
    values.map(f64::to_bits)
}

pub(crate) fn in_lanes<const N: usize>(stage: &Stage, designs: &[[f64; INPUT_COUNT]]) {
    for block in designs.chunks(N) {
        let slots: [Lanes<N>; INPUT_COUNT] = std::array::from_fn(|slot| {
            Lanes(std::array::from_fn(|lane| {
                block[lane.min(block.len() - 1)][slot]
            }))
        });
        let outcome = assess(stage.form(), &point(&slots));
        let columns = outcome_slots(&outcome, Lanes([0.0; N]));
        for (lane, design) in block.iter().enumerate() {
            let scalar = outcome_slots(&assess(stage.form(), &point(design)), 0.0);
            assert_eq!(
                bits(&columns.map(|column| column.0[lane])),
                bits(&scalar),
                "lane {lane} of {N}"
            );
        }
    }
}

#[test]
fn lanes_equal_scalar_calls_bit_for_bit() {
    let named = ["petrel_slim.toml", "petrel_hoop.toml", "petrel_plain.toml"].map(example);
    let bolted = crate::bolts::both_ends("petrel_hoop.toml");
    let others = [
        crate::vessel::dished(0.9, 0.12),
        crate::isotensoid::wound(),
        bolted,
    ];
    for stage in named.into_iter().chain(others) {
        let designs = mixed(&stage);
        let status: Vec<f64> = designs
            .iter()
            .map(|design| assess(stage.form(), &point(design)).status.code)
            .collect();
        assert!(
            status.contains(&0.0) && status.iter().any(|code| *code > 0.0),
            "{status:?}"
        );
        in_lanes::<4>(&stage, &designs);
        in_lanes::<8>(&stage, &designs);
    }
}

#[test]
fn lanes_of_different_days_equal_scalar_calls_bit_for_bit() {
    let stage = crate::hot_day();
    let slot = |path: &str| INPUTS.slot(path).expect("an input");
    let mut designs = mixed(&stage);
    for (lane, slots) in designs.iter_mut().enumerate() {
        slots[slot("site.altitude")] = 50.0 * lane as f64;
        slots[slot("atmosphere.site_temperature")] = 270.0 + 2.5 * lane as f64;
        slots[slot("atmosphere.site_pressure")] = 101e3 - 600.0 * lane as f64;
    }
    in_lanes::<8>(&stage, &designs);
}

#[test]
fn the_published_case_in_lanes() {
    let stage = example("published/v2_textbook.toml");
    in_lanes::<8>(&stage, &vec![*stage.slots(); 3]);
}

#[test]
fn the_value_of_a_dual_equals_the_scalar_call_bit_for_bit() {
    let stage = example("petrel_slim.toml");
    let slots = stage.slots().map(|value| Dual::<2>::variable(value, 1));
    let dual = outcome_slots(
        &assess(stage.form(), &point(&slots)),
        Dual::variable(0.0, 0),
    );
    let scalar = outcome_slots(&stage.outcome(), 0.0);
    assert_eq!(bits(&dual.map(|entry| entry.value)), bits(&scalar));
}
