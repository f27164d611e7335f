//! The tank's wall through its pressures, from autofrettage to burst.

use super::sheet;
use crate::error::{Error, Result};
use crate::quantity::{Field, fields, slots};
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::vessel::{
    Closure, Ending, Held, LoadHistory, Seam, WallChoice, axial_line_load, equivalent_stress,
    hoop_line_load, load_history, seam_thickness,
};
use serde_json::{Value, json};
use std::sync::LazyLock;

slots! {
    /// The cylinder at one pressure.
    pub struct LoadRow<R> {
        /// Pressure.
        pressure: GaugePressure, Tank;
        /// Axial strain of the cylinder.
        axial_strain: Share, Tank;
        /// Hoop strain of the cylinder.
        hoop_strain: Share, Tank;
        /// Growth of the cylinder's volume.
        volume_growth: Share, Tank;
        /// Axial stress in the liner.
        liner_axial_stress: Stress, Tank;
        /// Hoop stress in the liner.
        liner_hoop_stress: Stress, Tank;
        /// Equivalent (von Mises) stress in the liner.
        liner_equivalent_stress: Stress, Tank;
        /// Equivalent plastic strain of the liner, summed over all flow.
        liner_plastic_strain: Share, Tank;
        /// Share of the axial load that the liner carries; zero without pressure.
        liner_axial_share: Ratio, Tank;
        /// Share of the hoop load that the liner carries; zero without pressure.
        liner_hoop_share: Ratio, Tank;
        /// Largest fibre strain over the one at which the fibre breaks in the vessel.
        fibre_utilisation: Share, Overwrap;
        /// Largest strain across the fibre of any ply.
        across_fibre_strain: Share, Overwrap;
        /// How near the liner, pressed by its wrap, is to buckling inwards: one where a tightly fitting liner would.
        liner_buckling: Ratio, Overwrap;
        /// Axial strain of the girth seam's weld zone.
        girth_zone_axial_strain: Share, GirthSeam;
        /// Equivalent plastic strain of the girth seam's weld zone, summed over all flow.
        girth_zone_plastic_strain: Share, GirthSeam;
        /// Hoop strain of the longitudinal seam's weld zone.
        longitudinal_zone_hoop_strain: Share, LongitudinalSeam;
        /// Equivalent plastic strain of the longitudinal seam's weld zone, summed over all flow.
        longitudinal_zone_plastic_strain: Share, LongitudinalSeam;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<LoadRow<f64>>);

/// The load history of a stage's tank.
#[derive(Debug, Clone, PartialEq)]
pub struct StageLoads {
    /// Names of the changes of pressure, in their order: "autofrettage", "proof", "MEOP", each but the last
    /// followed by "unloading", then "to burst".
    pub changes: Vec<&'static str>,
    /// Every pressure held.
    pub history: LoadHistory,
    /// The same as rows.
    pub rows: Vec<LoadRow<f64>>,
}

impl Stage {
    /// The cylinder of the tank through autofrettage, if there is one, proof, MEOP, and on to burst.
    ///
    /// Errors: no tank, or one that cannot be built or filled. Whether the vehicle flies is not asked.
    ///
    /// ```
    /// use hoopline::{stage::Stage, vessel::WallChoice};
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let loads = stage.load_history(WallChoice::Minimum)?;
    /// let (_, burst) = loads.history.ending;
    /// assert!(burst > stage.outcome().pressures.burst);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn load_history(&self, wall: WallChoice) -> Result<StageLoads> {
        let Some(side) = &self.form().tank else {
            let problem = "a load history needs a [tank], and this stage has none";
            return Err(Error::Inconsistent(problem.to_owned()));
        };
        let point = self.point();
        let settled = settle(self.form(), &point);
        settled.status.refuse_fault()?;
        let Some(size) = &settled.size else {
            unreachable!("a tank has a size")
        };
        let stated = point.tank.autofrettage_pressure;
        let mut named = Vec::with_capacity(5);
        if stated > 0.0 {
            named.extend([("autofrettage", stated), ("unloading", 0.0)]);
        }
        named.extend([
            ("proof", settled.pressures.proof),
            ("unloading", 0.0),
            ("MEOP", settled.pressures.meop),
        ]);
        let pressures: Vec<f64> = named.iter().map(|(_, pressure)| *pressure).collect();
        let (tank, nominal) = (&point.tank, |closure: &Closure<f64>| closure.thickness);
        let (thickness, seam) = match wall {
            WallChoice::Minimum => {
                let wall = size.minimum_wall;
                let seam = seam_thickness(&side.tank, tank, wall, Closure::minimum_thickness);
                (wall, seam)
            }
            WallChoice::Nominal => {
                let seam = seam_thickness(&side.tank, tank, size.wall, nominal);
                (size.wall, seam)
            }
        };
        let history = load_history(&side.tank, tank, size, [thickness, seam], &pressures);
        let inner = size.inner_diameter * 0.5;
        let radius = inner + thickness * 0.5;
        let per_pressure = [
            axial_line_load(1.0, inner, radius),
            hoop_line_load(1.0, radius),
        ];
        let rows = history.held.iter();
        let rows = rows
            .map(|held| row(held, thickness, per_pressure))
            .collect();
        let changes = named.iter().map(|(name, _)| *name);
        Ok(StageLoads {
            changes: changes.chain(["to burst"]).collect(),
            history,
            rows,
        })
    }

    /// The load history as JSON: columns with units, the change of pressure of each row, what begins in each
    /// change, and how the last one ends.
    pub fn load_history_json(&self, wall: WallChoice) -> Result<String> {
        let loads = self.load_history(wall)?;
        let changes = loads.changes.iter().zip(&loads.history.begins);
        let changes: Vec<Value> = changes
            .map(|(name, begins)| {
                json!({
                    "name": name,
                    "liner_flow": begins.liner_flow,
                    "girth_zone_flow": begins.zone_flow[Seam::Girth as usize],
                    "longitudinal_zone_flow": begins.zone_flow[Seam::Longitudinal as usize],
                    "first_crack": begins.first_crack,
                })
            })
            .collect();
        let (ending, pressure) = loads.history.ending;
        let held = loads.history.held.iter();
        let change: Vec<usize> = held.map(|held| held.change).collect();
        Ok(json!({
            "columns": sheet::columns(self, &FIELDS, &loads.rows),
            "change": change,
            "changes": changes,
            "ending": ending_text(ending),
            "ending_pressure": pressure,
        })
        .to_string())
    }
}

/// A weld zone, in words.
pub(super) fn zone_name(seam: Seam) -> &'static str {
    match seam {
        Seam::Girth => "the girth seam's weld zone",
        Seam::Longitudinal => "the longitudinal seam's weld zone",
    }
}

/// How the last rise ends, in words.
pub(super) fn ending_text(ending: Ending) -> String {
    match ending {
        Ending::Fibre(ply) => format!("the fibre of tank.overwrap.ply[{ply}] breaks"),
        Ending::Collapse => "the liner flows without limit".to_owned(),
        Ending::Rupture => "the liner has hardened up to its ultimate strength".to_owned(),
        Ending::Zone(seam) => format!("{} flows without limit", zone_name(seam)),
        Ending::ZoneRupture(seam) => {
            format!(
                "{} has hardened up to its ultimate strength",
                zone_name(seam)
            )
        }
        Ending::ZoneFibre(seam, ply) => {
            format!(
                "the fibre of tank.overwrap.ply[{ply}] breaks over {}",
                zone_name(seam)
            )
        }
        Ending::Holds => "nothing breaks".to_owned(),
    }
}

fn row(held: &Held, thickness: f64, per_pressure: [f64; 2]) -> LoadRow<f64> {
    let Held {
        pressure,
        wall,
        zones,
        utilisation,
        across_fibre,
        buckling,
        ..
    } = *held;
    let [axial, hoop] = wall.strain;
    let stress = wall.liner.stress;
    let share = |k: usize| {
        let load = pressure * per_pressure[k];
        if load > 0.0 {
            stress[k] * thickness / load
        } else {
            0.0
        }
    };
    let [girth, longitudinal] = zones.map(|zone| zone.unwrap_or(wall));
    LoadRow {
        pressure,
        axial_strain: axial,
        hoop_strain: hoop,
        volume_growth: (1.0 + axial) * (1.0 + hoop).powi(2) - 1.0,
        liner_axial_stress: stress[0],
        liner_hoop_stress: stress[1],
        liner_equivalent_stress: equivalent_stress(stress),
        liner_plastic_strain: wall.liner.flowed.equivalent,
        liner_axial_share: share(0),
        liner_hoop_share: share(1),
        fibre_utilisation: utilisation,
        across_fibre_strain: across_fibre,
        liner_buckling: buckling,
        girth_zone_axial_strain: girth.strain[0],
        girth_zone_plastic_strain: girth.liner.flowed.equivalent,
        longitudinal_zone_hoop_strain: longitudinal.strain[1],
        longitudinal_zone_plastic_strain: longitudinal.liner.flowed.equivalent,
    }
}
