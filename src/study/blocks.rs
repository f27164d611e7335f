//! Designs of one form evaluated side by side, a block of lanes at a time.

use super::progress::Progress;
use crate::numerics::Lanes;
use crate::stage::{Form, INPUT_COUNT, Outcome, Point, RESULT_COUNT, outcome_slots, point};

/// Designs evaluated side by side.
pub(super) const LANES: usize = 8;

/// What is computed of a block: the whole chain, or a part of it.
pub(super) type Rooms = fn(&Form, &Point<Lanes<LANES>>) -> Outcome<Lanes<LANES>>;

/// Results of a block.
pub(super) struct Block {
    columns: [Lanes<LANES>; RESULT_COUNT],
}

impl Block {
    /// Evaluates `taken` designs, one to [`LANES`], that differ from `base` in what `varied` gives for
    /// each: slots and values. Lanes beyond the last design repeat it. None if the call was stopped.
    pub fn of<I: IntoIterator<Item = (usize, f64)>>(
        rooms: Rooms,
        form: &Form,
        base: &[f64; INPUT_COUNT],
        taken: usize,
        watch: &Progress,
        varied: impl Fn(usize) -> I,
    ) -> Option<Self> {
        if watch.is_cancelled() {
            return None;
        }
        let mut slots = base.map(|value| Lanes([value; LANES]));
        for lane in 0..LANES {
            for (slot, value) in varied(lane.min(taken - 1)) {
                slots[slot].0[lane] = value;
            }
        }
        let outcome = rooms(form, &point(&slots));
        watch.add(taken);
        let columns = outcome_slots(&outcome, Lanes([0.0; LANES]));
        Some(Self { columns })
    }

    /// One result of one design.
    pub fn result(&self, slot: usize, lane: usize) -> f64 {
        self.columns[slot].0[lane]
    }

    /// Results of one design.
    pub fn results(&self, lane: usize) -> [f64; RESULT_COUNT] {
        self.columns.map(|column| column.0[lane])
    }
}
