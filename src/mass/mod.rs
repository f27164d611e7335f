//! The mass statement: basic mass, growth allowance, predicted mass, centre of gravity.
//!
//! Takes basic masses and growth allowances; hands sums and centres of gravity to the vehicle. In reading
//! order: `statement`, then `maturity` (growth allowances on record, with their sources).

mod maturity;
mod statement;

pub use maturity::{MATURITIES, Maturity};
pub use statement::{Group, Growth, Item, Line, MAX_ITEMS, MAX_LINES, Place, Statement};
