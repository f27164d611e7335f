//! Stress where the cylinder meets a closure.

use super::sheet::Sheet;
use crate::quantity::Quantity as Q;
use crate::stage::shown::junctions::junctions;

impl Sheet<'_> {
    /// Largest equivalent stress at a junction per pressure, and where it is.
    pub(super) fn junction(&mut self, side: &'static str, proof: f64) {
        let (Some(tank), Some(size)) = (self.form.tank.as_ref(), self.settled.size) else {
            return;
        };
        let both = junctions(tank, &self.point, &size, proof);
        let Some(found) = both.into_iter().find(|junction| junction.side == side) else {
            return;
        };
        let doc = format!(
            "largest equivalent stress within a quarter of the edge wave, over the pressure: {}",
            found.place()
        );
        self.term(
            "junction_stress",
            Q::Ratio,
            &doc,
            "cylinder and closure as thin shells that meet with one displacement and one turn (beam on \
             elastic foundation; Reissner's shell of revolution, or Kirchhoff's plate)",
            found.worst.stress,
        );
    }
}
