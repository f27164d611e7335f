//! What is stated of bolted bulkheads, against itself and against the girth seam.

use super::stage::Stage;
use crate::error::{Error, Result};
use crate::quantity::{Choice, Quantity, show};
use crate::vessel::{Bolts, Closure, ClosureKind, TankForm, dimensions};
use std::f64::consts::PI;

/// Where bulkheads and their bolts are stated.
pub(super) const TABLES: [&str; 2] = ["tank.fore_closure.", "tank.aft_closure."];

/// Checks that no girth seam is told of where bolts hold both closures.
pub(super) fn check_seam(form: &TankForm) -> Result<()> {
    let both = [form.fore_closure, form.aft_closure];
    if form.has_girth_seam() && both.into_iter().all(ClosureKind::is_bolted) {
        return Err(Error::Inconsistent(format!(
            "tank.liner.girth_seam.basis = \"{}\", but bolts hold both closures and there is no girth seam; write \
             basis = \"none\", or choose another kind for the closure that is welded",
            form.girth_seam.word()
        )));
    }
    Ok(())
}

/// Checks besides that bolts are counted whole, that their holes keep clear of each other and of the rim's ends, and
/// that strengths are in order.
pub(super) fn check(stage: &Stage) -> Result<()> {
    let Some(side) = &stage.form().tank else {
        return Ok(());
    };
    check_seam(&side.tank)?;
    let tank = stage.point().tank;
    let size = dimensions(&side.tank, side.shape, &tank);
    let ends = ["fore", "aft"].into_iter().zip(side.tank.closures(&tank));
    for (side, (_, closure)) in ends.filter(|(_, (kind, _))| kind.is_bolted()) {
        whole(side, &closure.bolts)?;
        clear(side, closure)?;
        // A design without a bore is told of as one that cannot close.
        if size.inner_diameter > 0.0 {
            apart(side, &closure.bolts, size.mean_radius())?;
            ring(side, &closure.bolts, 0.5 * size.inner_diameter)?;
        }
        ordered(side, &closure.bolts)?;
    }
    Ok(())
}

fn length(value: f64) -> String {
    show(value, Quantity::Length)
}

fn whole(side: &str, bolts: &Bolts<f64>) -> Result<()> {
    if bolts.count.fract() == 0.0 {
        return Ok(());
    }
    Err(Error::Inconsistent(format!(
        "tank.{side}_closure.bolts.count = {} is no whole number; write how many bolts hold the closure",
        bolts.count
    )))
}

/// Holes within the wall and the rim, and as wide as their bolts.
fn clear(side: &str, closure: &Closure<f64>) -> Result<()> {
    let (bolts, path) = (&closure.bolts, format!("tank.{side}_closure"));
    let refuse = |problem: String| Err(Error::Inconsistent(problem));
    if bolts.hole_diameter < bolts.diameter {
        return refuse(format!(
            "{path}.bolts.hole_diameter = {} is less than the bolts' diameter of {}; a hole is at least as wide as \
             its bolt",
            length(bolts.hole_diameter),
            length(bolts.diameter)
        ));
    }
    if bolts.end_ligament() <= 0.0 {
        return refuse(format!(
            "{path}.bolts.edge_distance = {} is not more than half of hole_diameter = {}: the holes would be open \
             towards the end of the tube; move them further from it, from the holes' middle",
            length(bolts.edge_distance),
            length(bolts.hole_diameter)
        ));
    }
    if bolts.rim_inside() <= 0.0 {
        return refuse(format!(
            "{path}.bolts.rim_length = {} ends before the holes do, {} from the end of the tube; a rim also has to \
             hold the seal inside of them: make it longer",
            length(bolts.rim_length),
            length(bolts.edge_distance + 0.5 * bolts.hole_diameter)
        ));
    }
    if bolts.rim_length < closure.thickness {
        return refuse(format!(
            "{path}.bolts.rim_length = {} is less than the bulkhead's thickness of {}, which is part of the rim; give \
             the whole length along the bore",
            length(bolts.rim_length),
            length(closure.thickness)
        ));
    }
    Ok(())
}

/// Holes that fit around the wall, m its radius.
fn apart(side: &str, bolts: &Bolts<f64>, radius: f64) -> Result<()> {
    if bolts.ligament(radius) > 0.0 {
        return Ok(());
    }
    Err(Error::Inconsistent(format!(
        "tank.{side}_closure.bolts.count = {} holes of {} do not fit around the wall, {} along its middle; give fewer \
         bolts or smaller holes",
        bolts.count,
        length(bolts.hole_diameter),
        length(2.0 * PI * radius)
    )))
}

/// A rim that leaves a bore within it, m the radius of the one it stands in.
fn ring(side: &str, bolts: &Bolts<f64>, radius: f64) -> Result<()> {
    if bolts.rim_thickness <= radius {
        return Ok(());
    }
    Err(Error::Inconsistent(format!(
        "tank.{side}_closure.bolts.rim_thickness = {} is more than the bore's radius of {}; write the radial thickness \
         of the ring beside the plate",
        length(bolts.rim_thickness),
        length(radius)
    )))
}

fn ordered(side: &str, bolts: &Bolts<f64>) -> Result<()> {
    let [yields, breaks] = [
        bolts.bearing_yield_strength,
        bolts.bearing_ultimate_strength,
    ];
    if yields <= breaks {
        return Ok(());
    }
    let stress = |value| show(value, Quantity::Stress);
    Err(Error::Inconsistent(format!(
        "tank.{side}_closure.bolts.bearing_yield_strength = {} is above bearing_ultimate_strength = {}; write the \
         smaller one as yield",
        stress(yields),
        stress(breaks)
    )))
}
