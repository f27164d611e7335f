//! The drag of a stage by term.

use crate::airframe::DragTerms;
use crate::error::{Error, Result};
use crate::stage::chain::{drag_terms, settle};
use crate::stage::given::Stage;

impl Stage {
    /// What the drag of the drawn body is made of, for a
    /// [`BuildUp`](crate::airframe::BuildUp) at any Mach and Reynolds number.
    ///
    /// Errors: the drag is stated as a table, which has no terms, or the design does not close.
    pub fn drag_terms(&self) -> Result<DragTerms<f64>> {
        let Some(body) = self.form().body() else {
            return Err(Error::Inconsistent(
                "the drag is stated by drag.table and cannot be told apart by term; describe \
                 [nose], [skin], [fins] and bays instead"
                    .to_owned(),
            ));
        };
        let point = self.point();
        let settled = settle(self.form(), &point);
        settled.status.refuse_fault()?;
        Ok(drag_terms(body, &point, &settled.vehicle))
    }
}
