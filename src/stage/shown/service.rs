//! Temperature, cycles and damage of a tank in service: a number for each matter that is given, and for the others
//! what to give.

use super::cautions::service::service_cautions;
use super::sheet;
use crate::airframe::{HEATING_ERROR, heat_transfer_coefficient, recovery_temperature};
use crate::ascent::Instant;
use crate::atmosphere::exact::{GAS_CONSTANT, HEAT_CAPACITY_RATIO};
use crate::error::{Error, Result};
use crate::fluid::nitrous_oxide::saturation;
use crate::quantity::{Applies, Field, Slots, fields, slots};
use crate::stage::chain::outcome::{Outcome, Pressures};
use crate::stage::chain::schema::{INPUTS, RESULTS, outcome_slots};
use crate::stage::given::Stage;
use crate::vessel::service::{
    CoolDownResult, CyclesResult, DamageResult, DrawOffResult, Endured, Heating, HoldResult,
    HotWallResult, ProofTestResult, WallLayer, cool_down, cycle, cycles, damage, draw_off, heat_up,
    hold, proof_test,
};
use crate::vessel::{Closure, Dimensions, Tank, TankForm, dimensions, seam_thickness};
use serde_json::{Value, json};
use std::sync::LazyLock;

slots! {
    /// A tank in service, matter by matter.
    pub struct ServiceSheet<R> {} groups {
        /// Cool-down after cure.
        cool_down: CoolDownResult<R>,
        /// The end of the draw-off.
        draw_off: DrawOffResult<R>,
        /// Proof test at another temperature.
        proof_test: ProofTestResult<R>,
        /// The wrap on the pad and in flight.
        hot_wall: HotWallResult<R>,
        /// Pressure cycles.
        cycles: CyclesResult<R>,
        /// Time under pressure.
        hold: HoldResult<R>,
        /// Damage to the wrap.
        damage: DamageResult<R>,
    }
}

slots! {
    /// The wrap in flight at one instant.
    pub struct HotWallRow<R> {
        /// Time after ignition.
        time: Time, HotWall;
        /// Altitude above the launch site.
        altitude: Altitude, HotWall;
        /// Mach number.
        mach: Ratio, HotWall;
        /// Recovery temperature of the air along the wrap.
        recovery_temperature: Temperature, HotWall;
        /// Heat transfer coefficient.
        heat_transfer_coefficient: HeatTransfer, HotWall;
        /// Mean temperature of the wrap.
        mean_temperature: Temperature, HotWall;
        /// Temperature of its surface.
        surface_temperature: Temperature, HotWall;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<ServiceSheet<f64>>);
static ROWS: LazyLock<Vec<Field>> = LazyLock::new(fields::<HotWallRow<f64>>);

/// A matter: its name, when it is judged, and how sure what is told of it is.
struct Matter {
    name: &'static str,
    applies: Applies,
    wrapped: bool,
    note: &'static str,
}

const MATTERS: [Matter; 7] = [
    Matter {
        name: "cool_down",
        applies: Applies::CoolDown,
        wrapped: true,
        note: "elastic and bonded, from a tank at rest; shrinkage of the resin, winding tension and autofrettage \
               are not in it",
    },
    Matter {
        name: "draw_off",
        applies: Applies::DrawOff,
        wrapped: true,
        note: "elastic and bonded; what autofrettage leaves in the liner is not in it",
    },
    Matter {
        name: "proof_test",
        applies: Applies::ProofTest,
        wrapped: false,
        note: "as the lowest stress ratio of ASME VIII-1, UG-99(b), read at second hand",
    },
    Matter {
        name: "hot_wall",
        applies: Applies::HotWall,
        wrapped: true,
        note: "smooth, turbulent from the nose tip, closed to heat inside, no radiation, no skin over it, no \
               descent; the upper surface temperature takes 30 % more heat transfer",
    },
    Matter {
        name: "cycles",
        applies: Applies::Cycles,
        wrapped: false,
        note: "universal slopes, away from closures: lives of most metals lie within a factor of five (from \
               memory) of it back and forth; mean tension taken off the ultimate strength; no bending at the edges, no \
               notch of a weld's root, no crack",
    },
    Matter {
        name: "hold",
        applies: Applies::Hold,
        wrapped: true,
        note: "fibre away from seams and closures, at the least wall; the ratio counts for the time, temperature \
               and wetness its document states",
    },
    Matter {
        name: "damage",
        applies: Applies::Damage,
        wrapped: true,
        note: "counts on an inspection that finds whatever takes more than the knock-down: write down who looks \
               for it, by which method and after which events (ASTM E2981 is a guide to methods for wraps)",
    },
];

/// A tank in service.
#[derive(Debug, Clone, PartialEq)]
pub struct StageService {
    /// Results; NaN for what is not judged.
    pub values: ServiceSheet<f64>,
    /// Place whose life counts: cylinder, girth seam's or longitudinal seam's weld zone.
    pub place: &'static str,
    /// What is not judged, by name of the matter, and what to give.
    pub not_judged: Vec<(&'static str, String)>,
    /// What each matter judged leaves out, by its name.
    pub notes: Vec<(&'static str, &'static str)>,
    /// The wrap in flight; empty where it is not judged.
    pub flight: Vec<HotWallRow<f64>>,
    /// Cautions, in words.
    pub cautions: Vec<String>,
}

const PLACES: [&str; 3] = [
    "the cylinder",
    "the girth seam's weld zone",
    "the longitudinal seam's weld zone",
];

impl Stage {
    /// Temperature, cycles and damage of the tank in service: what `[tank.service]` gives is judged, the rest says
    /// what to give.
    ///
    /// Errors: no tank, or a design with a fault.
    ///
    /// ```
    /// use hoopline::stage::Stage;
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let hit = stage.replace(&[("tank.service.damage.knock_down".to_owned(), "15 %".into())])?;
    /// let values = hit.service()?.values.damage;
    /// assert!((values.damaged_burst / values.sound_burst - 0.85).abs() < 1e-12);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn service(&self) -> Result<StageService> {
        if self.form().tank.is_none() {
            let problem = "service is that of a tank; give the stage a [tank]";
            return Err(Error::Inconsistent(problem.to_owned()));
        }
        let outcome = self.outcome();
        outcome.status.refuse_fault()?;
        judged(self, &outcome)
    }

    /// The same as JSON: fields with units, values, notes, what is not judged, columns of the flight, cautions.
    pub fn service_json(&self) -> Result<String> {
        let service = self.service()?;
        let mut slots = vec![0.0; FIELDS.len()];
        service.values.write(&mut slots, &mut 0);
        let told = FIELDS.iter().zip(&slots);
        let told = told.filter(|(field, _)| {
            self.form().applies(field.applies, field.index)
                && !service
                    .not_judged
                    .iter()
                    .any(|(matter, _)| field.path.starts_with(matter))
        });
        let rows: Vec<Value> = told
            .map(|(field, value)| json!({"field": field.json(), "value": value}))
            .collect();
        Ok(json!({
            "rows": rows,
            "place": service.place,
            "notes": service.notes,
            "not_judged": service.not_judged,
            "flight": sheet::columns(self, &ROWS, &service.flight),
            "cautions": service.cautions,
        })
        .to_string())
    }
}

/// Whether any matter is given.
pub(super) fn is_given(stage: &Stage) -> bool {
    let mut matters = MATTERS.iter();
    matters.any(|matter| stage.form().applies(matter.applies, 0))
}

/// The tank in service, of a stage without a fault and its results.
pub(super) fn judged(stage: &Stage, outcome: &Outcome<f64>) -> Result<StageService> {
    let form = stage.form();
    let point = stage.point();
    let Some(side) = &form.tank else {
        unreachable!("service is asked for with a tank")
    };
    let tank = &point.tank;
    let size = dimensions(&side.tank, side.shape, tank);
    let pressures = &outcome.pressures;
    let mut service = StageService {
        values: ServiceSheet::uniform(f64::NAN),
        place: "",
        not_judged: Vec::new(),
        notes: Vec::new(),
        flight: Vec::new(),
        cautions: Vec::new(),
    };
    let applies = |applies: Applies| form.applies(applies, 0);
    let given = &tank.service;
    let values = &mut service.values;
    if applies(Applies::CoolDown) {
        values.cool_down = cool_down(&side.tank, tank, &size, pressures.proof);
    }
    if applies(Applies::DrawOff) {
        let boiling = saturation(given.draw_off.liner_temperature).pressure;
        values.draw_off = draw_off(&side.tank, tank, &size, boiling - pressures.site);
    }
    if applies(Applies::ProofTest) {
        let margin = smallest(stage, outcome, "_proof");
        values.proof_test = proof_test(&given.proof_test, pressures.proof, margin);
    }
    if applies(Applies::Damage) {
        let margin = smallest(stage, outcome, "_burst");
        values.damage = damage(&given.damage, pressures.burst, margin);
    }
    if applies(Applies::HotWall) {
        (values.hot_wall, service.flight) = hot_wall(stage, tank, size.wrap)?;
    }
    let endures = applies(Applies::Cycles) || applies(Applies::Hold);
    let endured = endures.then(|| endured(&side.tank, tank, &size, pressures));
    let endured = endured.flatten();
    if let (Some(endured), true) = (&endured, applies(Applies::Cycles)) {
        let (place, result) = cycles(&given.cycles, tank, endured);
        (values.cycles, service.place) = (result, PLACES[place]);
    }
    if let (Some(endured), true) = (&endured, applies(Applies::Hold)) {
        values.hold = hold(&given.hold, endured);
    }
    for matter in &MATTERS {
        let broken = matches!(matter.applies, Applies::Cycles | Applies::Hold) && endured.is_none();
        if !applies(matter.applies) {
            let text = what_to_give(matter, side.tank.plies > 0);
            service.not_judged.push((matter.name, text));
        } else if broken {
            let text = "the wall does not hold through its tests; see the load history";
            service.not_judged.push((matter.name, text.to_owned()));
        } else {
            service.notes.push((matter.name, matter.note));
        }
    }
    service.cautions = service_cautions(tank, pressures.burst, &service);
    Ok(service)
}

/// What a stage has to give for a matter to be judged.
fn what_to_give(matter: &Matter, wrapped: bool) -> String {
    if matter.wrapped && !wrapped {
        return "the tank has no overwrap".to_owned();
    }
    let thermal = matches!(matter.applies, Applies::CoolDown | Applies::DrawOff);
    let asked = INPUTS.fields.iter().filter(|field| {
        field.applies == matter.applies || thermal && field.applies == Applies::ThermalStrain
    });
    let asked: Vec<&str> = asked.map(|field| field.path.as_str()).collect();
    format!("give {}", asked.join(", "))
}

/// Smallest margin whose name ends so; those of strain and of a seal's gap, which do not go by pressure, apart.
fn smallest(stage: &Stage, outcome: &Outcome<f64>, ending: &str) -> f64 {
    let slots = outcome_slots(outcome, 0.0);
    let margins = stage.form().margin_slots().filter(|slot| {
        let path = &RESULTS.fields[*slot].path;
        path.ends_with(ending) && !path.contains("strain") && !path.contains("seal_gap")
    });
    margins.fold(f64::INFINITY, |least, slot| least.min(slots[slot]))
}

/// The wall through its tests and on to the second time at MEOP in service.
fn endured(
    form: &TankForm,
    tank: &Tank<f64>,
    size: &Dimensions<f64>,
    pressures: &Pressures<f64>,
) -> Option<Endured> {
    let mut course = Vec::with_capacity(7);
    if tank.autofrettage_pressure > 0.0 {
        course.extend([tank.autofrettage_pressure, 0.0]);
    }
    course.extend([pressures.proof, 0.0, pressures.meop, 0.0, pressures.meop]);
    let wall = size.minimum_wall;
    let seam = seam_thickness(form, tank, wall, Closure::minimum_thickness);
    cycle(form, tank, size, [wall, seam], &course)
}

/// The wrap along the ascent.
fn hot_wall(
    stage: &Stage,
    tank: &Tank<f64>,
    thickness: f64,
) -> Result<(HotWallResult<f64>, Vec<HotWallRow<f64>>)> {
    let given = &tank.service.hot_wall;
    let history = stage.history()?;
    let wrap = &tank.overwrap;
    let fibre = wrap.fibre_volume_fraction;
    let density = fibre * wrap.fibre.density + (1.0 - fibre) * wrap.resin_density;
    let wall = WallLayer {
        thickness,
        heat_capacity: density * given.specific_heat * thickness,
        conductivity: given.thermal_conductivity,
    };
    let rows = |raised: f64| -> Vec<Heating> {
        let instants = history.iter().map(|moment| &moment.instant);
        instants
            .map(|instant| heating(instant, given.running_length, raised))
            .collect()
    };
    let heat = |rows: &[Heating]| {
        heat_up(
            rows,
            &wall,
            given.pad_temperature,
            given.glass_transition_temperature,
        )
    };
    let rows_as_computed = rows(1.0);
    let heated = heat(&rows_as_computed);
    let upper = heat(&rows(1.0 + HEATING_ERROR));
    let largest = |of: fn(&Heating) -> f64| rows_as_computed.iter().map(of).fold(0.0, f64::max);
    let limit = given.glass_transition_temperature;
    let result = HotWallResult {
        recovery_temperature: largest(|row| row.recovery_temperature),
        heat_transfer_coefficient: largest(|row| row.coefficient),
        mean_temperature: heated.peak[0],
        surface_temperature: heated.peak[1],
        upper_surface_temperature: upper.peak[1],
        temperature_margin: limit - upper.peak[1],
        time_above: upper.time_above,
        pad_margin: limit - given.pad_temperature,
    };
    let told = history.iter().zip(&rows_as_computed);
    let told = told.zip(&heated.temperatures);
    let flight = told
        .map(|((moment, heating), [mean, surface])| HotWallRow {
            time: moment.instant.time,
            altitude: moment.instant.altitude,
            mach: moment.instant.mach,
            recovery_temperature: heating.recovery_temperature,
            heat_transfer_coefficient: heating.coefficient,
            mean_temperature: *mean,
            surface_temperature: *surface,
        })
        .collect();
    Ok((result, flight))
}

/// What heats the wrap at one instant: the air's temperature by its speed of sound, its density by the dynamic
/// pressure. Air at rest heats nothing here.
fn heating(instant: &Instant<f64>, length: f64, raised: f64) -> Heating {
    let Instant {
        time, speed, mach, ..
    } = *instant;
    if mach <= 0.0 {
        return Heating {
            time,
            recovery_temperature: 0.0,
            coefficient: 0.0,
        };
    }
    let sound = speed / mach;
    let temperature = sound * sound / (HEAT_CAPACITY_RATIO * GAS_CONSTANT);
    let density = 2.0 * instant.dynamic_pressure / (speed * speed);
    Heating {
        time,
        recovery_temperature: recovery_temperature(temperature, mach),
        coefficient: raised * heat_transfer_coefficient(temperature, density, speed, length),
    }
}
