//! The number kinds of the chain, interpolation and root finding.
//!
//! Takes nothing from other rooms; hands [`Real`] and its kinds to all of them. In reading order:
//!
//! - numbers: `real`, `lanes`, `dual`;
//! - curves: `even` and `polynomial` for what is the same for every design, `spline` over `finder` for what
//!   differs from design to design;
//! - equations: `root`.

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
