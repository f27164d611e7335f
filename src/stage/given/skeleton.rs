//! The form of a document: what is there at all, and the choices made.

use super::choices::{CHOICES, words};
use super::leaves::Leaves;
use super::tables;
use crate::airframe::{
    BayRule, BodyForm, DragTable, FinForm, FinRule, NoseRule, NoseShape, SkinRule,
};
use crate::ascent::{Course, Grid};
use crate::document::{At, Document, Findings};
use crate::error::Error;
use crate::mass::{MAX_ITEMS, Place};
use crate::motor::{Curve, ThrustBasis, ThrustRule};
use crate::stage::chain::digested::Digested;
use crate::stage::chain::form::{AtmosphereModel, Form, LoadRule, PressureBasis, Shell, TankSide};
use crate::vessel::fitting::FittingHold;
use crate::vessel::rule_set::BurstBasis;
use crate::vessel::{
    ClosureKind, DiameterPair, MAX_FITTINGS, MAX_PLIES, PlyKind, SeamBasis, ServiceForm, Shape,
    TankForm,
};
use serde_json::Value;

/// The form before its choices are set: what is there at all, or nothing if that cannot be told.
/// Options stand at their first word until [`set_choices`] has required each.
pub(super) fn skeleton(
    document: &Document,
    leaves: &Leaves,
    findings: &mut Findings,
) -> Option<Form> {
    let tank = leaves.any_below("tank").then(|| tank_side(leaves));
    let drawn = ["nose", "payload_bay", "recovery_bay", "skin", "fins"]
        .iter()
        .any(|table| leaves.any_below(table));
    // Multipliers stand in the same table of a file, yet state no drag.
    let stated = ["drag.table", "drag.reference_diameter"]
        .iter()
        .any(|path| leaves.get(path).is_some());
    let in_doubt = findings.is_damaged("") || findings.is_damaged("drag");
    let curve = tables::curve(document, leaves);
    let curve = findings
        .take(document, At::Value("motor.curve"), curve)
        .flatten()
        .unwrap_or_else(Curve::constant);
    let mut unclear = |error: Error| {
        if !in_doubt {
            findings.note(document, At::Table("drag.table"), error);
        }
        None
    };
    let shell = match (drawn, stated) {
        (true, false) if tank.is_some() => Shell::Drawn(BodyForm {
            nose: NoseShape::Cone,
            nose_rule: NoseRule::Fineness,
            bay_rule: BayRule::Volume,
            skin_rule: SkinRule::TankIsAirframe,
            fins: FinForm {
                count: fin_count(document, leaves, findings),
                rule: FinRule::StaticMargin,
            },
        }),
        (false, true) => {
            let table = tables::drag_table(document, leaves);
            let table = findings
                .take(document, At::Table("drag.table"), table)
                .unwrap_or_else(DragTable::none);
            let numbers: Vec<f64> = table
                .mach()
                .iter()
                .chain(table.coefficients())
                .copied()
                .collect();
            Shell::Stated(Digested::new(table, &numbers))
        }
        (true, false) => {
            return unclear(Error::Inconsistent(
                "a body is drawn around its tank; describe [tank], or state the drag by \
                 drag.table and drag.reference_diameter"
                    .to_owned(),
            ));
        }
        (true, true) => {
            return unclear(Error::Inconsistent(
                "both a drawn body (nose, bays, skin, fins) and a stated drag (drag.table, \
                 drag.reference_diameter) are given; keep one"
                    .to_owned(),
            ));
        }
        (false, false) => {
            return unclear(Error::Inconsistent(
                "nothing says what the drag is; describe [nose], [skin], [fins] and bays, or state \
                 drag.table and drag.reference_diameter"
                    .to_owned(),
            ));
        }
    };
    let numbers: Vec<f64> = curve.times.iter().chain(&curve.forces).copied().collect();
    Some(Form {
        tank,
        shell,
        curve: Digested::new(curve, &numbers),
        thrust_basis: ThrustBasis::Vacuum,
        thrust_rule: ThrustRule::Level,
        rail: leaves.any_below("rail"),
        course: Course::Vertical,
        atmosphere: AtmosphereModel::Standard,
        grid: Grid::Trade,
        items: leaves.count("mass.item").min(MAX_ITEMS),
        places: [Place::Station; MAX_ITEMS],
    })
}

fn tank_side(leaves: &Leaves) -> TankSide {
    let given = |path: &str| leaves.get(path).is_some();
    TankSide {
        tank: TankForm {
            diameters: DiameterPair::OuterAndWall,
            fore_closure: ClosureKind::Hemisphere,
            aft_closure: ClosureKind::Hemisphere,
            girth_seam: SeamBasis::None,
            longitudinal_seam: SeamBasis::None,
            plies: leaves.count("tank.overwrap.ply").min(MAX_PLIES),
            ply_kinds: [PlyKind::Hoop; MAX_PLIES],
            winding: leaves.any_below("tank.overwrap.winding"),
            girth_allowance: given("tank.liner.girth_seam.allowable_strain"),
            service: ServiceForm::of(|table| leaves.any_below(table)),
            fittings: leaves.count("tank.fitting").min(MAX_FITTINGS),
            fitting_kinds: [FittingHold::WoundIn; MAX_FITTINGS],
        },
        shape: Shape::Volume,
        load: LoadRule::Ullage,
        basis: PressureBasis::Closed,
        stated_pressure: given("pressure.stated"),
        relief: given("pressure.relief_setting"),
        stated_mass: given("mass.stated.tank"),
        burst_basis: if given("rule_set.burst_ratio") {
            BurstBasis::Proof
        } else {
            BurstBasis::Meop
        },
    }
}

fn fin_count(document: &Document, leaves: &Leaves, findings: &mut Findings) -> usize {
    let path = "fins.count";
    match leaves.get(path).map(|value| (value, value.as_i64())) {
        None if leaves.any_below("fins") => {
            if !leaves.in_doubt(path, findings) {
                let error = Error::Missing {
                    path: path.to_owned(),
                    doc: "number of fins, 3 or 4".to_owned(),
                    how: "write 3 or 4".to_owned(),
                };
                findings.note(document, At::Table(path), error);
            }
            3
        }
        None => 0,
        Some((_, Some(count @ (3 | 4)))) => count as usize,
        Some((Value::String(text), _)) if matches!(text.trim(), "3" | "4") => {
            let count = text.trim();
            let problem =
                format!("{path} = \"{text}\" is a text; write {path} = {count} without quotes");
            findings.note(document, At::Value(path), Error::Inconsistent(problem));
            3
        }
        Some((value, _)) => {
            let problem = format!(
                "{path} = {value}: three or four fins can be handled; write 3 or 4, or leave \
                 [fins] out for none"
            );
            findings.note(document, At::Value(path), Error::Inconsistent(problem));
            3
        }
    }
}

/// Sets the choices that are made; returns the paths of those that are not or not readably, on
/// which hangs what else is an input.
pub(super) fn set_choices(
    document: &Document,
    leaves: &Leaves,
    form: &mut Form,
    findings: &mut Findings,
) -> Vec<String> {
    let mut open = Vec::new();
    for (path, value) in leaves.iter() {
        let Some((choice, index)) = super::choices::find(path) else {
            continue;
        };
        let word = value.as_str().ok_or_else(|| Error::Unreadable {
            path: path.to_owned(),
            problem: format!(
                "{value} is not a word; choose {}, in quotes",
                words(choice.options)
            ),
        });
        if let Err(error) = word.and_then(|word| choice.set(form, index, path, word)) {
            findings.note(document, At::of(path, &error), error);
            open.push(path.to_owned());
        }
    }
    for choice in CHOICES.iter().filter(|choice| choice.default.is_none()) {
        for (path, _) in choice.made(form) {
            if leaves.get(&path).is_none() {
                if !leaves.in_doubt(&path, findings) {
                    let error = Error::Missing {
                        path: path.clone(),
                        doc: choice.doc.to_owned(),
                        how: format!("choose {}", words(choice.options)),
                    };
                    findings.note(document, At::Table(&path), error);
                }
                open.push(path);
            }
        }
    }
    open
}
