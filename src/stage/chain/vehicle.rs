//! From tank and load to the whole vehicle: body, mass statement, fins.

use super::fault::{Fault, Status};
use super::form::Form;
use super::mass_lines::{
    Aboard, PropellantLines, TankParts, list_airframe, list_tank, moment, station, tank_parts,
};
use super::outcome::{Geometry, Load};
use super::point::Point;
use crate::airframe::{
    Balance, Body, BodyForm, FinRule, Planform, body, centre_of_pressure, planform, size_fins,
};
use crate::mass::{Group, Inertia, Spread, Statement, inertia};
use crate::numerics::Real;
use crate::quantity::Choice;
use crate::vessel::Dimensions;
use std::f64::consts::PI;

/// The vehicle on the pad.
#[derive(Debug, Clone)]
pub(in crate::stage) struct Vehicle<R> {
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

    /// Moments of inertia about the centre of gravity, at ignition and at burnout. A mass added for a
    /// what-if sits there and adds none.
    pub fn inertia(&self) -> [Inertia<R>; 2] {
        let lines = self.statement.lines();
        [
            inertia(
                &[lines, &self.propellant.at_ignition],
                self.centre_of_gravity,
            ),
            inertia(
                &[lines, &self.propellant.at_burnout],
                self.burnout_centre_of_gravity,
            ),
        ]
    }
}

impl Vehicle<f64> {
    /// What has the largest diameter and so sets the frontal area.
    pub fn frontal_governed_by(&self, form: &Form, point: &Point<f64>) -> &'static str {
        let Some(body) = &self.body else {
            return "stated reference diameter";
        };
        if body.frontal_diameter > body.diameter {
            if point.motor.case_diameter >= body.frontal_diameter {
                "motor case"
            } else {
                "nozzle exit"
            }
        } else if form.skin_over_tank() {
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
    list_items(&mut statement, form, point, drawn.as_ref());

    let aboard = drawn.as_ref().map(|body| Aboard {
        body,
        bore: size.map_or(zero, |size| size.inner_diameter) * 0.5,
        case: point.motor.case_diameter * 0.5,
    });
    let propellant = PropellantLines::place(load, aboard.as_ref());
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

/// Lists the user's items, each a point on the axis.
fn list_items<R: Real>(
    statement: &mut Statement<R>,
    form: &Form,
    point: &Point<R>,
    body: Option<&Body<R>>,
) {
    for (item, place) in point.mass.item[..form.items].iter().zip(&form.places) {
        let station = body.map_or(R::splat(0.0), |body| station(*place, body, item.station));
        statement.push(
            place.word(),
            Group::Item,
            item.mass,
            item.growth_allowance,
            station,
            Spread::point(),
        );
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
        Spread {
            shape: "thin fins around the body",
            along: fin.variance_along(),
            across: fin.mean_squared_radius(body.frontal_diameter * 0.5),
        },
    );
    fin
}
