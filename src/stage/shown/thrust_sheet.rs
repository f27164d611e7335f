//! Thrust and propellant left over time.

use super::sheet;
use crate::ascent::{Flight, Leg};
use crate::atmosphere::exact::SEA_LEVEL_PRESSURE;
use crate::error::Result;
use crate::quantity::{Field, fields, slots};
use crate::stage::given::Stage;
use serde_json::json;
use std::sync::LazyLock;

slots! {
    /// The motor at one instant.
    pub struct ThrustRow<R> {
        /// Time after ignition.
        time: Time, Always;
        /// Thrust at the ambient pressure it is given for; the flow of propellant follows it.
        thrust_at_basis: Force, Always;
        /// Thrust in vacuum.
        thrust_in_vacuum: Force, Always;
        /// Thrust at 101325 Pa.
        thrust_at_sea_level: Force, Always;
        /// Thrust at the ambient pressure of the launch site.
        thrust_at_site: Force, Always;
        /// Propellant left, residuals included.
        propellant_left: Mass, Always;
    }
}

static FIELDS: LazyLock<Vec<Field>> = LazyLock::new(fields::<ThrustRow<f64>>);

impl Stage {
    /// Thrust over time, from ignition to the end of thrust, by the longest steps of the ascent's grid.
    ///
    /// Between two rows thrust is linear at every pressure, and at a pressure `p` it is
    /// `thrust_in_vacuum - (thrust_in_vacuum - thrust_at_sea_level) p / 101325 Pa`. Propellant left is quadratic between
    /// rows; a straight line errs by less than `(change of thrust) x step / (8 x exhaust speed)`.
    ///
    /// Errors: the design has a fault and no ascent.
    pub fn thrust_rows(&self) -> Result<Vec<ThrustRow<f64>>> {
        sheet::read_flight(self, |flight, settled, _| {
            rows(flight, settled.load.propellant)
        })
    }

    /// The rows as JSON: columns with units.
    pub fn thrust_json(&self) -> Result<String> {
        let rows = self.thrust_rows()?;
        Ok(json!({"columns": sheet::columns(self, &FIELDS, &rows)}).to_string())
    }
}

fn rows(flight: &Flight<'_, f64>, loaded: f64) -> Vec<ThrustRow<f64>> {
    let steps = flight.steps(0).burn;
    let mut rows = vec![row(flight, loaded, &flight.leg(0.0), 0.0)];
    for interval in 0..flight.curve.intervals() {
        let leg = flight.leg(interval as f64);
        let count = flight.curve.steps(interval, steps);
        let ends = (1..=count).map(|k| leg.span * k as f64 / count as f64);
        rows.extend(ends.map(|within| row(flight, loaded, &leg, within)));
    }
    rows
}

fn row(flight: &Flight<'_, f64>, loaded: f64, leg: &Leg<f64>, within: f64) -> ThrustRow<f64> {
    let at = |pressure| leg.thrust(within, pressure).0;
    ThrustRow {
        time: leg.time + within,
        thrust_at_basis: at(flight.drive.reference_pressure),
        thrust_in_vacuum: at(0.0),
        thrust_at_sea_level: at(SEA_LEVEL_PRESSURE),
        thrust_at_site: at(flight.surface_pressure()),
        propellant_left: loaded - (flight.lift_off_mass - leg.mass(within)),
    }
}
