//! Attachment fittings of a stage: load, strength and margin of each in each case, and what the wrap does to it.

use super::sheet;
use crate::error::{Error, Result};
use crate::quantity::{Choice, Field, fields, slots};
use crate::stage::chain::form::TankSide;
use crate::stage::chain::outcome::Outcome;
use crate::stage::chain::point::Point;
use crate::stage::chain::settle;
use crate::stage::given::Stage;
use crate::vessel::Dimensions;
use crate::vessel::fitting::{
    Bond, CASES, CaseLoad, Clamp, FittingHold, Flown, Shares, bridged_length, shares,
};
use serde_json::{Value, json};
use std::sync::LazyLock;

slots! {
    /// A fitting in one case. Forces and stresses are without the fitting factor; margins have it.
    pub struct FittingRow<R> {
        /// Force along the vessel, with what the flight brings.
        axial_force: Force, Fittings;
        /// Force around the vessel.
        tangential_force: Force, Fittings;
        /// Force that pulls the fitting off the vessel.
        radial_force: Force, Fittings;
        /// Pressure in the tank at which the case is judged.
        tank_pressure: GaugePressure, Fittings;
        /// Force with which the wrap presses on the pad at that pressure.
        clamping_force: Force, WoundInFittings;
        /// Margin against sliding under the wrap.
        sliding_margin: Ratio, WoundInFittings;
        /// Margin against a corner of the pad lifting off the liner.
        lifting_margin: Ratio, WoundInFittings;
        /// Peak shear stress in the glue of the tank's growth alone.
        growth_shear: Stress, BondedFittings;
        /// Peak shear stress in the glue of the forces alone.
        transfer_shear: Stress, BondedFittings;
        /// Margin of the bond.
        bond_margin: Ratio, BondedFittings;
        /// Margin of the fasteners.
        fastener_margin: Ratio, Fittings;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<FittingRow<f64>>);

/// The case of a bonded fitting that the proof test is.
pub(super) const PROOF: &str = "proof";

/// One fitting of a stage.
#[derive(Debug, Clone, PartialEq)]
pub struct StageFitting {
    /// Its name.
    pub name: String,
    /// What holds it.
    pub kind: FittingHold,
    /// Cases that load it, in words; a bonded one has the proof test behind them.
    pub cases: Vec<&'static str>,
    /// A row for each; NaN for what the fitting does not have.
    pub rows: Vec<FittingRow<f64>>,
    /// Force of the wrap on a pad below it without pressure and at MEOP, N; none for a bonded one.
    pub clamping: Option<[f64; 2]>,
    /// Length on either side over which the wrap does not touch the liner, m; none for a bonded one.
    pub bridged_length: Option<f64>,
    /// Axial and hoop strain of the wall at MEOP since the fitting was put on, and at proof pressure.
    pub strain: [[f64; 2]; 2],
    /// How far the wall moves below the pad's ends at MEOP if the pad does not follow, along and around, m.
    pub end_slip: [f64; 2],
    /// Mode, case and value of the smallest margin.
    pub governing: (&'static str, &'static str, f64),
}

/// Shares of strength of one fitting in one case.
pub(super) struct Judged {
    pub index: usize,
    pub case: &'static str,
    pub load: CaseLoad<f64>,
    pub shares: Shares<f64>,
}

/// Every fitting in every case that loads it, and the bonded ones in the proof test.
pub(super) fn judged(
    side: &TankSide,
    point: &Point<f64>,
    size: &Dimensions<f64>,
    outcome: &Outcome<f64>,
) -> Vec<Judged> {
    let (form, tank) = (&side.tank, &point.tank);
    let pressures = &outcome.pressures;
    let bond = Bond::new(form, tank, size, pressures.proof);
    let flown = flown(outcome);
    let mut judged = Vec::new();
    for (index, (kind, fitting)) in form.fittings(tank).enumerate() {
        for (load, case) in fitting.cases(&flown).into_iter().zip(CASES) {
            if load.is_none() {
                continue;
            }
            let held = (pressures.meop, Some(&bond));
            judged.push(Judged {
                index,
                case,
                load,
                shares: shares(form, tank, size, (kind, fitting), &load, held),
            });
        }
        if kind == FittingHold::Bonded {
            let nothing = 0.0;
            judged.push(Judged {
                index,
                case: PROOF,
                load: CaseLoad {
                    axial: nothing,
                    tangential: nothing,
                    radial: nothing,
                    tank_pressure: pressures.proof,
                    flies: false,
                },
                shares: Shares {
                    sliding: nothing,
                    lifting: nothing,
                    bond: bond.proof_share(fitting, pressures.proof),
                    fastener: nothing,
                },
            });
        }
    }
    judged
}

/// What the flight brings to fittings.
pub(super) fn flown(outcome: &Outcome<f64>) -> Flown<f64> {
    Flown {
        acceleration: outcome.ascent.max_axial_acceleration,
        dynamic_pressure: outcome.ascent.max_dynamic_pressure,
    }
}

/// Pressure at which glue is judged in a case: MEOP in flight, else the case's own.
pub(super) fn growth_pressure(judged: &Judged, meop: f64) -> f64 {
    if judged.load.flies {
        meop
    } else if judged.case == PROOF {
        judged.load.tank_pressure
    } else {
        judged.load.tank_pressure.min(meop)
    }
}

/// The fittings of a tank.
pub(super) fn fittings(
    stage: &Stage,
    side: &TankSide,
    size: &Dimensions<f64>,
    outcome: &Outcome<f64>,
) -> Vec<StageFitting> {
    let point = stage.point();
    let (form, tank) = (&side.tank, &point.tank);
    let (meop, proof) = (outcome.pressures.meop, outcome.pressures.proof);
    let bond = Bond::new(form, tank, size, proof);
    let clamp = |pressure| Clamp::new(form, tank, size, pressure);
    let (empty, full) = (clamp(0.0), clamp(meop));
    let all = judged(side, &point, size, outcome);
    let each = form.fittings(tank).enumerate();
    each.map(|(index, (kind, fitting))| {
        let own = all.iter().filter(|judged| judged.index == index);
        let wound_in = kind == FittingHold::WoundIn;
        let row = |judged: &Judged| {
            let (load, shares) = (&judged.load, &judged.shares);
            let there = |there: bool, value: f64| if there { value } else { f64::NAN };
            let growth_at = growth_pressure(judged, meop);
            let together = |[along, around]: [f64; 2]| (along * along + around * around).sqrt();
            let least = load.tank_pressure.min(meop);
            let loaded = !load.is_none();
            FittingRow {
                axial_force: load.axial,
                tangential_force: load.tangential,
                radial_force: load.radial,
                tank_pressure: if wound_in { least } else { growth_at },
                clamping_force: there(wound_in, clamp(least).force(fitting)),
                sliding_margin: there(wound_in, 1.0 / shares.sliding - 1.0),
                lifting_margin: there(wound_in, 1.0 / shares.lifting - 1.0),
                growth_shear: there(!wound_in, together(bond.growth(fitting, growth_at))),
                transfer_shear: there(!wound_in, together(bond.transfer(fitting, load))),
                bond_margin: there(!wound_in, 1.0 / shares.bond - 1.0),
                fastener_margin: there(loaded, 1.0 / shares.fastener - 1.0),
            }
        };
        let mut governing = ("", "", f64::INFINITY);
        for judged in own.clone() {
            let shares = &judged.shares;
            for (mode, share) in [
                ("sliding", shares.sliding),
                ("lifting", shares.lifting),
                ("bond", shares.bond),
                ("fastener", shares.fastener),
            ] {
                let margin = 1.0 / share - 1.0;
                if share > 0.0 && margin < governing.2 {
                    governing = (mode, judged.case, margin);
                }
            }
        }
        let strain = [bond.strain(meop), bond.strain(proof)];
        StageFitting {
            name: stage.labels().fittings[index].clone(),
            kind,
            cases: own.clone().map(|judged| judged.case).collect(),
            rows: own.map(row).collect(),
            clamping: wound_in.then(|| [empty.force(fitting), full.force(fitting)]),
            bridged_length: wound_in.then(|| bridged_length(full.radius, fitting.height)),
            strain,
            end_slip: [
                0.5 * strain[0][0] * fitting.length,
                0.5 * strain[0][1] * fitting.width,
            ],
            governing,
        }
    })
    .collect()
}

impl Stage {
    /// The tank's attachment fittings: loads, clamping and margins of each in each case.
    ///
    /// Errors: no `[[tank.fitting]]`, or a design with a fault.
    pub fn fittings(&self) -> Result<Vec<StageFitting>> {
        let side = self.form().tank.as_ref();
        let Some(side) = side.filter(|side| side.tank.fittings > 0) else {
            return Err(Error::Inconsistent(
                "fittings are listed as [[tank.fitting]], and this stage has none".to_owned(),
            ));
        };
        let outcome = self.outcome();
        outcome.status.refuse_fault()?;
        let Some(size) = settle(self.form(), &self.point()).size else {
            unreachable!("a tank has a size")
        };
        Ok(fittings(self, side, &size, &outcome))
    }

    /// The fittings as JSON: of each its columns with units, and what is judged.
    pub fn fittings_json(&self) -> Result<String> {
        let all = self.fittings()?;
        let all: Vec<Value> = all
            .iter()
            .map(|fitting| {
                let (mode, case, margin) = fitting.governing;
                json!({
                    "name": fitting.name,
                    "kind": fitting.kind.word(),
                    "cases": fitting.cases,
                    "columns": sheet::columns(self, &FIELDS, &fitting.rows),
                    "clamping": fitting.clamping,
                    "bridged_length": fitting.bridged_length,
                    "strain": fitting.strain,
                    "end_slip": fitting.end_slip,
                    "mode": mode,
                    "case": case,
                    "margin": margin,
                })
            })
            .collect();
        Ok(json!({ "fittings": all }).to_string())
    }
}
