//! Stress along the meridian where the cylinder meets its closures, at proof pressure.

use super::sheet;
use crate::error::{Error, Result};
use crate::quantity::{Choice, Field, fields, slots};
use crate::stage::chain::form::TankSide;
use crate::stage::chain::point::Point;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::vessel::{ClosureKind, Dimensions, Junction, Part, SHAKEDOWN, Worst, girth_strength};
use serde_json::{Value, json};
use std::sync::LazyLock;

slots! {
    /// A place beside a junction.
    pub struct JunctionRow<R> {
        /// Distance from the edge along the meridian: positive in the cylinder, negative in the closure.
        distance: Length, Tank;
        /// Axial stress at the inside, in a closure along its meridian.
        inner_axial_stress: Stress, Tank;
        /// Hoop stress at the inside.
        inner_hoop_stress: Stress, Tank;
        /// Equivalent (von Mises) stress at the inside.
        inner_equivalent_stress: Stress, Tank;
        /// Axial stress at the outside, in a closure along its meridian.
        outer_axial_stress: Stress, Tank;
        /// Hoop stress at the outside.
        outer_hoop_stress: Stress, Tank;
        /// Equivalent (von Mises) stress at the outside.
        outer_equivalent_stress: Stress, Tank;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<JunctionRow<f64>>);

/// Places along the cylinder, and how many decay lengths of its wave they reach (own choice: what is left
/// is less than a hundredth).
const PLACES: usize = 121;
const REACH: f64 = 5.0;

/// One junction of a stage's tank, at proof pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct StageJunction {
    /// "fore" or "aft".
    pub side: &'static str,
    /// The closure.
    pub closure: ClosureKind,
    /// From far in the closure to far in the cylinder.
    pub rows: Vec<JunctionRow<f64>>,
    /// Largest equivalent stress within the length that is judged, per pressure, and where it is.
    pub worst: Worst,
    /// Proof pressure, Pa gauge.
    pub pressure: f64,
    /// Yield strength it is set against, Pa: across the girth seam where there is one.
    pub yield_strength: f64,
}

impl StageJunction {
    /// Largest equivalent stress at proof pressure, Pa, as if all stayed elastic.
    pub fn largest(&self) -> f64 {
        self.worst.stress * self.pressure
    }

    /// Where it is, in words.
    pub fn place(&self) -> String {
        let part = match self.worst.part {
            Part::Cylinder => "cylinder",
            Part::Closure => "closure",
        };
        let surface = if self.worst.inside {
            "inside"
        } else {
            "outside"
        };
        let distance = self.worst.distance * 1e3;
        if distance == 0.0 {
            format!("at the edge of the {part}, {surface}")
        } else {
            format!("in the {part}, {surface}, {distance:.1} mm from the edge")
        }
    }
}

/// The junctions of a tank at its proof pressure, Pa gauge, fore and aft: of the closures that no bolts hold. In the
/// bore a bolted bulkhead's edge slides and turns, and bends nothing.
pub(super) fn junctions(
    side: &TankSide,
    point: &Point<f64>,
    size: &Dimensions<f64>,
    pressure: f64,
) -> Vec<StageJunction> {
    let (form, tank) = (&side.tank, &point.tank);
    let metal = &tank.liner.metal;
    let (parent, zone) = (metal.yield_strength, metal.weld_zone_yield_strength);
    let yield_strength = girth_strength(form, tank, parent, zone);
    let [fore, aft] = form.closures(tank);
    let joined = [("fore", fore), ("aft", aft)].into_iter();
    let joined = joined.filter(|(_, (kind, _))| !kind.is_bolted());
    let walked = joined.map(|(name, (kind, closure))| {
        let junction = Junction::new(form, tank, size, kind, closure);
        let worst = junction.worst();
        let angles = (0..PLACES).map(|place| place as f64 * (REACH / (PLACES - 1) as f64));
        let mut rows = Vec::with_capacity(2 * PLACES);
        junction.visit(angles, &mut |place| {
            let stress = place.with(worst.signs);
            let [inner, outer] = stress.equivalent_squared(1.0).map(f64::sqrt);
            let away = match place.part {
                Part::Cylinder => place.distance,
                Part::Closure => -place.distance,
            };
            rows.push(JunctionRow {
                distance: away,
                inner_axial_stress: stress.inner[0] * pressure,
                inner_hoop_stress: stress.inner[1] * pressure,
                inner_equivalent_stress: inner * pressure,
                outer_axial_stress: stress.outer[0] * pressure,
                outer_hoop_stress: stress.outer[1] * pressure,
                outer_equivalent_stress: outer * pressure,
            });
        });
        // The closure's rows, turned about, then the cylinder's; both have the edge.
        rows[PLACES..].reverse();
        rows.rotate_left(PLACES);
        StageJunction {
            side: name,
            closure: kind,
            rows,
            worst,
            pressure,
            yield_strength,
        }
    });
    walked.collect()
}

impl Stage {
    /// The fore and the aft junction of cylinder and closure at proof pressure; none where bolts hold the closure.
    ///
    /// Errors: no tank, a tank whose closures are both held by bolts, or a design with a fault.
    ///
    /// ```
    /// use hoopline::stage::Stage;
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let both = stage.junctions()?;
    /// assert!(both[0].largest() < 2.0 * both[0].yield_strength && both[1].side == "aft");
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn junctions(&self) -> Result<Vec<StageJunction>> {
        let Some(side) = &self.form().tank else {
            let problem = "junctions need a [tank], and this stage has none";
            return Err(Error::Inconsistent(problem.to_owned()));
        };
        if side
            .tank
            .closures(&self.point().tank)
            .iter()
            .all(|(kind, _)| kind.is_bolted())
        {
            let problem = "there are no junctions: bolts hold both closures, whose edges slide and turn in the bore";
            return Err(Error::Inconsistent(problem.to_owned()));
        }
        self.outcome().status.refuse_fault()?;
        let point = self.point();
        let settled = settle(self.form(), &point);
        let Some(size) = &settled.size else {
            unreachable!("a tank has a size")
        };
        Ok(junctions(side, &point, size, settled.pressures.proof))
    }

    /// The junctions as JSON: of each its columns with units, and what is judged.
    pub fn junctions_json(&self) -> Result<String> {
        let both = self.junctions()?;
        let both: Vec<Value> = both
            .iter()
            .map(|junction| {
                json!({
                    "side": junction.side,
                    "closure": junction.closure.word(),
                    "columns": sheet::columns(self, &FIELDS, &junction.rows),
                    "pressure": junction.pressure,
                    "largest": junction.largest(),
                    "place": junction.place(),
                    "yield_strength": junction.yield_strength,
                    "margin": SHAKEDOWN * junction.yield_strength / junction.largest() - 1.0,
                })
            })
            .collect();
        Ok(json!({ "junctions": both }).to_string())
    }
}
