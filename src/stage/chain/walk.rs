//! The chain: one source for a single design, a block of designs and derivatives.

use super::charge::{fill, pressures, stated_load};
use super::fault::{Fault, Status};
use super::flight_loads::{flight_loads, mass_ahead};
use super::form::{AtmosphereModel, Form, Shell, TankSide};
use super::outcome::{Load, MassResult, Outcome, Pressures, ThrustResult};
use super::point::Point;
use super::results::{
    airframe_results, ascent_results, drag_results, estimate_results, no_tank, tank_margins,
    tank_results,
};
use super::schema::outcome_slots;
use super::vehicle::{Vehicle, assemble};
use crate::airframe::{BodyForm, Drag, DragTerms, build_drag, stated_drag};
use crate::ascent::{AirModel, Course, Flight, fly};
use crate::atmosphere::{self, OffStandard, STANDARD_GRAVITY};
use crate::motor::{Drive, drive};
use crate::numerics::Real;
use crate::quantity::Slots;
use crate::vessel::fitting::Flown;
use crate::vessel::{
    Closure, Dimensions, Tank, TankForm, burst_pressure, dimensions, seam_thickness,
};
use std::f64::consts::PI;

/// Smallest mass without propellant over mass of propellant that the step grid is meant for (own
/// choice; no vehicle comes near it).
const LIGHTEST: f64 = 1e-3;

/// Evaluates a stage: every scalar result and a status, without allocating.
///
/// The rooms are called in the order of the data: dimensions of the tank, load, pressures, body and
/// mass, thrust, drag, ascent, loads in flight, margins. A design with a fault has a status and no
/// results: its entries are NaN.
pub fn assess<R: Real>(form: &Form, point: &Point<R>) -> Outcome<R> {
    without_faulty(evaluate(form, point).outcome)
}

/// The outcome with nothing but a status where it has a fault.
pub(super) fn without_faulty<R: Real>(outcome: Outcome<R>) -> Outcome<R> {
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
pub(in crate::stage) struct Evaluation<R> {
    pub outcome: Outcome<R>,
    pub vehicle: Vehicle<R>,
}

/// Dimensions, load, pressures and vehicle: everything that the follow rules touch.
pub(in crate::stage) struct Settled<R> {
    pub size: Option<Dimensions<R>>,
    pub load: Load<R>,
    pub pressures: Pressures<R>,
    pub vehicle: Vehicle<R>,
    pub drive: Drive<R>,
    pub status: Status<R>,
}

/// What the tank is and holds: the first rooms of the chain, up to its pressures.
pub(super) struct Filled<R> {
    pub size: Option<Dimensions<R>>,
    pub load: Load<R>,
    pub pressures: Pressures<R>,
    pub status: Status<R>,
}

/// Runs the chain up to the tank's pressures.
pub(super) fn filled<R: Real>(form: &Form, point: &Point<R>) -> Filled<R> {
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
                ..Pressures::uniform(R::splat(0.0))
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
            bears_its_making(side, point, &size, &mut status);
            (Some(size), load, pressures)
        }
    };
    status.flag(!load.burned.above(0.0), Fault::NothingToBurn, load.burned);
    Filled {
        size,
        load,
        pressures,
        status,
    }
}

/// Flags a bulkhead whose bolts or rim cannot be made.
fn fits_its_bolts<R: Real>(closure: &Closure<R>, size: &Dimensions<R>, status: &mut Status<R>) {
    let bolts = &closure.bolts;
    let part = bolts.count - whole(bolts.count);
    let broken = part.above(0.0) | part.below(0.0);
    status.flag(broken, Fault::PartOfABolt, bolts.count);
    let between = bolts.ligament(size.mean_radius());
    status.flag(!between.above(0.0), Fault::HolesOverlap, between);
    let end = bolts.end_ligament();
    status.flag(!end.above(0.0), Fault::HolesAtEnd, end);
    let rim = bolts.rim_inside();
    status.flag(!rim.above(0.0), Fault::RimTooShort, rim);
    let beside_plate = bolts.rim_length - closure.thickness;
    status.flag(beside_plate.below(0.0), Fault::RimTooShort, beside_plate);
    let lacking = bolts.diameter - bolts.hole_diameter;
    status.flag(lacking.above(0.0), Fault::HolesTooNarrow, lacking);
    let beyond = bolts.rim_thickness - size.inner_diameter * 0.5;
    status.flag(beyond.above(0.0), Fault::RimTooThick, bolts.rim_thickness);
    let above = bolts.bearing_yield_strength - bolts.bearing_ultimate_strength;
    status.flag(above.above(0.0), Fault::StrengthsSwapped, above);
}

/// Flags fittings that are not whole or do not fit on the cylinder.
fn carries_its_fittings<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    status: &mut Status<R>,
) {
    for (_, fitting) in form.fittings(tank) {
        let part = fitting.fasteners - whole(fitting.fasteners);
        let broken = part.above(0.0) | part.below(0.0);
        status.flag(broken, Fault::PartOfAFastener, fitting.fasteners);
        let quarter = size.liner_outer_diameter * (PI / 4.0);
        for (measure, room) in [
            (fitting.length, size.cylinder_length),
            (fitting.width, quarter),
        ] {
            status.flag(room.lt(measure), Fault::PadTooLarge, measure);
        }
    }
}

/// Flags a wrap that cannot be wound as it is stated.
fn can_be_wound<R: Real>(
    form: &TankForm,
    tank: &Tank<R>,
    size: &Dimensions<R>,
    status: &mut Status<R>,
) {
    let given = &tank.overwrap.winding;
    let part = given.tows_per_band - whole(given.tows_per_band);
    let broken = part.above(0.0) | part.below(0.0);
    status.flag(broken, Fault::PartOfATow, given.tows_per_band);
    if form.has_helical() {
        let openings = [
            given.fore_polar_opening_radius,
            given.aft_polar_opening_radius,
        ];
        for opening in openings {
            let reach = opening + given.band_width * 0.5;
            let beyond = !reach.lt(size.liner_outer_diameter * 0.5);
            status.flag(beyond, Fault::NoRoomToTurn, reach);
        }
    }
}

/// The whole number next to a count.
fn whole<R: Real>(count: R) -> R {
    let [whole] = count.chart(|count| [(libm::round(count), 0.0)]);
    whole
}

/// Flags a tank whose bolts or fittings do not fit, whose wrap cannot be wound, that has no seam left, or that would not survive its autofrettage.
fn bears_its_making<R: Real>(
    side: &TankSide,
    point: &Point<R>,
    size: &Dimensions<R>,
    status: &mut Status<R>,
) {
    let (form, tank) = (&side.tank, &point.tank);
    for (_, closure) in form
        .closures(tank)
        .into_iter()
        .filter(|(kind, _)| kind.is_bolted())
    {
        fits_its_bolts(closure, size, status);
    }
    carries_its_fittings(form, tank, size, status);
    if form.winding && form.plies > 0 {
        can_be_wound(form, tank, size, status);
    }
    if form.has_girth_seam() {
        let throat = seam_thickness(form, tank, size.minimum_wall, Closure::minimum_thickness);
        let lacking = tank.liner.girth_seam.lack_of_penetration;
        let none = lacking.above(0.0) & !throat.above(0.0);
        status.flag(none, Fault::NoSeam, lacking);
    }
    let (reached, breaks) = (tank.autofrettage_pressure, burst_pressure(form, tank, size));
    let broken = reached.above(0.0) & !reached.lt(breaks);
    status.flag(broken, Fault::BreaksInAutofrettage, breaks);
}

/// Runs the chain up to thrust.
pub(in crate::stage) fn settle<R: Real>(form: &Form, point: &Point<R>) -> Settled<R> {
    let Filled {
        size,
        load,
        pressures,
        mut status,
    } = filled(form, point);
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
pub(in crate::stage) fn evaluate<R: Real>(form: &Form, point: &Point<R>) -> Evaluation<R> {
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
    let flight = flight(form, point, &vehicle, &load, drive, &drag);
    let trajectory = fly(&flight);
    let to_weight = drive.mean_thrust / (lift_off * STANDARD_GRAVITY);
    status.flag(trajectory.grounded, Fault::ThrustBelowWeight, to_weight);
    status.flag(
        trajectory.stopped,
        Fault::StopsInBurn,
        trajectory.burnout_speed,
    );
    status.flag(trajectory.lost, Fault::Lost, trajectory.burnout_speed);
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
        trajectory.max_compression,
        trajectory.downrange,
    ]
    .into_iter()
    .fold(lift_off.is_finite(), |all, value| all & value.is_finite());
    status.flag(!finite, Fault::NotFinite, R::splat(0.0));

    let (geometry, tank, flight_loads, margins) = match (&form.tank, &size) {
        (Some(side), Some(size)) => {
            let loads = flight_loads(form, side, point, size, &load, &pressures, &trajectory);
            let (geometry, tank) = tank_results(side, point, size, &vehicle.tank);
            let flown = Flown {
                acceleration: trajectory.max_axial_acceleration,
                dynamic_pressure: trajectory.max_dynamic_pressure,
            };
            let margins = tank_margins(side, point, size, &pressures, &loads, flown);
            (geometry, tank, loads, margins)
        }
        _ => no_tank(),
    };
    let [at_ignition, at_burnout] = vehicle.inertia();
    let outcome = Outcome {
        load,
        pressures,
        geometry: vehicle.complete(geometry),
        tank,
        mass: MassResult {
            basic: vehicle.basic,
            growth_allowance: vehicle.growth_allowance,
            growth_root_sum_square: vehicle.statement.growth_root_sum_square(),
            predicted: vehicle.predicted,
            lift_off,
            burnout: lift_off - load.burned,
            centre_of_gravity: vehicle.centre_of_gravity,
            burnout_centre_of_gravity: vehicle.burnout_centre_of_gravity,
            pitch_inertia: at_ignition.pitch,
            roll_inertia: at_ignition.roll,
            burnout_pitch_inertia: at_burnout.pitch,
            burnout_roll_inertia: at_burnout.roll,
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
        flight_loads,
        margins,
        status,
    };
    Evaluation { outcome, vehicle }
}

/// What the ascent needs to know of a vehicle on the pad.
pub(in crate::stage) fn flight<'a, R: Real>(
    form: &'a Form,
    point: &Point<R>,
    vehicle: &Vehicle<R>,
    load: &Load<R>,
    drive: Drive<R>,
    drag: &'a Drag<'a, R>,
) -> Flight<'a, R> {
    Flight {
        curve: &form.curve,
        drive,
        drag,
        air: air_model(form, point),
        site_altitude: point.site.altitude,
        course: form.course,
        elevation: point.rail.elevation,
        rail_length: if form.rail {
            point.rail.length
        } else {
            R::splat(0.0)
        },
        lift_off_mass: vehicle.predicted + load.propellant,
        mass_ahead: mass_ahead(vehicle, point.mass.added),
        grid: form.grid,
    }
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

pub(in crate::stage) fn columns<'a, R: Real>(
    form: &'a Form,
    point: &Point<R>,
    vehicle: &Vehicle<R>,
) -> Drag<'a, R> {
    match &form.shell {
        Shell::Drawn(body_form) => build_drag(&drag_terms(body_form, point, vehicle)),
        Shell::Stated(table) => stated_drag(table, &point.drag),
    }
}

/// The terms of the drag of a drawn body.
pub(in crate::stage) fn drag_terms<R: Real>(
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
