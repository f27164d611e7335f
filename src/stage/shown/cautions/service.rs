//! Where temperature, cycles, time or damage take the tank beyond a limit that is given.

use crate::quantity::{Quantity, show};
use crate::stage::chain::outcome::Outcome;
use crate::stage::given::Stage;
use crate::stage::shown::service::{StageService, is_given, judged};
use crate::vessel::Tank;

/// The same in an assessment, where any of it is given.
pub(super) fn service(stage: &Stage, outcome: &Outcome<f64>, cautions: &mut Vec<String>) {
    if is_given(stage)
        && let Ok(service) = judged(stage, outcome)
    {
        cautions.extend(service.cautions);
        let unheld = service.not_judged.iter();
        let unheld = unheld.filter(|(_, text)| text.starts_with("the wall"));
        cautions.extend(unheld.map(|(matter, text)| format!("{matter} is not judged: {text}")));
    }
}

/// Above, up to a tenth of a per cent.
fn percent_up(share: f64) -> String {
    format!("{:.1} %", (share * 1e3).ceil() / 10.0)
}

/// Rounded up to a tenth of a bar.
fn bar_up(pressure: f64) -> String {
    show((pressure / 1e4).ceil() * 1e4, Quantity::GaugePressure)
}

/// Rounded down to a tenth of a bar.
fn bar_down(pressure: f64) -> String {
    show((pressure / 1e4).floor() * 1e4, Quantity::GaugePressure)
}

/// Rounded up to a degree.
fn degrees_up(temperature: f64) -> String {
    format!("{:.0} degC", (temperature - 273.15).ceil())
}

/// Cautions of a tank in service, in words; `burst` is the burst pressure required, Pa gauge. What is not judged is NaN, which is beyond no limit.
pub(in crate::stage::shown) fn service_cautions(
    tank: &Tank<f64>,
    burst: f64,
    service: &StageService,
) -> Vec<String> {
    let mut cautions = Vec::new();
    cool_down(tank, service, &mut cautions);
    draw_off(service, &mut cautions);
    proof_test(tank, service, burst, &mut cautions);
    hot_wall(tank, service, &mut cautions);
    endurance(tank, service, &mut cautions);
    damage(tank, service, &mut cautions);
    cautions
}

fn cool_down(tank: &Tank<f64>, service: &StageService, cautions: &mut Vec<String>) {
    let told = &service.values.cool_down;
    let given = &tank.service;
    if !told.gap.is_nan() && given.cool_down.temperature > given.stress_free_temperature {
        cautions.push(format!(
            "tank.service.cool_down.temperature is {}, above the {} at which wrap and liner are free of thermal \
             stress: that is no cool-down",
            degrees_up(given.cool_down.temperature),
            degrees_up(given.stress_free_temperature)
        ));
    }
    if told.gap > told.stated_gap {
        cautions.push(format!(
            "cooled down from where the resin set, a liner that comes off its wrap leaves a gap of {:.3} mm, which \
             it closes at {}; tank.overwrap.gap is {:.3} mm: margins and load history let the wrap carry earlier",
            (told.gap * 1e6).ceil() / 1e3,
            bar_up(told.closing_pressure),
            told.stated_gap * 1e3
        ));
    }
    if told.liner_yield_share > 1.0 {
        cautions.push(format!(
            "cooled down from where the resin set, a liner bonded to its wrap bears {} of its yield strength \
             without any pressure: it flows, or comes off",
            percent_up(told.liner_yield_share)
        ));
    } else if told.proof_yield_share > 1.0 && told.even_proof_yield_share <= 1.0 {
        cautions.push(format!(
            "at proof pressure the tension that the cool-down from {} leaves in a bonded liner takes it to {} of \
             its yield strength, {} without: the margins do not show it",
            degrees_up(tank.service.stress_free_temperature),
            percent_up(told.proof_yield_share),
            percent_up(told.even_proof_yield_share)
        ));
    }
}

fn draw_off(service: &StageService, cautions: &mut Vec<String>) {
    let told = &service.values.draw_off;
    if told.liner_yield_share > 1.0 {
        cautions.push(format!(
            "at the end of the draw-off the cold liner bears {} of its yield strength under its warm wrap, {} if it \
             were as warm: it flows",
            percent_up(told.liner_yield_share),
            percent_up(told.even_liner_yield_share)
        ));
    }
}

fn proof_test(tank: &Tank<f64>, service: &StageService, burst: f64, cautions: &mut Vec<String>) {
    let told = &service.values.proof_test;
    if told.planned_pressure < told.required_pressure {
        cautions.push(format!(
            "a proof test at {} proves less than service asks: by a strength ratio of {} it has to go to {}",
            bar_down(told.planned_pressure),
            tank.service.proof_test.strength_ratio,
            bar_up(told.required_pressure)
        ));
    }
    if told.planned_pressure >= burst {
        cautions.push(format!(
            "the proof test is planned at {}, not below the burst pressure that is required, {}: no tank need hold it",
            bar_up(told.planned_pressure),
            bar_up(burst)
        ));
    }
    if told.planned_margin < 0.0 {
        cautions.push(format!(
            "at the {} that the proof test is planned at, the smallest margin against yield is {:.3}",
            bar_up(told.planned_pressure),
            (told.planned_margin * 1e3).floor() / 1e3
        ));
    }
}

fn hot_wall(tank: &Tank<f64>, service: &StageService, cautions: &mut Vec<String>) {
    let told = &service.values.hot_wall;
    let given = &tank.service.hot_wall;
    let limit = given.glass_transition_temperature - 273.15;
    if told.pad_margin <= 0.0 {
        cautions.push(format!(
            "on the pad the wrap is at {}, and its resin softens at {limit:.0} degC",
            degrees_up(given.pad_temperature),
        ));
    } else if told.temperature_margin <= 0.0 {
        cautions.push(format!(
            "in flight the wrap's surface gets to {}, {} with 30 % more heat transfer, for {:.1} s above the \
             {limit:.0} degC at which its resin softens",
            degrees_up(told.surface_temperature),
            degrees_up(told.upper_surface_temperature),
            (told.time_above * 10.0).ceil() / 10.0,
        ));
    }
}

fn endurance(tank: &Tank<f64>, service: &StageService, cautions: &mut Vec<String>) {
    let (cycles, hold) = (&service.values.cycles, &service.values.hold);
    if cycles.life < cycles.required_life {
        cautions.push(format!(
            "{} lasts {:.0} cycles to MEOP by the method of universal slopes, at {} of plastic strain in each, \
             and {:.0} are asked for, factor on life counted",
            service.place,
            cycles.life.floor(),
            percent_up(cycles.plastic_strain_range),
            cycles.required_life.ceil()
        ));
    }
    if hold.stress_ratio < hold.required_stress_ratio {
        cautions.push(format!(
            "at MEOP the fibre's stress ratio is {:.2}, below the {} that tank.service.hold asks for",
            (hold.stress_ratio * 100.0).floor() / 100.0,
            hold.required_stress_ratio
        ));
    }
    if hold.required_time > hold.rated_time {
        cautions.push(format!(
            "{} at MEOP, factor of {} on life counted, are more than the {} that the fibre's stress ratio is \
             stated for",
            show(hold.required_time, Quantity::Duration),
            tank.service.hold.life_factor,
            show(hold.rated_time, Quantity::Duration)
        ));
    }
}

fn damage(tank: &Tank<f64>, service: &StageService, cautions: &mut Vec<String>) {
    let told = &service.values.damage;
    if told.damaged_margin < 0.0 {
        cautions.push(format!(
            "damage that takes {} of the burst pressure and that the inspection may miss leaves {} of the {} that \
             are required: up to {} may be lost; inspect so that less goes unseen, or protect the wrap",
            show(tank.service.damage.knock_down, Quantity::Share),
            bar_down(told.damaged_burst),
            bar_up(told.required_burst),
            show((told.allowable_knock_down * 1e3).floor() / 1e3, Quantity::Share)
        ));
    }
}
