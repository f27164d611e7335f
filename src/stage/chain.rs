//! The chain: one source for a single design, a block of designs and derivatives.

use super::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
use super::loads::{flight_loads, mass_ahead};
use super::outcome::{
    AirframeResult, AscentResult, DragResult, Estimate, Fault, FlightLoads, Geometry, Load,
    MassResult, Outcome, Pressures, Status, TankResult, ThrustResult,
};
use super::point::{Point, Propellant};
use super::schema::outcome_slots;
use super::vehicle::{Vehicle, assemble};
use crate::airframe::{BodyForm, Drag, DragTerms, build_drag, stated_drag};
use crate::ascent::{AirModel, Course, Flight, Trajectory, closed_form, fly};
use crate::atmosphere::{self, OffStandard, STANDARD_GRAVITY};
use crate::fluid::nitrous_oxide;
use crate::motor::{Drive, drive};
use crate::numerics::Real;
use crate::quantity::Slots;
use crate::vessel::{
    Dimensions, Margins, VesselLoads, axial_line_load, dimensions, hoop_line_load, margins,
    membrane_response,
};
use std::f64::consts::PI;

/// Smallest mass without propellant over mass of propellant that the step grid is meant for (own
/// choice; no vehicle comes near it).
const LIGHTEST: f64 = 1e-3;

/// Evaluates a stage: every scalar result and a status, without allocating.
///
/// The rooms are called in the order of the data: load, pressures, geometry, mass, drag, thrust,
/// ascent, margins. A design with a fault has a status and no results: its entries are NaN.
pub fn assess<R: Real>(form: &Form, point: &Point<R>) -> Outcome<R> {
    let outcome = evaluate(form, point).outcome;
    let faulty = outcome.status.code.above(0.0);
    let nothing = R::splat(f64::NAN);
    let slots = outcome_slots(&outcome, nothing).map(|value| nothing.select(value, faulty));
    Outcome {
        status: outcome.status,
        ..Outcome::read(&slots, &mut 0)
    }
}

/// The outcome together with what an assessment of one design prints beside it.
#[derive(Debug)]
pub(super) struct Evaluation<R> {
    pub outcome: Outcome<R>,
    pub vehicle: Vehicle<R>,
}

/// Dimensions, load, pressures and vehicle: everything that the follow rules touch.
pub(super) struct Settled<R> {
    pub size: Option<Dimensions<R>>,
    pub load: Load<R>,
    pub pressures: Pressures<R>,
    pub vehicle: Vehicle<R>,
    pub drive: Drive<R>,
    pub status: Status<R>,
}

/// Runs the chain up to thrust.
pub(super) fn settle<R: Real>(form: &Form, point: &Point<R>) -> Settled<R> {
    let mut status = Status::sound();
    let site = air_model(form, point);
    let site_pressure = match &site {
        AirModel::Standard => atmosphere::standard(point.site.altitude).pressure,
        AirModel::OffStandardDay(_) => point.atmosphere.day.site_pressure,
        AirModel::Exponential(model) => {
            atmosphere::exponential(model, point.site.altitude).pressure
        }
    };
    let (size, load, pressures) = match &form.tank {
        None => (
            None,
            stated_load(&point.propellant),
            Pressures {
                site: site_pressure,
                ..zero_pressures()
            },
        ),
        Some(side) => {
            let size = dimensions(&side.tank, side.shape, &point.tank);
            let bore = size.inner_diameter;
            status.flag(!bore.above(0.0), Fault::NoBore, bore);
            let cylinder = size.cylinder_length;
            status.flag(cylinder.below(0.0), Fault::TankTooShort, cylinder);
            let load = fill(side, &point.propellant, size.volume);
            let misfit = load.ullage.below(0.0) | load.ullage.above(1.0);
            status.flag(misfit, Fault::LoadDoesNotFit, load.ullage);
            let pressures = pressures(side, point, &load, site_pressure);
            let meop = pressures.meop;
            status.flag(!meop.above(0.0), Fault::NoPressure, meop);
            (Some(size), load, pressures)
        }
    };
    status.flag(!load.burned.above(0.0), Fault::NothingToBurn, load.burned);
    let vehicle = assemble(form, point, size.as_ref(), &load, &mut status);
    status.flag(
        !(load.propellant * LIGHTEST).lt(vehicle.predicted),
        Fault::NoMass,
        vehicle.predicted,
    );
    let drive = drive(
        form.thrust_rule,
        form.thrust_basis,
        &form.curve,
        &point.motor,
        load.burned,
    );
    Settled {
        size,
        load,
        pressures,
        vehicle,
        drive,
        status,
    }
}

/// The whole chain.
pub(super) fn evaluate<R: Real>(form: &Form, point: &Point<R>) -> Evaluation<R> {
    let Settled {
        size,
        load,
        pressures,
        vehicle,
        drive,
        mut status,
    } = settle(form, point);
    let drag = columns(form, point, &vehicle);
    let lift_off = vehicle.predicted + load.propellant;
    let air = air_model(form, point);
    let flight = Flight {
        curve: &form.curve,
        drive,
        drag: &drag,
        air,
        site_altitude: point.site.altitude,
        course: form.course,
        elevation: point.rail.elevation,
        rail_length: if form.rail {
            point.rail.length
        } else {
            R::splat(0.0)
        },
        lift_off_mass: lift_off,
        mass_ahead: mass_ahead(&vehicle),
        grid: form.grid,
    };
    let trajectory = fly(&flight);
    let to_weight = drive.mean_thrust / (lift_off * STANDARD_GRAVITY);
    status.flag(trajectory.grounded, Fault::ThrustBelowWeight, to_weight);
    status.flag(
        trajectory.stopped,
        Fault::StopsInBurn,
        trajectory.burnout_speed,
    );
    if form.course == Course::Inclined {
        status.flag(trajectory.held, Fault::HeldByRail, trajectory.burnout_speed);
    }
    let finite = [
        trajectory.apogee,
        trajectory.apogee_time,
        trajectory.burnout_speed,
        trajectory.rail_exit_speed,
        trajectory.max_dynamic_pressure,
        trajectory.max_mach,
        trajectory.max_axial_acceleration,
    ]
    .into_iter()
    .fold(lift_off.is_finite(), |all, value| all & value.is_finite());
    status.flag(!finite, Fault::NotFinite, R::splat(0.0));

    let (geometry, tank, loads, margins) = match (&form.tank, &size) {
        (Some(side), Some(size)) => {
            let loads = flight_loads(form, side, point, size, &load, &pressures, &trajectory);
            let (geometry, tank) = tank_results(side, point, size, &vehicle);
            let margins = tank_margins(side, point, size, &pressures, &loads);
            (geometry, tank, loads, margins)
        }
        _ => no_tank(),
    };
    let outcome = Outcome {
        load,
        pressures,
        geometry: vehicle.complete(geometry),
        tank,
        mass: MassResult {
            basic: vehicle.basic,
            growth_allowance: vehicle.growth_allowance,
            predicted: vehicle.predicted,
            lift_off,
            burnout: lift_off - load.burned,
            centre_of_gravity: vehicle.centre_of_gravity,
            burnout_centre_of_gravity: vehicle.burnout_centre_of_gravity,
        },
        airframe: airframe_results(&vehicle, &drag),
        drag: drag_results(&drag, &flight),
        thrust: ThrustResult {
            mean: drive.mean_thrust,
            burn_time: drive.burn_time,
            impulse: drive.mean_thrust * drive.burn_time,
            to_weight,
        },
        ascent: ascent_results(&trajectory),
        estimate: estimate_results(&flight),
        loads,
        margins,
        status,
    };
    Evaluation { outcome, vehicle }
}

fn air_model<R: Real>(form: &Form, point: &Point<R>) -> AirModel<R> {
    match form.atmosphere {
        AtmosphereModel::Standard => AirModel::Standard,
        AtmosphereModel::OffStandardDay => {
            let day = &point.atmosphere.day;
            AirModel::OffStandardDay(OffStandard::new(
                point.site.altitude,
                day.site_temperature,
                day.site_pressure,
            ))
        }
        AtmosphereModel::Exponential => AirModel::Exponential(point.atmosphere.exponential),
    }
}

fn stated_load<R: Real>(propellant: &Propellant<R>) -> Load<R> {
    let zero = R::splat(0.0);
    let residual = propellant.mass * propellant.residual;
    Load {
        oxidiser: zero,
        vapour: zero,
        fuel: zero,
        oxidiser_residual: zero,
        fuel_residual: zero,
        ullage: zero,
        fill_density: zero,
        propellant: propellant.mass,
        burned: propellant.mass - residual,
        residual,
    }
}

/// Oxidiser and fuel on board: liquid and saturated vapour share the tank at the fill temperature,
/// `m = V ((1 - u) rho_liquid + u rho_vapour)`.
fn fill<R: Real>(side: &TankSide, propellant: &Propellant<R>, volume: R) -> Load<R> {
    let saturated = nitrous_oxide::saturation(propellant.fill_temperature);
    let (liquid, vapour) = (saturated.liquid_density, saturated.vapour_density);
    let (oxidiser, ullage) = match side.load {
        LoadRule::Ullage => {
            let density = liquid + (vapour - liquid) * propellant.ullage;
            (volume * density, propellant.ullage)
        }
        LoadRule::Mass => {
            let density = propellant.oxidiser_mass / volume;
            (
                propellant.oxidiser_mass,
                (liquid - density) / (liquid - vapour),
            )
        }
    };
    let oxidiser_burned = oxidiser * (-propellant.oxidiser_residual + 1.0);
    let fuel_burned = oxidiser_burned / propellant.oxidiser_to_fuel_ratio;
    let fuel = fuel_burned / (-propellant.fuel_residual + 1.0);
    let burned = oxidiser_burned + fuel_burned;
    Load {
        oxidiser,
        vapour: volume * vapour * ullage,
        fuel,
        ullage,
        fill_density: oxidiser / volume,
        propellant: oxidiser + fuel,
        oxidiser_residual: oxidiser - oxidiser_burned,
        fuel_residual: fuel - fuel_burned,
        burned,
        residual: oxidiser + fuel - burned,
    }
}

fn zero_pressures<R: Real>() -> Pressures<R> {
    let zero = R::splat(0.0);
    Pressures {
        site: zero,
        fill: zero,
        meop_stated: zero,
        meop_vented: zero,
        meop_closed: zero,
        meop: zero,
        proof: zero,
        burst: zero,
    }
}

/// MEOP by each basis, gauge. A closed tank is taken at the warmer of soak and fill temperature; it warms at constant mean density: on the saturation line
/// while liquid and vapour share it, above the line once it is full of liquid or the fluid is
/// supercritical.
fn pressures<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    load: &Load<R>,
    site_pressure: R,
) -> Pressures<R> {
    let given = &point.pressure;
    let soak = given
        .soak_temperature
        .max(point.propellant.fill_temperature);
    let saturated = nitrous_oxide::saturation(soak);
    let density = load.fill_density;
    let both_phases = soak.below(nitrous_oxide::CRITICAL_TEMPERATURE)
        & saturated.vapour_density.lt(density)
        & density.lt(saturated.liquid_density);
    let single_phase = nitrous_oxide::pressure(soak, density);
    let closed = saturated.pressure.select(single_phase, both_phases) - site_pressure;
    let vented = given.relief_setting * (given.relief_accumulation + 1.0);
    let meop = match side.basis {
        PressureBasis::Stated => given.stated,
        PressureBasis::Vented => vented,
        PressureBasis::Closed => closed,
    };
    Pressures {
        site: site_pressure,
        fill: nitrous_oxide::saturation(point.propellant.fill_temperature).pressure,
        meop_stated: given.stated,
        meop_vented: vented,
        meop_closed: closed,
        meop,
        proof: meop * point.rule_set.proof_factor,
        burst: meop * point.rule_set.burst_factor,
    }
}

fn columns<'a, R: Real>(form: &'a Form, point: &Point<R>, vehicle: &Vehicle<R>) -> Drag<'a, R> {
    match &form.shell {
        Shell::Drawn(body_form) => build_drag(&drag_terms(body_form, point, vehicle)),
        Shell::Stated(table) => stated_drag(table, &point.drag),
    }
}

/// The terms of the drag of a drawn body.
pub(super) fn drag_terms<R: Real>(
    form: &BodyForm,
    point: &Point<R>,
    vehicle: &Vehicle<R>,
) -> DragTerms<R> {
    let Some(body) = &vehicle.body else {
        unreachable!("a drawn shell always has a body")
    };
    DragTerms::new(
        form,
        body,
        &vehicle.fin,
        point.fins.thickness,
        point.skin.sand_grain_roughness,
        point.motor.exit_area,
        &point.drag,
    )
}

fn tank_results<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    vehicle: &Vehicle<R>,
) -> (Geometry<R>, TankResult<R>) {
    let zero = R::splat(0.0);
    let geometry = Geometry {
        tank_outer_diameter: size.outer_diameter,
        liner_outer_diameter: size.liner_outer_diameter,
        liner_inner_diameter: size.inner_diameter,
        liner_wall: size.wall,
        liner_minimum_wall: size.minimum_wall,
        wrap_thickness: size.wrap,
        tank_volume: size.volume,
        tank_length: size.length,
        cylinder_length: size.cylinder_length,
        tank_fineness_ratio: size.length / size.outer_diameter,
        nose_length: zero,
        fin_root_chord: zero,
        fin_span: zero,
    };
    let wall = size.minimum_wall;
    let (one, inner) = (R::splat(1.0), size.inner_diameter * 0.5);
    let mean = inner + wall * 0.5;
    let (axial, hoop) = (axial_line_load(one, inner, mean), hoop_line_load(one, mean));
    let unit = membrane_response(&side.tank, &point.tank, wall, axial, hoop);
    let parts = &vehicle.tank;
    let tank = TankResult {
        mass: parts.total(),
        liner_mass: parts.liner,
        closure_mass: parts.fore_closure + parts.aft_closure,
        fibre_mass: parts.fibre,
        resin_mass: parts.resin,
        liner_hoop_share: unit.liner_hoop * wall / hoop,
        liner_axial_share: unit.liner_axial * wall / axial,
    };
    (geometry, tank)
}

fn tank_margins<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    pressures: &Pressures<R>,
    loads: &FlightLoads<R>,
) -> Margins<R> {
    let loads = VesselLoads {
        proof: pressures.proof,
        burst: pressures.burst,
        meop: pressures.meop,
        head: loads.acceleration_head,
        compression: loads.thrust_compression,
        // A rule set asks that nothing yields at proof; what it asks of the stand holds in flight.
        yield_factor: point.rule_set.proof_factor,
        burst_factor: point.rule_set.burst_factor,
    };
    margins(&side.tank, &point.tank, size, &loads)
}

fn no_tank<R: Real>() -> (Geometry<R>, TankResult<R>, FlightLoads<R>, Margins<R>) {
    let zeros = [R::splat(0.0); 16];
    (
        Geometry::read(&zeros, &mut 0),
        TankResult::read(&zeros, &mut 0),
        FlightLoads::read(&zeros, &mut 0),
        Margins::read(&zeros, &mut 0),
    )
}

fn airframe_results<R: Real>(vehicle: &Vehicle<R>, drag: &Drag<'_, R>) -> AirframeResult<R> {
    let zero = R::splat(0.0);
    let drawn =
        |value: fn(&crate::airframe::Body<R>) -> R| vehicle.body.as_ref().map_or(zero, value);
    AirframeResult {
        length: drawn(|body| body.length),
        frontal_diameter: (drag.reference_area * (4.0 / PI)).sqrt(),
        frontal_area: drag.reference_area,
        wetted_area: vehicle.wetted_area,
        fineness_ratio: drawn(|body| body.length / body.diameter),
        centre_of_pressure: vehicle.centre_of_pressure,
        static_margin: vehicle.static_margin,
        burnout_static_margin: vehicle.burnout_static_margin,
    }
}

fn drag_results<R: Real>(drag: &Drag<'_, R>, flight: &Flight<'_, R>) -> DragResult<R> {
    let unit_reynolds = flight.air_at(flight.site_altitude).unit_reynolds;
    let at = |mach: f64| drag.coefficient(R::splat(mach), unit_reynolds, R::splat(0.0));
    DragResult {
        subsonic: at(0.5),
        transonic: at(1.1),
        supersonic: at(2.0),
    }
}

fn ascent_results<R: Real>(trajectory: &Trajectory<R>) -> AscentResult<R> {
    AscentResult {
        lift_off_time: trajectory.lift_off_time,
        rail_exit_speed: trajectory.rail_exit_speed,
        burnout_altitude: trajectory.burnout_altitude,
        burnout_speed: trajectory.burnout_speed,
        apogee: trajectory.apogee,
        apogee_time: trajectory.apogee_time,
        max_dynamic_pressure: trajectory.max_dynamic_pressure,
        max_dynamic_pressure_altitude: trajectory.max_dynamic_pressure_altitude,
        max_mach: trajectory.max_mach,
        max_axial_acceleration: trajectory.max_axial_acceleration,
        apogee_speed: trajectory.apogee_speed,
        downrange: trajectory.downrange,
    }
}

fn estimate_results<R: Real>(flight: &Flight<'_, R>) -> Estimate<R> {
    let quick = closed_form::estimate(flight);
    Estimate {
        burnout_speed: quick.burnout_speed,
        burnout_altitude: quick.burnout_altitude,
        apogee: quick.apogee,
    }
}
