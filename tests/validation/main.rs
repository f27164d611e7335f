//! Checks against something outside the project: published tables, worked examples, standards,
//! general-purpose reference libraries. The source stands beside each number, and the tolerance is
//! the precision it was printed with.

// What is computed here is compared, not shipped: the standard library's functions will do.
#![allow(clippy::disallowed_methods)]

mod airframe;
mod ascent;
mod atmosphere;
mod border;
mod fluid;
mod load;
mod mass;
mod published;
mod vessel;

/// Asserts agreement to half a unit of the last printed digit.
fn assert_printed(what: &str, computed: f64, printed: f64, unit: f64) {
    let off = (computed - printed).abs();
    assert!(
        off <= 0.5 * unit * (1.0 + 1e-9),
        "{what}: computed {computed}, printed {printed} to {unit}, off by {off:e}"
    );
}
