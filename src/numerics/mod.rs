//! The number kinds of the chain, interpolation and root finding.

mod dual;
mod lanes;
mod real;
mod root;
mod spline;

pub use dual::Dual;
pub use lanes::Lanes;
pub use real::{Mask, Real};
pub use root::bracketed_newton;
pub use spline::{Column, Knots, Place};
