//! Yield and ultimate strength in their order.

use crate::error::Error;

/// Names of yield and ultimate strength, of the parent metal and of the weld zone.
pub(crate) const STRENGTHS: [[&str; 2]; 2] = [
    ["yield_strength", "ultimate_strength"],
    ["weld_zone_yield_strength", "weld_zone_ultimate_strength"],
];

/// What is wrong where yield lies above the ultimate strength: both are stresses of one tensile test, and
/// the second is that at its largest force (ISO 6892-1, clause 3, from memory). `table` is where they stand,
/// `shown` how both are written.
pub(crate) fn out_of_order(table: &str, [yields, breaks]: [&str; 2], shown: [&str; 2]) -> Error {
    Error::Inconsistent(format!(
        "{table}.{yields} = {} is above {table}.{breaks} = {}; the ultimate strength is the stress at the \
         largest force of the tensile test, so that yield cannot lie above it: look up both in their source",
        shown[0], shown[1]
    ))
}
