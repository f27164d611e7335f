//! Drag coefficients of the coast: the sum of the build-up, and what the ascent's columns make of it.

use super::sheet::{DEFINITION, GEOMETRY, Sheet};
use crate::airframe::{BuildUp, NoseShape};
use crate::quantity::Quantity as Q;
use crate::stage::chain::drag_terms;
use crate::stage::chain::form::Shell;
use crate::stage::chain::results::{SUBSONIC, SUPERSONIC, TRANSONIC};

const FLEEMAN: &str = "E. L. Fleeman, \"Missile Design and System Engineering\", AIAA 2012, chapter 2.4, as \
    quoted from his course slides";
const RAMP: &str = "own choice; transonic drag rise deserves a measured table";
const PLATE: &str = "Prandtl and Schlichting, 1932, as quoted in public course material";
const RAYMER: &str =
    "D. P. Raymer, \"Aircraft Design: A Conceptual Approach\", AIAA, equations 12.27 to 12.29";

pub(super) fn write(sheet: &mut Sheet<'_>, leaf: &str) {
    let mach = match leaf {
        "subsonic" => SUBSONIC,
        "transonic" => TRANSONIC,
        _ => SUPERSONIC,
    };
    sheet.term(
        "mach",
        Q::Ratio,
        "Mach number of this result",
        DEFINITION,
        mach,
    );
    if let Shell::Stated(table) = &sheet.form.shell {
        let table = table.clone();
        stated(sheet, table.mach(), table.coefficients(), mach);
        return;
    }
    let Some(body) = sheet.form.body() else {
        return;
    };
    let terms = drag_terms(body, &sheet.point, &sheet.settled.vehicle);
    let unit_reynolds = sheet.flight.air_at(sheet.point.site.altitude).unit_reynolds;
    let room = BuildUp::new(&terms, mach, unit_reynolds, 0.0);
    sheet.step(
        "held_mach",
        "max(mach, 1.2)",
        Q::Ratio,
        "Mach number, held where formulas for supersonic flow begin",
        RAMP,
    );
    sheet.step(
        "rise",
        "min(max((mach - 0.8) / (1.2 - 0.8), 0), 1)",
        Q::Ratio,
        "place within the transonic range",
        RAMP,
    );
    sheet.step(
        "ramp",
        "rise ** 2 * (3 - 2 * rise)",
        Q::Share,
        "share of the wave drag that stands",
        RAMP,
    );
    nose(sheet, body.nose);
    sheet.as_computed(room.nose);
    base(sheet, mach);
    sheet.as_computed(room.base);
    sheet.term(
        "unit_reynolds",
        Q::Ratio,
        "decimal logarithm of the unit Reynolds number (1/m) at Mach 1 at the launch site",
        "air at the launch site",
        unit_reynolds,
    );
    friction(sheet);
    surface(
        sheet,
        "body",
        "length",
        "wetted_body",
        "60 / fineness ** 3 + fineness / 400",
    );
    sheet.as_computed(room.body_friction);
    let mut sum = "nose_drag + base_drag + body_friction".to_owned();
    if body.fins.count > 0 {
        fin_wave(sheet);
        sheet.as_computed(room.fins_wave);
        surface(
            sheet,
            "fin",
            "mean_chord",
            "wetted_fins",
            "2 * thickness_ratio",
        );
        sheet.as_computed(room.fin_friction);
        sum += " + fins_wave_drag + fin_friction";
    }
    let result = sheet.path.to_owned();
    let slot = crate::stage::chain::schema::RESULTS.slot(&result);
    let value = slot.map_or(f64::NAN, |slot| sheet.results[slot]);
    let total = sheet.step(
        "build_up",
        sum,
        Q::Ratio,
        "drag coefficient by the full build-up",
        DEFINITION,
    );
    sheet.term(
        "columns",
        Q::Ratio,
        "what the ascent's columns add: splines over Mach, tables of the law of friction",
        "interpolation between the columns' points, our own; value less build-up",
        value - total,
    );
    sheet.end(
        "build_up + columns",
        "the columns of the ascent, within their stated error of the build-up",
    );
}

/// A stated table: monotone cubic between its rows.
fn stated(sheet: &mut Sheet<'_>, mach: &[f64], coefficients: &[f64], at: f64) {
    let multiplier = sheet.input("table_multiplier", "drag.table_multiplier");
    let after = mach
        .iter()
        .position(|row| *row > at)
        .unwrap_or(mach.len() - 1)
        .max(1);
    let row = |place: usize| format!("({}, {})", mach[place], coefficients[place]);
    let origin = format!(
        "given (drag.table), monotone cubic between the rows {} and {}",
        row(after - 1),
        row(after)
    );
    let unit_reynolds = sheet.flight.air_at(sheet.point.site.altitude).unit_reynolds;
    let value = sheet.flight.drag.coefficient(at, unit_reynolds, 0.0);
    // A multiplier of zero leaves nothing to read the table from.
    let read = if multiplier == 0.0 {
        0.0
    } else {
        value / multiplier
    };
    sheet.term(
        "table_value",
        Q::Ratio,
        "coefficient of the table at this Mach number",
        &origin,
        read,
    );
    sheet.end("table_value * table_multiplier", DEFINITION);
}

fn nose(sheet: &mut Sheet<'_>, shape: NoseShape) {
    sheet.body_diameter();
    sheet.result("nose_length", "geometry.nose_length");
    sheet.result("frontal_diameter", "airframe.frontal_diameter");
    sheet.input("wave_multiplier", "drag.wave_multiplier");
    sheet.step(
        "nose_fineness",
        "nose_length / body_diameter",
        Q::Ratio,
        "fineness ratio of the nose",
        DEFINITION,
    );
    sheet.step(
        "nose_share",
        "(body_diameter / frontal_diameter) ** 2",
        Q::Share,
        "base of the nose over frontal area",
        GEOMETRY,
    );
    let formula = match shape {
        NoseShape::VonKarman => {
            sheet.step(
                "nose_wave",
                "1 / nose_fineness ** 2",
                Q::Ratio,
                "wave drag of von Karman's nose",
                "slender-body theory",
            );
            "nose_wave * ramp * nose_share * wave_multiplier"
        }
        NoseShape::Cone => {
            sheet.step(
                "nose_wave",
                "(1.59 + 1.83 / held_mach ** 2) * atan(0.5 / nose_fineness) ** 1.69",
                Q::Ratio,
                "wave drag of the cone (Bonney's fit)",
                FLEEMAN,
            );
            sheet.step(
                "shoulder",
                "0.8 * (0.5 / nose_fineness) ** 2 / ((0.5 / nose_fineness) ** 2 + 1)",
                Q::Ratio,
                "subsonic pressure drag of the shoulder, 0.8 sin^2 of the half angle",
                "from memory: Hoerner, \"Fluid-Dynamic Drag\", 1965",
            );
            "(nose_wave * ramp + shoulder * (1 - ramp)) * nose_share * wave_multiplier"
        }
    };
    sheet.step(
        "nose_drag",
        formula,
        Q::Ratio,
        "pressure drag of the nose",
        DEFINITION,
    );
}

fn fin_wave(sheet: &mut Sheet<'_>) {
    sheet.fin();
    sheet.input("fin_thickness", "fins.thickness");
    sheet.step(
        "thickness_ratio",
        "fin_thickness / mean_chord",
        Q::Ratio,
        "thickness over mean chord",
        DEFINITION,
    );
    sheet.step(
        "fins_wave_drag",
        "4 * thickness_ratio ** 2 / sqrt(held_mach ** 2 - 1) * ramp * fin_count * fin_area / frontal_area \
         * wave_multiplier",
        Q::Ratio,
        "wave drag of the fins",
        "Ackeret's linear theory, double wedge, unswept",
    );
}

fn base(sheet: &mut Sheet<'_>, mach: f64) {
    sheet.input("base_multiplier", "drag.base_multiplier");
    let formula = if mach < 1.0 {
        "(0.12 + 0.13 * mach ** 2) * base_multiplier"
    } else {
        "0.25 / mach * base_multiplier"
    };
    sheet.step(
        "base_drag",
        formula,
        Q::Ratio,
        "base drag, power off",
        FLEEMAN,
    );
}

/// What both surfaces share.
fn friction(sheet: &mut Sheet<'_>) {
    sheet.result("frontal_area", "airframe.frontal_area");
    sheet.result("length", "airframe.length");
    sheet.result("wetted_area", "airframe.wetted_area");
    sheet.input("roughness", "skin.sand_grain_roughness");
    sheet.input("friction_multiplier", "drag.friction_multiplier");
    sheet.step(
        "fineness",
        "length / body_diameter",
        Q::Ratio,
        "fineness ratio of the body",
        DEFINITION,
    );
    let body = if sheet.fin_count() > 0 {
        sheet.fin();
        sheet.step(
            "wetted_fins",
            "2 * fin_count * fin_area",
            Q::Area,
            "wetted area of the fins",
            GEOMETRY,
        );
        "wetted_area - wetted_fins"
    } else {
        "wetted_area"
    };
    sheet.step(
        "wetted_body",
        body,
        Q::Area,
        "wetted area of the body",
        GEOMETRY,
    );
    sheet.step(
        "compressibility",
        "(1 + 0.144 * mach ** 2) ** -0.65",
        Q::Ratio,
        "compressible over incompressible friction",
        RAYMER,
    );
    sheet.step(
        "cut_off_shift",
        "max(log10(38.21), log10(44.62) + 1.16 * log10(mach))",
        Q::Ratio,
        "part of the cut-off Reynolds number's logarithm that comes from the Mach number",
        RAYMER,
    );
    sheet.step(
        "form_rise",
        "min(max((mach - 0.8) / 0.2, 0), 1)",
        Q::Ratio,
        "place between Mach 0.8 and 1",
        RAMP,
    );
    sheet.step(
        "form_share",
        "1 - form_rise ** 2 * (3 - 2 * form_rise)",
        Q::Share,
        "share of the subsonic form factor that stands",
        RAMP,
    );
}

/// Friction of one surface by length, wetted area and form factor.
fn surface(sheet: &mut Sheet<'_>, name: &str, length: &str, wetted: &str, form: &str) {
    let smooth = format!("{name}_reynolds");
    let rough = format!("{name}_cut_off");
    sheet.step(
        &smooth,
        format!("log10({length}) + log10(mach) + unit_reynolds"),
        Q::Ratio,
        &format!("decimal logarithm of the Reynolds number on the {length}"),
        DEFINITION,
    );
    sheet.step(
        &rough,
        format!("1.053 * log10({length} / max(roughness, 1e-9)) + cut_off_shift"),
        Q::Ratio,
        "decimal logarithm of the cut-off Reynolds number of the roughness",
        RAYMER,
    );
    sheet.step(
        &format!("{name}_plate"),
        format!("0.455 * max(min({smooth}, {rough}), 5) ** -2.58"),
        Q::Ratio,
        "friction coefficient of the plate, turbulent, smooth or at its cut-off",
        PLATE,
    );
    let source = if name == "body" {
        "Raymer, as for the cut-off, older editions (the number 12.31 is from memory)"
    } else {
        "from memory: Hoerner, \"Fluid-Dynamic Drag\", 1965 (leading term)"
    };
    sheet.step(
        &format!("{name}_form"),
        form,
        Q::Ratio,
        "what the form factor adds to one at low speed",
        source,
    );
    sheet.step(
        &format!("{name}_friction"),
        format!(
            "{name}_plate * {wetted} / frontal_area * (1 + {name}_form * form_share) * compressibility \
             * friction_multiplier"
        ),
        Q::Ratio,
        &format!("friction of the {name}"),
        DEFINITION,
    );
}
