//! Drag coefficients over Mach number, as the ascent takes them at one altitude.

use super::sheet;
use crate::airframe::{BuildUp, Drag, DragTerms};
use crate::atmosphere::exact::HIGHEST_ALTITUDE;
use crate::error::{Error, Result};
use crate::quantity::{Field, fields, slots};
use crate::stage::chain::drag_terms;
use crate::stage::given::Stage;
use serde_json::json;
use std::sync::LazyLock;

slots! {
    /// Drag coefficients at one Mach number, on the frontal area.
    pub struct DragRow<R> {
        /// Mach number.
        mach: Ratio, Always;
        /// Drag coefficient in the coast.
        power_off: Ratio, Always;
        /// Drag coefficient at full thrust.
        power_on: Ratio, Always;
        /// Friction of the body.
        body_friction: Ratio, Body;
        /// Friction of the fins.
        fin_friction: Ratio, Body;
        /// Pressure drag of the nose, that of its shoulder included.
        nose: Ratio, Body;
        /// Wave drag of the fins' thickness.
        fins_wave: Ratio, Body;
        /// Base drag in the coast.
        base_power_off: Ratio, Body;
        /// Base drag at full thrust.
        base_power_on: Ratio, Body;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<DragRow<f64>>);

impl Stage {
    /// Drag coefficients at the Mach numbers of the columns that the ascent reads, with friction at
    /// the Reynolds numbers of an altitude above sea level, m, from -5 km to 86 km. Between rows the
    /// ascent takes pressure drag as a natural cubic spline and friction by its law, a stated table as
    /// a monotone cubic; beyond the last row its value holds. The terms add up to the coefficients.
    ///
    /// Errors: the altitude is outside the atmosphere; the design has a fault and no ascent.
    pub fn drag_rows(&self, altitude: f64) -> Result<Vec<DragRow<f64>>> {
        if !(-5_000.0..=HIGHEST_ALTITUDE).contains(&altitude) {
            return Err(Error::OutOfRange {
                path: "altitude".to_owned(),
                value: format!("{altitude} m"),
                lower: "-5000 m".to_owned(),
                upper: format!("{HIGHEST_ALTITUDE} m"),
                hint: "altitude of the air above sea level".to_owned(),
            });
        }
        sheet::read_flight(self, |flight, settled, _| {
            let reynolds = flight.air_at(altitude).unit_reynolds;
            let terms = self
                .form()
                .body()
                .map(|body| drag_terms(body, &self.point(), &settled.vehicle));
            let rows = flight.drag.mach().iter();
            rows.map(|&mach| row(flight.drag, terms.as_ref(), mach, reynolds))
                .collect()
        })
    }

    /// The rows as JSON: columns with units, the reference area and how to interpolate.
    pub fn drag_json(&self, altitude: f64) -> Result<String> {
        let rows = self.drag_rows(altitude)?;
        let stated = self.form().body().is_none();
        Ok(json!({
            "columns": sheet::columns(self, &FIELDS, &rows),
            "reference_area": self.outcome().airframe.frontal_area,
            "between": if stated {
                "a monotone cubic"
            } else {
                "pressure drag as a natural cubic spline and friction by its law"
            },
        })
        .to_string())
    }
}

fn row(drag: &Drag<f64>, terms: Option<&DragTerms<f64>>, mach: f64, reynolds: f64) -> DragRow<f64> {
    let [body_friction, fin_friction] = drag.friction(mach, reynolds).unwrap_or([0.0, 0.0]);
    let at = |power| terms.map(|terms| BuildUp::new(terms, mach, reynolds, power));
    let (off, on) = (at(0.0), at(1.0));
    let term =
        |built: &Option<BuildUp>, pick: fn(&BuildUp) -> f64| built.as_ref().map_or(0.0, pick);
    DragRow {
        mach,
        power_off: drag.coefficient(mach, reynolds, 0.0),
        power_on: drag.coefficient(mach, reynolds, 1.0),
        body_friction,
        fin_friction,
        nose: term(&off, |terms| terms.nose),
        fins_wave: term(&off, |terms| terms.fins_wave),
        base_power_off: term(&off, |terms| terms.base),
        base_power_on: term(&on, |terms| terms.base),
    }
}
