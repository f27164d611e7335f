//! The lines of the mass statement: tank, airframe, propellant, and where each sits.

use super::form::Form;
use super::outcome::Load;
use super::point::Point;
use crate::airframe::{Body, nose_skin_spread};
use crate::mass::{Group, Line, Place, Spread, Statement};
use crate::numerics::Real;
use crate::vessel::{
    Closure, ClosureKind, Dimensions, TankForm, bolt_mass, closure_depth, closure_metal_volume,
    fibre_volume, overhang, tube_length,
};
use std::f64::consts::PI;

/// Basic masses of the tank's parts, kg.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(in crate::stage) struct TankParts<R> {
    pub liner: R,
    pub fore_closure: R,
    pub aft_closure: R,
    pub fore_bolts: R,
    pub aft_bolts: R,
    pub fibre: R,
    pub resin: R,
    pub fittings: R,
}

impl<R: Real> TankParts<R> {
    pub fn none() -> Self {
        let zero = R::splat(0.0);
        Self {
            liner: zero,
            fore_closure: zero,
            aft_closure: zero,
            fore_bolts: zero,
            aft_bolts: zero,
            fibre: zero,
            resin: zero,
            fittings: zero,
        }
    }

    pub fn total(&self) -> R {
        let closures = [self.fore_closure, self.aft_closure];
        let rest = [self.fibre, self.resin, self.fittings];
        let bolts = [self.fore_bolts, self.aft_bolts];
        let parts = closures.into_iter().chain(rest).chain(bolts);
        parts.fold(self.liner, |sum, part| sum + part)
    }
}

/// What the tanks and the motor hold: liquid, vapour and fuel at ignition, residuals at burnout.
#[derive(Debug, Clone, Copy)]
pub(in crate::stage) struct PropellantLines<R> {
    pub at_ignition: [Line<R>; 3],
    pub at_burnout: [Line<R>; 2],
}

/// What propellant fills: the vehicle's sections, the radius of the tank's bore and of the motor's case, m.
pub(super) struct Aboard<'a, R> {
    pub body: &'a Body<R>,
    pub bore: R,
    pub case: R,
}

impl<R: Real> PropellantLines<R> {
    /// At ignition the liquid stands at the aft end of the tank, the vapour above it; at burnout what
    /// is left of the oxidiser fills the tank. Fuel sits in the middle of the motor section. Each is a
    /// solid cylinder that moves as if it were rigid: no slosh, no port in the fuel.
    pub(super) fn place(load: &Load<R>, aboard: Option<&Aboard<'_, R>>) -> Self {
        let zero = R::splat(0.0);
        let station = |place: &dyn Fn(&Body<R>) -> R| aboard.map_or(zero, |on| place(on.body));
        let spread = |column: &dyn Fn(&Aboard<'_, R>) -> [R; 2]| {
            aboard.map_or(Spread::point(), |on| {
                let [length, radius] = column(on);
                Spread::solid_cylinder(length, radius)
            })
        };
        let length = station(&|body| body.motor_station - body.tank_station);
        let vapour = station(&|body| body.tank_station) + length * load.ullage * 0.5;
        let liquid = station(&|body| body.motor_station) - length * (-load.ullage + 1.0) * 0.5;
        let tank = station(&|body| (body.tank_station + body.motor_station) * 0.5);
        let motor = station(&|body| (body.motor_station + body.length) * 0.5);
        let filled = |share: R| spread(&|on| [length * share, on.bore]);
        let in_motor = spread(&|on| [on.body.length - on.body.motor_station, on.case]);
        let in_tank = filled(R::splat(1.0));
        let line = |name, basic, station, spread| Line {
            name,
            group: Group::Propellant,
            basic,
            growth_share: zero,
            station,
            spread,
        };
        Self {
            at_ignition: [
                line(
                    "oxidiser, liquid",
                    load.oxidiser - load.vapour,
                    liquid,
                    filled(-load.ullage + 1.0),
                ),
                line("oxidiser, vapour", load.vapour, vapour, filled(load.ullage)),
                line("fuel", load.fuel, motor, in_motor),
            ],
            at_burnout: [
                line("oxidiser residual", load.oxidiser_residual, tank, in_tank),
                line("fuel residual", load.fuel_residual, motor, in_motor),
            ],
        }
    }
}

pub(super) fn moment<R: Real>(lines: &[Line<R>]) -> R {
    lines
        .iter()
        .fold(R::splat(0.0), |sum, line| sum + line.basic * line.station)
}

pub(super) fn tank_parts<R: Real>(
    form: &TankForm,
    point: &Point<R>,
    size: &Dimensions<R>,
) -> TankParts<R> {
    let tank = &point.tank;
    let metal = tank.liner.metal.density;
    let mean = size.inner_diameter + size.wall;
    let tube = tube_length(form, tank, size);
    let closure = |kind, given| closure_metal_volume(kind, given, size.inner_diameter) * metal;
    let (fibre, resin) = if form.plies == 0 {
        (R::splat(0.0), R::splat(0.0))
    } else {
        let wrap = &tank.overwrap;
        let volume = fibre_volume(form, tank, size.liner_outer_diameter * 0.5, tube);
        let share = wrap.fibre_volume_fraction;
        (
            volume * wrap.fibre.density,
            volume * (-share + 1.0) / share * wrap.resin_density,
        )
    };
    TankParts {
        liner: mean * size.wall * tube * metal * PI,
        fore_closure: closure(form.fore_closure, &tank.fore_closure),
        aft_closure: closure(form.aft_closure, &tank.aft_closure),
        fore_bolts: bolt_mass(form.fore_closure, &tank.fore_closure),
        aft_bolts: bolt_mass(form.aft_closure, &tank.aft_closure),
        fibre,
        resin,
        fittings: tank.fittings_mass,
    }
}

pub(super) fn list_tank<R: Real>(
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
    let [bore, liner, outer] = [
        size.inner_diameter,
        size.liner_outer_diameter,
        size.outer_diameter,
    ]
    .map(|diameter| diameter * 0.5);
    if stated {
        let none = R::splat(0.0);
        statement.push(
            "tank, stated",
            Group::Tank,
            point.mass.stated.tank,
            none,
            middle,
            Spread::hollow_cylinder(size.length, bore, outer),
        );
        return;
    }
    let growth = point.mass.growth.tank;
    let mut line = |name, mass, station, spread| {
        statement.push(name, Group::Tank, mass, growth, station, spread);
    };
    let tube = tube_length(side, &point.tank, size);
    let cylinder = |inner, outer| Spread::hollow_cylinder(tube, inner, outer);
    line("liner cylinder", parts.liner, middle, cylinder(bore, liner));
    let [fore, aft] = [
        (side.fore_closure, &point.tank.fore_closure),
        (side.aft_closure, &point.tank.aft_closure),
    ]
    .map(|(kind, closure)| {
        let depth = closure_depth(kind, closure, size.inner_diameter);
        let middle = (depth + overhang(kind, closure)) * 0.5;
        (middle, closure_spread(kind, closure, depth, bore))
    });
    line("fore closure", parts.fore_closure, start + fore.0, fore.1);
    let end = start + size.length;
    line("aft closure", parts.aft_closure, end - aft.0, aft.1);
    let ring = Spread::hollow_cylinder(R::splat(0.0), bore, liner);
    if side.fore_closure.is_bolted() {
        let row = point.tank.fore_closure.bolts.edge_distance;
        line("fore bolts", parts.fore_bolts, start + row, ring);
    }
    if side.aft_closure.is_bolted() {
        let row = point.tank.aft_closure.bolts.edge_distance;
        line("aft bolts", parts.aft_bolts, end - row, ring);
    }
    if side.plies > 0 {
        let wound = cylinder(liner, outer);
        line("overwrap fibre", parts.fibre, middle, wound);
        line("overwrap resin", parts.resin, middle, wound);
    }
    line("tank fittings", parts.fittings, middle, Spread::point());
}

/// A dome is a thin shell at mid-thickness, a torisphere and an isotensoid a cap of their depth, a flat bulkhead a disc
/// that fills the bore, its rim counted in.
fn closure_spread<R: Real>(
    kind: ClosureKind,
    closure: &Closure<R>,
    depth: R,
    bore: R,
) -> Spread<R> {
    let half = closure.thickness * 0.5;
    match kind {
        ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
            Spread::solid_cylinder(closure.thickness, bore)
        }
        ClosureKind::Hemisphere | ClosureKind::Torisphere | ClosureKind::Isotensoid => {
            Spread::cap(depth + half, bore + half)
        }
        // Surface of half an oblate spheroid of axes 2:1, integrated numerically twice.
        ClosureKind::Ellipsoid => {
            let radius = bore + half;
            Spread::shell(
                "thin half ellipsoid",
                radius,
                radius,
                [0.020_531_1, 0.600_302_1],
            )
        }
    }
}

pub(super) fn list_airframe<R: Real>(
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
    let outer = body.diameter * 0.5;
    let around = |length: R| Spread::hollow_cylinder(length, outer - skin.thickness, outer);
    let mut line = |name, area, station, spread| {
        statement.push(name, Group::Airframe, area * areal, growth, station, spread);
    };
    if let Some(body_form) = form.body() {
        line(
            "nose skin",
            body.nose_area,
            body.nose_centroid,
            Spread::shell(
                "thin nose shell",
                body.nose_length,
                outer,
                nose_skin_spread(body_form.nose),
            ),
        );
    }
    line(
        "payload bay skin",
        girth * body.payload_bay_length,
        body.nose_length + body.payload_bay_length * 0.5,
        around(body.payload_bay_length),
    );
    line(
        "recovery bay skin",
        girth * body.recovery_bay_length,
        after_payload + body.recovery_bay_length * 0.5,
        around(body.recovery_bay_length),
    );
    if let (true, Some(size)) = (form.skin_over_tank(), size) {
        line(
            "skin over the tank",
            girth * size.length,
            body.tank_station + size.length * 0.5,
            around(size.length),
        );
    }
    // A motor case slimmer than the body runs inside the skin.
    let slimmer = point.motor.case_diameter.lt(body.diameter);
    let motor_length = body.length - body.motor_station;
    line(
        "skin over the motor",
        (girth * motor_length).select(R::splat(0.0), slimmer),
        (body.motor_station + body.length) * 0.5,
        around(motor_length),
    );
    // Case, nozzle and injector are one mass: taken for a shell of the case's diameter along the section.
    let case = point.motor.case_diameter * 0.5;
    statement.push(
        "motor",
        Group::Motor,
        point.motor.mass,
        point.mass.growth.motor,
        (body.motor_station + body.length) * 0.5,
        Spread::hollow_cylinder(motor_length, case, case),
    );
}

pub(super) fn station<R: Real>(place: Place, body: &Body<R>, own: R) -> R {
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
