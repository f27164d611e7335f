//! [`Stage::layout`]: the outline of vehicle and tank of one design, for drawings to scale.
//!
//! Stations are metres from the nose tip; for a stage whose drag is stated they count from the tank's
//! fore end.

use crate::airframe::{Body, BodyForm, fin_outline, nose_outline};
use crate::error::Result;
use crate::numerics::Real;
use crate::quantity::Choice;
use crate::stage::chain::Evaluation;
use crate::stage::chain::form::TankSide;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::point::Point;
use crate::stage::chain::vehicle::Vehicle;
use crate::stage::given::Stage;
use crate::vessel::{
    Closure, ClosureKind, MeridianPoint, PlyKind, SeamBasis, TankForm, closure_contour,
    closure_length, dimensions, overhang,
};
use serde_json::{Value, json};
use std::f64::consts::PI;

/// A closure's contours from the cylinder's end to the axis, as (station, radius).
struct Cap {
    inner: Vec<MeridianPoint>,
    outer: Vec<MeridianPoint>,
    wrap: Vec<MeridianPoint>,
}

impl Stage {
    /// Outlines as JSON: what exists of vehicle and tank. A design with a fault is an error that says
    /// what to change.
    pub fn layout(&self) -> Result<Value> {
        let (form, point) = (self.form(), self.point());
        let Evaluation { outcome, vehicle } = self.sound(&point)?;
        let drawn = form.body().zip(vehicle.body.as_ref());
        let station = vehicle.body.as_ref().map_or(0.0, |body| body.tank_station);
        Ok(json!({
            "vehicle": drawn.map(|(body_form, body)| {
                vehicle_outline(body_form, body, &point, &vehicle, &outcome)
            }),
            "tank": form.tank.as_ref().map(|side| tank_outline(side, &point, station)),
        }))
    }
}

fn vehicle_outline(
    form: &BodyForm,
    body: &Body<f64>,
    point: &Point<f64>,
    vehicle: &Vehicle<f64>,
    outcome: &Outcome<f64>,
) -> Value {
    let after_payload = body.nose_length + body.payload_bay_length;
    let slim = body.diameter;
    let sections: Vec<Value> = [
        ("nose", 0.0, body.nose_length, [0.0, slim]),
        ("payload bay", body.nose_length, after_payload, [slim; 2]),
        ("recovery bay", after_payload, body.tank_station, [slim; 2]),
        ("tank", body.tank_station, body.motor_station, [slim; 2]),
        (
            "motor",
            body.motor_station,
            body.length,
            [body.frontal_diameter; 2],
        ),
    ]
    .into_iter()
    .filter(|(_, from, to, _)| to > from)
    .map(|(name, from, to, [fore, aft])| {
        json!({
            "name": name, "from": from, "to": to, "fore_diameter": fore, "aft_diameter": aft,
        })
    })
    .collect();
    let count = form.fins.count;
    json!({
        "length": body.length,
        "diameter": body.diameter,
        "frontal_diameter": body.frontal_diameter,
        "sections": sections,
        "nose": nose_outline(form.nose, body.diameter, body.nose_length),
        "fin_count": count,
        "fin": (count > 0)
            .then(|| fin_outline(&vehicle.fin, body.frontal_diameter * 0.5, body.length)),
        "motor_case_diameter": point.motor.case_diameter,
        "nozzle_exit_diameter": (point.motor.exit_area * (4.0 / PI)).sqrt(),
        "centre_of_gravity": outcome.mass.centre_of_gravity,
        "burnout_centre_of_gravity": outcome.mass.burnout_centre_of_gravity,
        "centre_of_pressure": outcome.airframe.centre_of_pressure,
        "static_margin": outcome.airframe.static_margin,
    })
}

fn tank_outline(side: &TankSide, point: &Point<f64>, start: f64) -> Value {
    let (form, tank) = (&side.tank, &point.tank);
    let size = dimensions(form, side.shape, tank);
    let depth = |kind, closure: &Closure<f64>| {
        crate::vessel::closure_depth(kind, closure, size.inner_diameter)
            + closure_length(kind, closure)
    };
    let fore_end = start + depth(form.fore_closure, &tank.fore_closure);
    let aft_end = fore_end + size.cylinder_length;
    let cap = |kind, closure: &Closure<f64>, end: f64, sign: f64| {
        let placed = |contour: Vec<MeridianPoint>| -> Vec<MeridianPoint> {
            let place = |[along, radius]: MeridianPoint| [end + sign * along, radius];
            contour.into_iter().map(place).collect()
        };
        let bore = size.inner_diameter;
        Cap {
            inner: placed(closure_contour(kind, closure, bore, 0.0)),
            outer: placed(closure_contour(kind, closure, bore, closure.thickness)),
            wrap: placed(wound_contour(form, kind, closure, point, bore)),
        }
    };
    let fore = cap(form.fore_closure, &tank.fore_closure, fore_end, -1.0);
    let aft = cap(form.aft_closure, &tank.aft_closure, aft_end, 1.0);
    let inner: Vec<_> = fore.inner.iter().rev().chain(&aft.inner).collect();
    let girth = form.girth_seam != SeamBasis::None;
    let ends = [(form.fore_closure, fore_end), (form.aft_closure, aft_end)];
    let welded = ends.iter().filter(|(kind, _)| girth && !kind.is_bolted());
    let girth_seams: Vec<f64> = welded.map(|(_, end)| *end).collect();
    let closure = |kind: ClosureKind, given: &Closure<f64>, end: f64, outwards: f64, cap: &Cap| {
        json!({
            "kind": kind.word(), "station": end, "thickness": given.thickness,
            "inner": cap.inner, "outer": cap.outer, "wrap": cap.wrap,
            "bolts": bolt_row(kind, given, end, outwards),
        })
    };
    json!({
        "from": start,
        "to": start + size.length,
        "length": size.length,
        "outer_diameter": size.outer_diameter,
        "liner_outer_diameter": size.liner_outer_diameter,
        "inner_diameter": size.inner_diameter,
        "wall": size.wall,
        "wrap": size.wrap,
        "cylinder": [fore_end, aft_end],
        "tube": [
            fore_end - overhang(form.fore_closure, &tank.fore_closure),
            aft_end + overhang(form.aft_closure, &tank.aft_closure),
        ],
        "inner": inner,
        "fore_closure": closure(form.fore_closure, &tank.fore_closure, fore_end, -1.0, &fore),
        "aft_closure": closure(form.aft_closure, &tank.aft_closure, aft_end, 1.0, &aft),
        "plies": plies(form, point, size.liner_outer_diameter * 0.5),
        "girth_seams": girth_seams,
        "longitudinal_seam": form.longitudinal_seam != SeamBasis::None,
    })
}

/// The row of bolts of a closure, where it stands; null where none hold it.
fn bolt_row(kind: ClosureKind, closure: &Closure<f64>, end: f64, outwards: f64) -> Value {
    if !kind.is_bolted() {
        return Value::Null;
    }
    let bolts = &closure.bolts;
    json!({
        "count": bolts.count,
        "station": end + outwards * (bolts.rim_length - bolts.edge_distance),
        "diameter": bolts.diameter,
        "hole_diameter": bolts.hole_diameter,
        "rim_thickness": bolts.rim_thickness,
    })
}

/// Plies from the liner outwards with the laminate thickness of each.
fn plies(form: &TankForm, point: &Point<f64>, liner_radius: f64) -> Vec<Value> {
    let wrap = &point.tank.overwrap;
    let mut inside = liner_radius;
    form.wound(wrap)
        .map(|(ply, kind)| {
            let thickness = wrap.laminate(ply.fibre_thickness);
            let from = inside;
            inside += thickness;
            json!({
                "kind": kind.word(), "angle": ply.angle, "thickness": thickness,
                "inner_radius": from, "outer_radius": inside,
            })
        })
        .collect()
}

/// Outside of the helical plies on a closure that holds them, each with its even laminate thickness up
/// to the radius where a fibre turns back, `R sin a` (Clairaut's relation on a surface of revolution).
/// In truth the plies thicken towards that radius.
fn wound_contour(
    form: &TankForm,
    kind: ClosureKind,
    closure: &Closure<f64>,
    point: &Point<f64>,
    bore: f64,
) -> Vec<MeridianPoint> {
    let wrap = &point.tank.overwrap;
    let helical: Vec<(f64, f64)> = form
        .wound(wrap)
        .filter(|(_, kind)| *kind == PlyKind::Helical)
        .map(|(ply, _)| {
            let turning = bore * 0.5 * Real::sin(ply.angle);
            (turning, wrap.laminate(ply.fibre_thickness))
        })
        .collect();
    if !kind.anchors_fibre() || helical.is_empty() {
        return Vec::new();
    }
    let laid = |radius: f64| -> f64 {
        let over = helical.iter().filter(|(turning, _)| *turning <= radius);
        over.map(|(_, thickness)| thickness).sum()
    };
    let metal = closure_contour(kind, closure, bore, closure.thickness);
    let full: f64 = helical.iter().map(|(_, thickness)| thickness).sum();
    let outside = closure_contour(kind, closure, bore, closure.thickness + full);
    metal
        .iter()
        .zip(&outside)
        .filter(|([_, radius], _)| laid(*radius) > 0.0)
        .map(|(inner, outer)| {
            let share = laid(inner[1]) / full;
            [0, 1].map(|axis| inner[axis] + (outer[axis] - inner[axis]) * share)
        })
        .collect()
}
