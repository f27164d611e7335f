//! How long the steps are: short where the drag bends with Mach number, long elsewhere.
//!
//! What a step misses is how the drag bends within it. Equal steps in time or speed spend nearly all of their
//! error on the few that cross the speed of sound.

use crate::numerics::{Mask, Real};

/// How much longer the steps of the coast are where the drag is not steep. Own choice, by the scan of vehicles
/// against an integrator from elsewhere (tests/validation/oracle).
const LONGER: f64 = 2.5;
/// Largest number of steps that steep drag makes of a longest one (own choice); only what no vehicle
/// survives comes near it.
const FINEST: f64 = 64.0;

/// The steps of an interval of the burn, in pairs of equal ones, each as long as the state at its start
/// allows. They depend on the design alone; in a block the designs that are through wait for the others.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pacing<R> {
    /// Where the next pair starts.
    pub place: R,
    end: R,
    /// Length of the longest and the shortest pair.
    lengths: [R; 2],
    /// Mach numbers between which the drag is steep, and how many of them a pair passes there.
    steep: [f64; 2],
    passes: f64,
}

/// Two steps of one length, or a single one.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pair<R: Real> {
    pub place: R,
    /// Length of a step.
    pub step: R,
    /// Which designs take the first and the second step.
    pub goes: [R::Mask; 2],
}

impl<R: Real> Pacing<R> {
    /// Between two places by steps no longer than `longest`, and where the drag is steep each by no more than
    /// `mach` Mach numbers.
    pub fn new([place, end]: [R; 2], longest: R, steep: [f64; 2], mach: f64) -> Self {
        Self {
            place,
            end,
            lengths: [2.0, 2.0 / FINEST].map(|steps| longest * steps),
            steep,
            passes: 2.0 * mach,
        }
    }

    /// Which designs are through.
    pub fn through(&self) -> R::Mask {
        !self.place.lt(self.end)
    }

    /// The same where the mask is true, the other one's way from where it stands elsewhere: for intervals that
    /// some designs enter and others are in.
    pub fn entered(self, before: &Self, enters: R::Mask) -> Self {
        Self {
            place: self.place.select(before.place, enters),
            ..self
        }
    }

    /// The next pair, if any design has one left, at a Mach number and its change with the place.
    ///
    /// Outside of the steep drag no pair is longer than the way to it. What is left is shared out evenly,
    /// so that the last pair is not much shorter than those before. Where one longest step reaches the end
    /// it stands alone.
    pub fn pair(&mut self, mach: R, rate: R) -> Option<Pair<R>> {
        let left = self.end - self.place;
        let goes = left.above(0.0);
        if !goes.any() {
            return None;
        }
        let [longest, shortest] = self.lengths;
        let [low, high] = self.steep;
        let away = (R::splat(low) - mach).max(mach - high);
        let near = away.max(R::splat(self.passes)) / rate;
        let short = near.lt(longest);
        let wanted = left / near.select(longest, short).max(shortest);
        // Rounded up, but for a hair that rounding may have added.
        let wanted = wanted - 1e-6;
        let (_, part) = wanted.split();
        let pairs = (wanted - part + 1.0).max(R::splat(1.0));
        let single = !short & !(longest * 0.5).lt(left);
        let share = R::splat(1.0).select(R::splat(0.5), single);
        let step = left / pairs * share;
        let pair = Pair {
            place: self.place,
            step,
            goes: [goes, goes & !single],
        };
        self.place = self.end.select(self.place + step * 2.0, pairs.below(1.5));
        Some(pair)
    }
}

/// The steps of the coast, in pairs of equal ones against speed. Their number is that of the grid, and their
/// lengths change smoothly with the design.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spread<R> {
    /// Speeds below and within the steep drag.
    below: R,
    within: R,
    /// Length of a pair where the drag is not steep.
    pair: R,
}

impl<R: Real> Spread<R> {
    /// From a speed down to zero by an even number of steps, short between two speeds.
    pub fn new(from: R, steps: usize, [low, high]: [R; 2]) -> Self {
        let below = low.min(from);
        let within = high.min(from) - below;
        let above = (from - high).max(R::splat(0.0));
        Self {
            below,
            within,
            pair: (below + within * LONGER + above) * (2.0 / steps as f64),
        }
    }

    /// The speed from which `pairs` pairs are left.
    pub fn speed(&self, pairs: usize) -> R {
        let zero = R::splat(0.0);
        let place = self.pair * pairs as f64;
        let inside = (place - self.below) * (1.0 / LONGER);
        let above = (inside - self.within).max(zero) * LONGER;
        place.min(self.below) + inside.max(zero).min(self.within) + above
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Steps of eight seconds in which the Mach number grows evenly.
    fn lengths(steep: [f64; 2], rate: f64) -> Vec<f64> {
        let mut pacing = Pacing::new([0.0, 8.0], 1.0, steep, 0.05);
        let mut all = Vec::new();
        while let Some(pair) = pacing.pair(pacing.place * rate, rate) {
            all.extend([pair.step; 2]);
        }
        all
    }

    /// Mach number grows by 0.2 a second: steps of a second, but of a quarter from 0.8 to 1.2.
    #[test]
    fn steps_are_short_where_the_drag_is_steep() {
        let all = lengths([0.8, 1.2], 0.2);
        assert!((all.iter().sum::<f64>() - 8.0).abs() < 1e-12, "{all:?}");
        let mut mach = 0.0;
        for step in &all {
            let inside = (0.8..1.2).contains(&mach);
            assert!(!inside || *step <= 0.25, "{step} s at Mach {mach}");
            mach += 0.2 * step;
        }
        assert!(all[0] > 0.5 && all.len() < 24, "{all:?}");
        assert_eq!(lengths([1.7, 1.7], 0.2), vec![1.0; 8]);
    }

    #[test]
    fn one_longest_step_to_the_end_stands_alone() {
        let mut pacing = Pacing::new([0.25, 1.0], 1.0, [0.8, 1.2], 0.05);
        let pair = pacing.pair(0.0, 0.1).expect("a step");
        assert_eq!((pair.step, pair.goes), (0.75, [true, false]));
        assert!(pacing.pair(0.0, 0.1).is_none());
    }

    #[test]
    fn the_coast_ends_at_rest_and_begins_at_its_speed() {
        for from in [100.0, 300.0, 900.0] {
            let spread = Spread::new(from, 28, [250.0, 400.0]);
            assert_eq!(spread.speed(0), 0.0);
            assert!((spread.speed(14) - from).abs() < 1e-12 * from);
        }
        let spread = Spread::new(900.0, 28, [250.0, 400.0]);
        let pairs: Vec<f64> = (0..14)
            .map(|k| spread.speed(k + 1) - spread.speed(k))
            .collect();
        assert!((pairs[13] / pairs[4] - LONGER).abs() < 1e-12, "{pairs:?}");
    }
}
