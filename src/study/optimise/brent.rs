//! Brent's two methods along one variable. They end by themselves; whoever calls keeps what was seen,
//! since an error on the way loses their own record of it.

use argmin::core::{CostFunction, Error, Executor};
use argmin::solver::brent::{BrentOpt, BrentRoot};
use std::cell::RefCell;

/// More steps than either method needs to come to the last bit of a bracket.
const STEPS: u64 = 120;

/// A function of one variable; none ends the search.
struct Along<F>(RefCell<F>);

#[derive(Debug, thiserror::Error)]
#[error("nothing more to be seen here")]
struct Ended;

impl<F: FnMut(f64) -> Option<f64>> CostFunction for Along<F> {
    type Param = f64;
    type Output = f64;

    fn cost(&self, at: &f64) -> Result<f64, Error> {
        let seen = (self.0.borrow_mut())(*at);
        seen.ok_or_else(|| Ended.into())
    }
}

/// Closes in on a change of sign between two places of opposite sign.
pub(super) fn root(from: f64, to: f64, tolerance: f64, function: impl FnMut(f64) -> Option<f64>) {
    let solver = BrentRoot::new(from, to, tolerance);
    let along = Along(RefCell::new(function));
    // What came of it is with the caller's function, ended early or not.
    let _ = Executor::new(along, solver)
        .configure(|state| state.param(from).max_iters(STEPS))
        .run();
}

/// Closes in on a minimum between two places.
pub(super) fn minimum(
    from: f64,
    to: f64,
    tolerance: f64,
    function: impl FnMut(f64) -> Option<f64>,
) {
    let solver = BrentOpt::new(from, to).set_tolerance(f64::EPSILON.sqrt(), tolerance);
    let along = Along(RefCell::new(function));
    let _ = Executor::new(along, solver)
        .configure(|state| state.param(from).max_iters(STEPS))
        .run();
}
