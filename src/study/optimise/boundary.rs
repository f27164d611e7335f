//! The boundary between designs that meet everything and designs that do not, along one variable.

use super::brent;
use super::judge::{Judge, Place};
use crate::error::{Error, Result};

/// How far apart the two sides of a boundary may end, as a share of the variable's span; our own.
pub(super) const BRACKET: f64 = 1e-12;

/// The last design that meets everything before one that does not, between the two.
pub(super) fn boundary(judge: &Judge<'_>, inside: &Place, outside: &Place) -> Result<Place> {
    let width = BRACKET * judge.span(0);
    let mut bracket = Bracket {
        inside: inside.clone(),
        outside: outside.at[0],
    };
    let mut failed = None;
    if outside.seen.sound() {
        brent::root(inside.at[0], outside.at[0], width, |at| {
            let place = kept(&mut failed, judge.place(&[at]))?;
            let sound = place.seen.sound();
            let worst = place.seen.worst;
            bracket.take(place);
            sound.then_some(worst)
        });
    }
    if let Some(error) = failed {
        return Err(error);
    }
    bracket.close(judge, width)?;
    Ok(bracket.inside)
}

/// The value of a result, or none with the error kept for the caller.
pub(super) fn kept<T>(failed: &mut Option<Error>, result: Result<T>) -> Option<T> {
    match result {
        Ok(value) => Some(value),
        Err(error) => {
            *failed = Some(error);
            None
        }
    }
}

struct Bracket {
    inside: Place,
    outside: f64,
}

impl Bracket {
    /// Narrows the bracket by a design between its sides.
    fn take(&mut self, place: Place) {
        let at = place.at[0];
        let (low, high) = (
            self.inside.at[0].min(self.outside),
            self.inside.at[0].max(self.outside),
        );
        if !(low..=high).contains(&at) {
            return;
        }
        if place.seen.meets() {
            self.inside = place;
        } else {
            self.outside = at;
        }
    }

    /// Brent's method often comes from one side only: first a step across, then halves.
    fn close(&mut self, judge: &Judge<'_>, width: f64) -> Result<()> {
        let apart = |bracket: &Self| bracket.outside - bracket.inside.at[0];
        for from_inside in [true, false] {
            let gap = apart(self);
            if gap.abs() > width {
                let step = width.copysign(gap);
                let at = if from_inside {
                    self.inside.at[0] + step
                } else {
                    self.outside - step
                };
                self.take(judge.place(&[at])?);
            }
        }
        loop {
            let middle = 0.5 * (self.inside.at[0] + self.outside);
            let ends = [self.inside.at[0], self.outside];
            if apart(self).abs() <= width || ends.contains(&middle) {
                return Ok(());
            }
            self.take(judge.place(&[middle])?);
        }
    }
}
