//! Dimensions of the tank, the nose and the fins.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use super::stability::BARROWMAN;
use crate::airframe::{CHORD_RANGE, FinRule, NoseRule};
use crate::quantity::Quantity as Q;
use crate::vessel::{ClosureKind, DiameterPair, Shape, TankForm, closure_depth, closure_volume};

const WRAP: &str = "fibre thickness over fibre volume fraction (definition)";

impl Sheet<'_> {
    /// Laminate thickness of all plies; nothing on a bare tank.
    fn wrap(&mut self, form: &TankForm) -> &'static str {
        if form.plies == 0 {
            return "";
        }
        self.result("overwrap_thickness", "geometry.overwrap_thickness");
        " + 2 * overwrap_thickness"
    }

    /// Depth and volume of a closure inside; gives their symbols.
    pub(super) fn dome(&mut self, form: &TankForm, side: &str) -> [String; 2] {
        let diameter = self.result("inner_diameter", "geometry.liner_inner_diameter");
        let kind = Self::kind(form, side);
        let (depth, volume) = match kind {
            ClosureKind::Hemisphere => (
                "inner_diameter / 2".to_owned(),
                "pi * inner_diameter ** 3 / 12".to_owned(),
            ),
            ClosureKind::Ellipsoid => (
                "inner_diameter / 4".to_owned(),
                "pi * inner_diameter ** 3 / 24".to_owned(),
            ),
            ClosureKind::Torisphere => {
                let [l, r] = self.dish(side);
                (
                    format!("inner_diameter * ({l} - sqrt(({l} - 0.5) * ({l} + 0.5 - 2 * {r})))"),
                    format!("torisphere_volume(inner_diameter, {l}, {r})"),
                )
            }
            ClosureKind::Isotensoid => {
                let k = self.turning(side);
                (
                    format!("isotensoid_closure_depth(inner_diameter, {k})"),
                    format!("isotensoid_closure_volume(inner_diameter, {k})"),
                )
            }
            ClosureKind::FlatClamped | ClosureKind::FlatSupported | ClosureKind::FlatBolted => {
                ("0".to_owned(), "0".to_owned())
            }
        };
        let closure = self.closure_of(side);
        let names = [format!("{side}_depth"), format!("{side}_volume")];
        self.step(
            &names[0],
            depth,
            Q::Length,
            &format!("inside depth of the {side} closure"),
            GEOMETRY,
        );
        self.as_computed(closure_depth(kind, &closure, diameter));
        self.step(
            &names[1],
            volume,
            Q::Volume,
            &format!("inside volume of the {side} closure"),
            GEOMETRY,
        );
        self.as_computed(closure_volume(kind, &closure, diameter));
        names
    }

    /// Crown and knuckle radius of a torisphere over its inside diameter.
    pub(super) fn dish(&mut self, side: &str) -> [String; 2] {
        ["crown", "knuckle"].map(|part| {
            let symbol = format!("{side}_{part}_ratio");
            self.input(&symbol, &format!("tank.{side}_closure.{part}_radius_ratio"));
            symbol
        })
    }

    /// Turning radius of an isotensoid over its inside radius; gives its symbol.
    pub(super) fn turning(&mut self, side: &str) -> String {
        let symbol = format!("{side}_turning_ratio");
        self.input(
            &symbol,
            &format!("tank.{side}_closure.turning_radius_ratio"),
        );
        symbol
    }

    /// Depth of both closures with their thickness.
    fn depths(&mut self, form: &TankForm) {
        for side in ["fore", "aft"] {
            self.dome(form, side);
            let length = if Self::kind(form, side).is_bolted() {
                format!("tank.{side}_closure.bolts.rim_length")
            } else {
                format!("tank.{side}_closure.thickness")
            };
            self.input(&format!("{side}_length"), &length);
        }
        self.step(
            "depths",
            "fore_depth + aft_depth + fore_length + aft_length",
            Q::Length,
            "both closures over their thickness, or a bolted bulkhead's rim",
            GEOMETRY,
        );
    }
}

/// Writes the sheet; for fins that are solved for, how.
pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) -> Option<(String, String)> {
    match leaf {
        "nose_length" => nose(sheet),
        "fin_root_chord" => return fin_root_chord(sheet),
        "fin_span" => {
            sheet.result("root_chord", "geometry.fin_root_chord");
            sheet.input("span_ratio", "fins.span_ratio");
            sheet.end("root_chord * span_ratio", DEFINITION);
        }
        _ => {
            if let Some((form, _)) = sheet.tank() {
                match leaf {
                    "cylinder_length" | "tank_volume" | "tank_length" => size(sheet, &form, leaf),
                    _ => across(sheet, &form, leaf),
                }
            }
        }
    }
    None
}

/// Diameters and walls.
fn across(sheet: &mut Sheet<'_>, form: &TankForm, leaf: &str) {
    match leaf {
        "tank_outer_diameter" => {
            let wrap = sheet.wrap(form);
            sheet.result("liner_outer", "geometry.liner_outer_diameter");
            sheet.end(format!("liner_outer{wrap}"), GEOMETRY);
        }
        "liner_outer_diameter" => match form.diameters {
            DiameterPair::OuterAndWall | DiameterPair::OuterAndInner => {
                sheet.input("outer_diameter", "tank.outer_diameter");
                let wrap = sheet.wrap(form).replace('+', "-");
                sheet.end(format!("outer_diameter{wrap}"), GEOMETRY);
            }
            DiameterPair::LinerOuterAndWall | DiameterPair::LinerOuterAndInner => {
                sheet.input("outer_diameter", "tank.liner.outer_diameter");
                sheet.end("outer_diameter", DEFINITION);
            }
            DiameterPair::InnerAndWall => {
                sheet.input("inner_diameter", "tank.liner.inner_diameter");
                sheet.input("wall", "tank.liner.wall");
                sheet.end("inner_diameter + 2 * wall", GEOMETRY);
            }
        },
        "liner_inner_diameter" => match form.diameters {
            DiameterPair::OuterAndWall | DiameterPair::LinerOuterAndWall => {
                sheet.result("liner_outer", "geometry.liner_outer_diameter");
                sheet.input("wall", "tank.liner.wall");
                sheet.end("liner_outer - 2 * wall", GEOMETRY);
            }
            _ => {
                sheet.input("inner_diameter", "tank.liner.inner_diameter");
                sheet.end("inner_diameter", DEFINITION);
            }
        },
        "liner_wall" => {
            sheet.result("liner_outer", "geometry.liner_outer_diameter");
            sheet.result("inner_diameter", "geometry.liner_inner_diameter");
            sheet.end("(liner_outer - inner_diameter) / 2", GEOMETRY);
        }
        "liner_minimum_wall" => {
            sheet.result("wall", "geometry.liner_wall");
            sheet.input("under_tolerance", "tank.liner.wall_under_tolerance");
            sheet.end(
                "wall * (1 - under_tolerance)",
                "strength is judged by the least wall that the tolerance leaves",
            );
        }
        "overwrap_thickness" => {
            sheet.input(
                "fibre_volume_fraction",
                "tank.overwrap.fibre_volume_fraction",
            );
            let plies: Vec<String> = (0..form.plies)
                .map(|ply| {
                    let symbol = format!("fibre_thickness_{ply}");
                    sheet.input(
                        &symbol,
                        &format!("tank.overwrap.ply[{ply}].fibre_thickness"),
                    );
                    symbol
                })
                .collect();
            sheet.end(
                format!("({}) / fibre_volume_fraction", plies.join(" + ")),
                WRAP,
            );
        }
        _ => {
            sheet.result("length", "geometry.tank_length");
            sheet.result("outer_diameter", "geometry.tank_outer_diameter");
            sheet.end("length / outer_diameter", DEFINITION);
        }
    }
}

/// Length, volume and cylinder by the follow rule of the tank.
fn size(sheet: &mut Sheet<'_>, form: &TankForm, leaf: &str) {
    let Some(side) = &sheet.form.tank else { return };
    let shape = side.shape;
    match (leaf, shape) {
        ("cylinder_length", Shape::Volume) => {
            let [_, fore] = sheet.dome(form, "fore");
            let [_, aft] = sheet.dome(form, "aft");
            sheet.input("volume", "tank.volume");
            sheet.end(
                format!("(volume - {fore} - {aft}) / (pi / 4 * inner_diameter ** 2)"),
                GEOMETRY,
            );
        }
        ("cylinder_length", Shape::Length) => {
            sheet.depths(form);
            sheet.input("length", "tank.length");
            sheet.end("length - depths", GEOMETRY);
        }
        ("cylinder_length", Shape::Fineness) => {
            sheet.depths(form);
            sheet.input("fineness_ratio", "tank.fineness_ratio");
            sheet.result("outer_diameter", "geometry.tank_outer_diameter");
            sheet.end("fineness_ratio * outer_diameter - depths", GEOMETRY);
        }
        ("tank_volume", _) => {
            let [_, fore] = sheet.dome(form, "fore");
            let [_, aft] = sheet.dome(form, "aft");
            sheet.result("cylinder_length", "geometry.cylinder_length");
            sheet.end(
                format!("pi / 4 * inner_diameter ** 2 * cylinder_length + {fore} + {aft}"),
                GEOMETRY,
            );
        }
        _ => {
            sheet.depths(form);
            sheet.result("cylinder_length", "geometry.cylinder_length");
            sheet.end("cylinder_length + depths", GEOMETRY);
        }
    }
}

fn nose(sheet: &mut Sheet<'_>) {
    if sheet.form.body().map(|body| body.nose_rule) == Some(NoseRule::Length) {
        sheet.input("length", "nose.length");
        sheet.end("length", DEFINITION);
    } else {
        sheet.body_diameter();
        sheet.input("fineness_ratio", "nose.fineness_ratio");
        sheet.end("fineness_ratio * body_diameter", DEFINITION);
    }
}

fn fin_root_chord(sheet: &mut Sheet<'_>) -> Option<(String, String)> {
    match sheet.form.body()?.fins.rule {
        FinRule::Size => {
            sheet.input("root_chord", "fins.root_chord");
            sheet.end("root_chord", DEFINITION);
            None
        }
        FinRule::Calibres => {
            sheet.body_diameter();
            sheet.input("calibres", "fins.root_chord_calibres");
            sheet.end("calibres * body_diameter", DEFINITION);
            None
        }
        FinRule::StaticMargin => {
            sheet.input("asked_static_margin", "fins.static_margin");
            sheet.static_margin("static_margin", "mass.centre_of_gravity");
            let (least, most) = CHORD_RANGE;
            let text = format!(
                "Solved for: the root chord, between {least} and {most} body diameters, at which the \
                 static margin at lift-off is the one asked for, the fins' own mass included. The steps \
                 give the static margin at that chord."
            );
            Some((text, BARROWMAN.to_owned()))
        }
    }
}
