//! From tank and load to the whole vehicle: body, mass statement, fins.

use super::form::Form;
use super::outcome::{Fault, Geometry, Load, Status};
use super::point::Point;
use crate::airframe::{
    Balance, Body, BodyForm, FinRule, Planform, body, centre_of_pressure, planform, size_fins,
};
use crate::mass::{Group, Line, Place, Statement};
use crate::numerics::Real;
use crate::quantity::Choice;
use crate::vessel::{Dimensions, TankForm, closure_depth, closure_metal_volume, fibre_volume};
use std::f64::consts::PI;

/// Basic masses of the tank's parts, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct TankParts<R> {
    pub liner: R,
    pub fore_closure: R,
    pub aft_closure: R,
    pub fibre: R,
    pub resin: R,
    pub fittings: R,
}

impl<R: Real> TankParts<R> {
    fn none() -> Self {
        let zero = R::splat(0.0);
        Self {
            liner: zero,
            fore_closure: zero,
            aft_closure: zero,
            fibre: zero,
            resin: zero,
            fittings: zero,
        }
    }

    pub fn total(&self) -> R {
        self.liner + self.fore_closure + self.aft_closure + self.fibre + self.resin + self.fittings
    }
}

/// What the tanks and the motor hold: liquid, vapour and fuel at ignition, residuals at burnout.
#[derive(Debug, Clone, Copy)]
pub(super) struct PropellantLines<R> {
    pub at_ignition: [Line<R>; 3],
    pub at_burnout: [Line<R>; 2],
}

impl<R: Real> PropellantLines<R> {
    /// At ignition the liquid stands at the aft end of the tank, the vapour above it; at burnout what
    /// is left of the oxidiser fills the tank. Fuel sits in the middle of the motor section.
    fn place(load: &Load<R>, body: Option<&Body<R>>) -> Self {
        let zero = R::splat(0.0);
        let station = |place: &dyn Fn(&Body<R>) -> R| body.map_or(zero, place);
        let length = station(&|body| body.motor_station - body.tank_station);
        let vapour = station(&|body| body.tank_station) + length * load.ullage * 0.5;
        let liquid = station(&|body| body.motor_station) - length * (-load.ullage + 1.0) * 0.5;
        let tank = station(&|body| (body.tank_station + body.motor_station) * 0.5);
        let motor = station(&|body| (body.motor_station + body.length) * 0.5);
        let line = |name, basic, station| Line {
            name,
            group: Group::Propellant,
            basic,
            growth: zero,
            station,
        };
        Self {
            at_ignition: [
                line("oxidiser, liquid", load.oxidiser - load.vapour, liquid),
                line("oxidiser, vapour", load.vapour, vapour),
                line("fuel", load.fuel, motor),
            ],
            at_burnout: [
                line("oxidiser residual", load.oxidiser_residual, tank),
                line("fuel residual", load.fuel_residual, motor),
            ],
        }
    }
}

fn moment<R: Real>(lines: &[Line<R>]) -> R {
    lines
        .iter()
        .fold(R::splat(0.0), |sum, line| sum + line.basic * line.station)
}

/// The vehicle on the pad.
#[derive(Debug, Clone)]
pub(super) struct Vehicle<R> {
    pub body: Option<Body<R>>,
    pub fin: Planform<R>,
    pub tank: TankParts<R>,
    pub statement: Statement<R>,
    pub basic: R,
    pub growth_allowance: R,
    /// Without propellant, what-if masses included.
    pub predicted: R,
    pub propellant: PropellantLines<R>,
    pub centre_of_gravity: R,
    pub burnout_centre_of_gravity: R,
    pub centre_of_pressure: R,
    pub static_margin: R,
    pub burnout_static_margin: R,
    pub wetted_area: R,
}

impl<R: Real> Vehicle<R> {
    /// Adds the dimensions of nose and fins to those of the tank.
    pub fn complete(&self, geometry: Geometry<R>) -> Geometry<R> {
        Geometry {
            nose_length: self
                .body
                .as_ref()
                .map_or(R::splat(0.0), |body| body.nose_length),
            fin_root_chord: self.fin.root_chord,
            fin_span: self.fin.span,
            ..geometry
        }
    }
}

impl Vehicle<f64> {
    /// What has the largest diameter and so sets the frontal area.
    pub fn frontal_governed_by(&self, form: &Form, point: &Point<f64>) -> &'static str {
        let (Some(body), Some(body_form)) = (&self.body, form.body()) else {
            return "stated reference diameter";
        };
        if body.frontal_diameter > body.diameter {
            if point.motor.case_diameter >= body.frontal_diameter {
                "motor case"
            } else {
                "nozzle exit"
            }
        } else if body_form.skin_rule == crate::airframe::SkinRule::OverTank {
            "skin over the tank"
        } else {
            "tank"
        }
    }
}

/// Assembles the vehicle; fins under a static-margin rule are sized here, with their own mass.
pub(super) fn assemble<R: Real>(
    form: &Form,
    point: &Point<R>,
    size: Option<&Dimensions<R>>,
    load: &Load<R>,
    status: &mut Status<R>,
) -> Vehicle<R> {
    let zero = R::splat(0.0);
    let drawn = form.body().map(|body_form| {
        let (diameter, length) =
            size.map_or((zero, zero), |size| (size.outer_diameter, size.length));
        let nozzle = (point.motor.exit_area * (4.0 / PI)).sqrt();
        body(
            body_form,
            &point.nose,
            [&point.payload_bay, &point.recovery_bay],
            &point.skin,
            diameter,
            length,
            point.motor.length,
            [point.motor.case_diameter, nozzle],
        )
    });
    if let Some(body) = &drawn {
        let bore = body.diameter - point.skin.thickness * 2.0;
        status.flag(!bore.above(0.0), Fault::SkinFillsBody, bore);
    }
    let mut statement = Statement::new();
    let mut tank = TankParts::none();
    if let (Some(side), Some(size)) = (&form.tank, size) {
        tank = tank_parts(&side.tank, point, size);
        list_tank(
            &mut statement,
            &side.tank,
            side.stated_mass,
            point,
            size,
            &tank,
            drawn.as_ref(),
        );
    }
    if let Some(body) = &drawn {
        list_airframe(&mut statement, form, point, body, size);
    }
    for (item, place) in point.mass.item[..form.items].iter().zip(&form.places) {
        let station = drawn
            .as_ref()
            .map_or(zero, |body| station(*place, body, item.station));
        statement.push(
            place.word(),
            Group::Item,
            item.mass,
            item.growth_allowance,
            station,
        );
    }

    let propellant = PropellantLines::place(load, drawn.as_ref());
    let mut fin = planform(&point.fins, zero);
    let mut centre = zero;
    if let (Some(body), Some(body_form)) = (&drawn, form.body()) {
        let rest = Balance {
            mass: statement.basic() + statement.growth() + load.propellant,
            moment: statement.moment() + moment(&propellant.at_ignition),
            fin_growth: point.mass.growth.airframe + 1.0,
        };
        let count = body_form.fins.count;
        if count > 0 {
            fin = attach_fins(body_form, point, body, &rest, &mut statement, status);
        }
        centre = centre_of_pressure(body_form.nose, body, count, &fin);
    }

    let (basic, growth_allowance) = (statement.basic(), statement.growth());
    let listed = basic + growth_allowance;
    let centre_of_gravity =
        (statement.moment() + moment(&propellant.at_ignition)) / (listed + load.propellant);
    let burnout_centre_of_gravity =
        (statement.moment() + moment(&propellant.at_burnout)) / (listed + load.residual);
    let margin = |centre_of_gravity: R| {
        drawn
            .as_ref()
            .map_or(zero, |body| (centre - centre_of_gravity) / body.diameter)
    };
    let static_margins = [centre_of_gravity, burnout_centre_of_gravity].map(margin);
    let count = form.body().map_or(0, |body| body.fins.count) as f64;
    Vehicle {
        fin,
        tank,
        statement,
        basic,
        growth_allowance,
        predicted: listed + point.mass.added,
        propellant,
        centre_of_gravity,
        burnout_centre_of_gravity,
        centre_of_pressure: centre,
        static_margin: static_margins[0],
        burnout_static_margin: static_margins[1],
        wetted_area: drawn
            .as_ref()
            .map_or(zero, |body| body.wetted_area + fin.area * (2.0 * count)),
        body: drawn,
    }
}

/// Sizes the fins by their follow rule and lists them.
fn attach_fins<R: Real>(
    form: &BodyForm,
    point: &Point<R>,
    body: &Body<R>,
    rest: &Balance<R>,
    statement: &mut Statement<R>,
    status: &mut Status<R>,
) -> Planform<R> {
    let count = form.fins.count;
    let root_chord = match form.fins.rule {
        FinRule::Size => point.fins.root_chord,
        FinRule::Calibres => point.fins.root_chord_calibres * body.diameter,
        FinRule::StaticMargin => {
            let (chord, impossible) = size_fins(form.nose, body, count, &point.fins, rest);
            status.flag(impossible, Fault::NoFins, point.fins.static_margin);
            chord
        }
    };
    let fin = planform(&point.fins, root_chord);
    statement.push(
        "fins",
        Group::Airframe,
        fin.mass * (count as f64),
        point.mass.growth.airframe,
        body.length - fin.root_chord + fin.centroid,
    );
    fin
}

fn tank_parts<R: Real>(form: &TankForm, point: &Point<R>, size: &Dimensions<R>) -> TankParts<R> {
    let tank = &point.tank;
    let metal = tank.liner.metal.density;
    let mean = size.inner_diameter + size.wall;
    let closure = |kind, given| closure_metal_volume(kind, given, size.inner_diameter) * metal;
    let (fibre, resin) = if form.plies == 0 {
        (R::splat(0.0), R::splat(0.0))
    } else {
        let wrap = &tank.overwrap;
        let volume = fibre_volume(
            form,
            wrap,
            size.liner_outer_diameter * 0.5,
            size.cylinder_length,
        );
        let share = wrap.fibre_volume_fraction;
        (
            volume * wrap.fibre.density,
            volume * (-share + 1.0) / share * wrap.resin_density,
        )
    };
    TankParts {
        liner: mean * size.wall * size.cylinder_length * metal * PI,
        fore_closure: closure(form.fore_closure, &tank.fore_closure),
        aft_closure: closure(form.aft_closure, &tank.aft_closure),
        fibre,
        resin,
        fittings: tank.fittings_mass,
    }
}

fn list_tank<R: Real>(
    statement: &mut Statement<R>,
    side: &TankForm,
    stated: bool,
    point: &Point<R>,
    size: &Dimensions<R>,
    parts: &TankParts<R>,
    body: Option<&Body<R>>,
) {
    let start = body.map_or(R::splat(0.0), |body| body.tank_station);
    let middle = start + size.length * 0.5;
    if stated {
        let none = R::splat(0.0);
        statement.push(
            "tank, stated",
            Group::Tank,
            point.mass.stated.tank,
            none,
            middle,
        );
        return;
    }
    let growth = point.mass.growth.tank;
    let mut line = |name, mass, station| statement.push(name, Group::Tank, mass, growth, station);
    line("liner cylinder", parts.liner, middle);
    let [fore, aft] = [
        (side.fore_closure, &point.tank.fore_closure),
        (side.aft_closure, &point.tank.aft_closure),
    ]
    .map(|(kind, closure)| closure_depth(kind, closure, size.inner_diameter) * 0.5);
    line("fore closure", parts.fore_closure, start + fore);
    line("aft closure", parts.aft_closure, start + size.length - aft);
    line("overwrap fibre", parts.fibre, middle);
    line("overwrap resin", parts.resin, middle);
    line("tank fittings", parts.fittings, middle);
}

fn list_airframe<R: Real>(
    statement: &mut Statement<R>,
    form: &Form,
    point: &Point<R>,
    body: &Body<R>,
    size: Option<&Dimensions<R>>,
) {
    let skin = &point.skin;
    let areal = skin.thickness * skin.density;
    let girth = (body.diameter - skin.thickness) * PI;
    let growth = point.mass.growth.airframe;
    let after_payload = body.nose_length + body.payload_bay_length;
    let mut line = |name, area, station| {
        statement.push(name, Group::Airframe, area * areal, growth, station);
    };
    line("nose skin", body.nose_area, body.nose_centroid);
    line(
        "payload bay skin",
        girth * body.payload_bay_length,
        body.nose_length + body.payload_bay_length * 0.5,
    );
    line(
        "recovery bay skin",
        girth * body.recovery_bay_length,
        after_payload + body.recovery_bay_length * 0.5,
    );
    let over_tank = form
        .body()
        .is_some_and(|form| form.skin_rule == crate::airframe::SkinRule::OverTank);
    if let (true, Some(size)) = (over_tank, size) {
        line(
            "skin over the tank",
            girth * size.length,
            body.tank_station + size.length * 0.5,
        );
    }
    // A motor case slimmer than the body runs inside the skin.
    let slimmer = point.motor.case_diameter.lt(body.diameter);
    line(
        "skin over the motor",
        (girth * (body.length - body.motor_station)).select(R::splat(0.0), slimmer),
        (body.motor_station + body.length) * 0.5,
    );
    statement.push(
        "motor",
        Group::Motor,
        point.motor.mass,
        point.mass.growth.motor,
        (body.motor_station + body.length) * 0.5,
    );
}

fn station<R: Real>(place: Place, body: &Body<R>, own: R) -> R {
    let after_payload = body.nose_length + body.payload_bay_length;
    match place {
        Place::Nose => body.nose_length * 0.5,
        Place::PayloadBay => (body.nose_length + after_payload) * 0.5,
        Place::RecoveryBay => (after_payload + body.tank_station) * 0.5,
        Place::Tank => (body.tank_station + body.motor_station) * 0.5,
        Place::Motor => (body.motor_station + body.length) * 0.5,
        Place::Station => own,
    }
}
