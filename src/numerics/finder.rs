//! Finding the cell between two knots without a search.

use super::real::Real;

/// Most bins that knots are found by.
const MOST_BINS: f64 = 1024.0;
/// Share of a bin by which a knot may miss the edge of one; at a knot either cell gives its value.
const ON_EDGE: f64 = 1e-9;

/// Even bins over the knots; each knows the cell that it begins in.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Finder {
    start: f64,
    per_bin: f64,
    cells: Vec<u16>,
    /// Whether every knot lies on the edge of a bin, so that no bin straddles one.
    aligned: bool,
}

impl Finder {
    /// For ascending knots, at least two.
    pub fn new(x: &[f64]) -> Self {
        let (start, last) = (x[0], x.len() - 1);
        let range = x[last] - start;
        let count = (range / narrowest(x) - ON_EDGE).ceil().min(MOST_BINS) as usize;
        let per_bin = count as f64 / range;
        let aligned = x.iter().all(|knot| {
            let place = (knot - start) * per_bin;
            (place - place.round()).abs() < ON_EDGE
        });
        let cell = |bin: usize| {
            let shift = if aligned { ON_EDGE } else { 0.0 };
            let begins = start + (bin as f64 + shift) / per_bin;
            x.partition_point(|knot| *knot <= begins).clamp(1, last) - 1
        };
        Self {
            start,
            per_bin,
            cells: (0..=count).map(|bin| cell(bin) as u16).collect(),
            aligned,
        }
    }

    /// The cell `k` with `x[k] <= at < x[k + 1]`, for a place within the knots; one on a knot may count
    /// to either side.
    #[inline]
    pub fn cell<R: Real>(&self, x: &[f64], at: R) -> R::Cell {
        if self.aligned {
            return ((at - self.start) * self.per_bin).locate(|place| {
                let (bin, _) = place.split();
                usize::from(self.cells[bin])
            });
        }
        at.locate(|at| self.stepwise(x, at))
    }

    /// From the bin on, a step or two.
    fn stepwise(&self, x: &[f64], at: f64) -> usize {
        let bin = ((at - self.start) * self.per_bin) as usize;
        let mut cell = usize::from(self.cells[bin.min(self.cells.len() - 1)]);
        // Rounding may have put `at` into the bin after its own.
        cell -= usize::from(at < x[cell] && cell > 0);
        while cell + 2 < x.len() && x[cell + 1] <= at {
            cell += 1;
        }
        cell
    }
}

/// Least distance of two knots.
pub(super) fn narrowest(x: &[f64]) -> f64 {
    let widths = x.windows(2).map(|pair| pair[1] - pair[0]);
    widths.fold(f64::INFINITY, f64::min)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every_place_falls_into_its_own_cell(x: &[f64], aligned: bool) {
        let finder = Finder::new(x);
        assert_eq!(finder.aligned, aligned);
        let (first, last) = (x[0], x[x.len() - 1]);
        let between = (0..=5000).map(|k| first + (last - first) * f64::from(k) / 5000.0);
        let near = x.iter().flat_map(|x| [x.next_down(), *x, x.next_up()]);
        for at in between.chain(near).filter(|at| (first..=last).contains(at)) {
            let cell = finder.cell(x, at);
            let slack = 1e-8 * (x[cell + 1] - x[cell]);
            assert!(x[cell] - slack <= at && at <= x[cell + 1] + slack, "{at}");
        }
        assert!(finder.cell(x, f64::NAN) < x.len());
    }

    #[test]
    fn knots_on_an_even_grid() {
        every_place_falls_into_its_own_cell(&[0.0, 0.1, 0.2, 0.25, 0.6, 1.0, 1.05, 5.0], true);
        every_place_falls_into_its_own_cell(&[-1.0, 4.0], true);
    }

    #[test]
    fn any_other_knots() {
        let x = [-0.3, 0.1, 0.1 + 1e-9, 0.7, 0.7001, 2.0, 30.0];
        every_place_falls_into_its_own_cell(&x, false);
    }
}
