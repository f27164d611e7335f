//! The mass statement: basic mass, growth allowance, predicted mass, centre of gravity.

mod maturity;
mod statement;

pub use maturity::{MATURITIES, Maturity};
pub use statement::{Group, Growth, Item, Line, MAX_ITEMS, MAX_LINES, Place, Statement};
