//! The mass statement: basic mass, growth allowance, predicted mass, centre of gravity, inertia.
//!
//! Takes basic masses and growth allowances; hands sums, centres of gravity and moments of inertia to the
//! vehicle. In reading order: `statement`, then `spread` and `inertia`, `maturity` (growth allowances on
//! record, with their sources).

mod inertia;
mod maturity;
mod spread;
mod statement;

pub use inertia::{Inertia, inertia};
pub use maturity::{MATURITIES, Maturity};
pub use spread::Spread;
pub use statement::{Group, Growth, Item, Line, MAX_ITEMS, MAX_LINES, Place, Statement};
