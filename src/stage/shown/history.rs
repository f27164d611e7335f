//! The history of a stage's ascent.

use super::sheet;
use crate::ascent::{HISTORY, Instant, Moment, fly_recorded};
use crate::error::Result;
use crate::quantity::Choice;
use crate::stage::given::Stage;
use serde_json::json;

impl Stage {
    /// Every step of the ascent from lift-off to apogee, as it was flown for the assessment.
    ///
    /// The row at the end of thrust and the last row have the bits of the results. The largest
    /// axial acceleration of the rows is the result. The peaks of Mach number and dynamic pressure are
    /// taken inside a step, so that the largest row may lie below them: by less than 0.1 % on the
    /// packaged examples.
    ///
    /// Errors: the design has a fault and no ascent.
    ///
    /// ```
    /// use hoopline::stage::Stage;
    /// let stage = Stage::load("python/hoopline/examples/petrel_slim.toml".as_ref())?;
    /// let history = stage.history()?;
    /// let top = history[history.len() - 1].instant.altitude;
    /// assert_eq!(top, stage.outcome().ascent.apogee);
    /// # Ok::<(), hoopline::Error>(())
    /// ```
    pub fn history(&self) -> Result<Vec<Moment>> {
        sheet::read_flight(self, |flight, _, _| fly_recorded(flight).1)
    }

    /// The history as JSON: columns with units, and the phase of each row.
    pub fn history_json(&self) -> Result<String> {
        let moments = self.history()?;
        let rows: Vec<Instant<f64>> = moments.iter().map(|moment| moment.instant).collect();
        let phases: Vec<&str> = moments.iter().map(|moment| moment.phase.word()).collect();
        Ok(json!({
            "columns": sheet::columns(self, &HISTORY, &rows),
            "phase": phases,
        })
        .to_string())
    }
}
