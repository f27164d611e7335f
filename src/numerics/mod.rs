//! The number kinds of the chain, interpolation and root finding.

mod dual;
mod even;
mod finder;
mod lanes;
mod polynomial;
mod real;
mod root;
mod spline;

pub use dual::Dual;
pub use even::{Cubic, EvenPlace, EvenTable, cubic_at, hermite_cell, sampled_cell};
pub use lanes::Lanes;
pub use polynomial::Polynomial;
pub use real::{Mask, Real};
pub use root::bracketed_newton;
pub use spline::{Column, Knots, Place};
