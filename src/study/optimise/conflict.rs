//! Which bounds no design meets together.

use super::bound::Bound;
use std::collections::BTreeMap;

/// The bounds of one combination, and how many of its designs met which of them.
pub(super) struct Looked {
    pub bounds: Vec<Bound>,
    pub met: BTreeMap<u128, usize>,
}

/// Bounds that no design looked at meets together, none of which could be spared for that:
/// what is met anyway is dropped one by one (a deletion filter as for infeasible linear programs: J.
/// W. Chinneck and E. W. Dravnieks, "Locating Minimal Infeasible Constraint Sets in Linear Programs",
/// ORSA Journal on Computing 3 (1991), cited from memory). A bound that a combination does not have
/// counts as met there.
pub(super) fn conflict(looked: &[Looked]) -> Vec<Bound> {
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
    kept.into_iter().map(|bound| all[bound].clone()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::RESULTS;

    fn bound(path: &str) -> Bound {
        let slot = RESULTS.slot(path).expect("a result");
        Bound::new(slot, super::super::bound::Side::AtLeast, 0.0)
    }

    #[test]
    fn only_bounds_that_exclude_each_other_stay() {
        let paths = ["tank.mass", "ascent.apogee", "airframe.length"];
        let looked = Looked {
            bounds: paths.map(bound).to_vec(),
            // First and third are met, first and second, never second and third.
            met: BTreeMap::from([(0b101, 4), (0b011, 2)]),
        };
        let found = conflict(&[looked]);
        let found: Vec<&str> = found.iter().map(|bound| bound.path.as_str()).collect();
        assert_eq!(found, ["ascent.apogee", "airframe.length"]);
    }

    #[test]
    fn a_combination_without_a_bound_cannot_break_it() {
        let first = Looked {
            bounds: vec![bound("tank.mass"), bound("ascent.apogee")],
            met: BTreeMap::from([(0b01, 1)]),
        };
        let second = Looked {
            bounds: vec![bound("tank.mass")],
            met: BTreeMap::from([(0b0, 1)]),
        };
        let found = conflict(&[first, second]);
        let found: Vec<&str> = found.iter().map(|bound| bound.path.as_str()).collect();
        assert_eq!(found, ["tank.mass", "ascent.apogee"]);
    }
}
