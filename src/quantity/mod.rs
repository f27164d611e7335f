//! Quantities and their units at the border. Inside, every number is SI.
//!
//! Takes text and numbers from files and objects; hands SI to every room, and every room its table. In
//! reading order: `unit`, `reading`, `limits`; `field` (the table behind every number), `choice`.

mod choice;
pub(crate) mod field;
mod limits;
mod reading;
mod unit;

pub use choice::Choice;
pub(crate) use choice::choice;
pub use field::{Applies, Field, Slots};
pub(crate) use field::{fields, slots};
pub(crate) use limits::{in_range, missing_number, number, unlimited};
pub(crate) use reading::show_apart;
pub use reading::{read, show, wanted};
pub use unit::{OTHER_SIGNS, Quantity, Unit};
