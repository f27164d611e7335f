//! How many of the plies listed are wound.

use super::stage::{Origin, Stage};
use crate::error::{Error, Result};
use crate::stage::chain::schema::INPUTS;
use crate::vessel::MAX_PLIES;
use serde_json::Value;

/// Path of the count.
pub(super) const PLIES: &str = "tank.overwrap.plies";

/// Reads the count: of `listed` plies the first ones, from the liner outwards.
pub(super) fn wound(value: &Value, listed: usize) -> Result<usize> {
    let count = value.as_f64().filter(|count| {
        let whole = count.fract() == 0.0;
        whole && (0.0..=listed as f64).contains(count)
    });
    count.map(|count| count as usize).ok_or_else(|| {
        Error::Inconsistent(format!(
            "{PLIES} = {value} is no count of the plies listed, which are {listed}; write a whole \
             number from 0 to {listed}"
        ))
    })
}

impl Stage {
    /// How many plies are listed, wound or not.
    pub(in crate::stage) fn plies_listed(&self) -> usize {
        let listed = |index: &usize| {
            let slot = INPUTS.slot(&format!("tank.overwrap.ply[{index}].angle"));
            slot.is_some_and(|slot| self.origins[slot] != Origin::Absent)
        };
        (0..MAX_PLIES).take_while(listed).count()
    }

    /// Winds the first plies of those listed.
    pub(super) fn wind(&mut self, value: &Value) -> Result<()> {
        let plies = wound(value, self.plies_listed())?;
        if let Some(side) = &mut self.form.tank {
            side.tank.plies = plies;
        }
        Ok(())
    }
}
