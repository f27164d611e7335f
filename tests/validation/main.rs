//! Checks against something outside the project: published tables, worked examples, standards,
//! general-purpose reference libraries. The source stands beside each number, and the tolerance is
//! the precision it was printed with.

mod airframe;
mod ascent;
mod atmosphere;
mod border;
mod fluid;
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
