//! The mass statement: basic mass, growth allowance, predicted mass, centre of gravity.

mod statement;

pub use statement::{Group, Growth, Item, Line, MAX_ITEMS, MAX_LINES, Place, Statement};
