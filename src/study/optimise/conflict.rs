//! Which bounds no design meets together.

use super::bound::Bound;
use std::collections::BTreeMap;

/// The bounds of one combination, and how many of its designs met which of them.
pub(super) struct Looked {
    pub bounds: Vec<Bound>,
    pub met: BTreeMap<u128, usize>,
}

/// Bounds that stand in the way of every design.
pub(super) struct InTheWay {
    /// Those that no design looked at meets, whatever else holds.
    pub never: Vec<Bound>,
    /// Those that each some design meets, but none all of them; none of them could be spared for
    /// that.
    pub together: Vec<Bound>,
}

/// What stands in the way: what no design meets and, if there is no such bound, a set that excludes
/// itself. To find it, bounds are dropped one by one while the rest still cannot be met (a deletion
/// filter, as for infeasible linear programs: J. W. Chinneck and E. W. Dravnieks, "Locating Minimal
/// Infeasible Constraint Sets in Linear Programs", ORSA Journal on Computing 3 (1991), cited from
/// memory). A bound that a combination does not have counts as met there.
pub(super) fn in_the_way(looked: &[Looked]) -> InTheWay {
    let mut all: Vec<&Bound> = Vec::new();
    for bound in looked.iter().flat_map(|looked| &looked.bounds) {
        if !all.contains(&bound) {
            all.push(bound);
        }
    }
    // One row of designs: how many there are, and whether each bound is met.
    let rows: Vec<(usize, Vec<bool>)> = looked
        .iter()
        .flat_map(|looked| {
            let places: Vec<Option<usize>> = all
                .iter()
                .map(|bound| looked.bounds.iter().position(|own| own == *bound))
                .collect();
            looked.met.iter().map(move |(mask, count)| {
                let met = |place: &Option<usize>| place.is_none_or(|at| mask >> at & 1 == 1);
                (*count, places.iter().map(met).collect())
            })
        })
        .collect();
    let often = |bound: usize| -> usize {
        let met = rows.iter().filter(|(_, met)| met[bound]);
        met.map(|(count, _)| count).sum()
    };
    let named = |kept: Vec<usize>| kept.into_iter().map(|bound| all[bound].clone()).collect();
    // Of designs without results nothing is known.
    if rows.is_empty() {
        return InTheWay {
            never: Vec::new(),
            together: Vec::new(),
        };
    }
    let never: Vec<usize> = (0..all.len()).filter(|bound| often(*bound) == 0).collect();
    if !never.is_empty() {
        return InTheWay {
            never: named(never),
            together: Vec::new(),
        };
    }
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by_key(|bound| std::cmp::Reverse(often(*bound)));
    let mut kept: Vec<usize> = (0..all.len()).collect();
    for bound in order {
        let without: Vec<usize> = kept
            .iter()
            .copied()
            .filter(|other| *other != bound)
            .collect();
        let open = rows
            .iter()
            .any(|(_, met)| without.iter().all(|bound| met[*bound]));
        if !open {
            kept = without;
        }
    }
    InTheWay {
        never: Vec::new(),
        together: named(kept),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::RESULTS;

    fn bound(path: &str) -> Bound {
        let slot = RESULTS.slot(path).expect("a result");
        Bound::new(slot, super::super::bound::Side::AtLeast, 0.0)
    }

    fn paths(bounds: &[Bound]) -> Vec<&str> {
        bounds.iter().map(|bound| bound.path.as_str()).collect()
    }

    #[test]
    fn only_bounds_that_exclude_each_other_stay() {
        let looked = Looked {
            bounds: ["tank.mass", "ascent.apogee", "airframe.length"]
                .map(bound)
                .to_vec(),
            // First and third are met, first and second, never second and third.
            met: BTreeMap::from([(0b101, 4), (0b011, 2)]),
        };
        let found = in_the_way(&[looked]);
        assert_eq!(paths(&found.together), ["ascent.apogee", "airframe.length"]);
        assert!(found.never.is_empty());
    }

    #[test]
    fn what_is_never_met_is_told_alone() {
        let looked = Looked {
            bounds: ["tank.mass", "ascent.apogee", "airframe.length"]
                .map(bound)
                .to_vec(),
            met: BTreeMap::from([(0b100, 4), (0b000, 2)]),
        };
        let found = in_the_way(&[looked]);
        assert_eq!(paths(&found.never), ["tank.mass", "ascent.apogee"]);
        assert!(found.together.is_empty());
    }

    #[test]
    fn a_combination_without_a_bound_cannot_break_it() {
        let first = Looked {
            bounds: ["tank.mass", "ascent.apogee"].map(bound).to_vec(),
            met: BTreeMap::from([(0b01, 1)]),
        };
        let second = Looked {
            bounds: vec![bound("tank.mass")],
            met: BTreeMap::from([(0b0, 1)]),
        };
        let found = in_the_way(&[first, second]);
        assert_eq!(paths(&found.together), ["tank.mass", "ascent.apogee"]);
    }
}
