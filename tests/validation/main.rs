//! Checks against something outside the project: published tables, worked examples, standards,
//! general-purpose reference libraries. The source stands beside each number, and the tolerance is
//! the precision it was printed with.

// What is computed here is compared, not shipped: the standard library's functions will do.
#![allow(clippy::disallowed_methods)]

mod airframe;
mod ascent;
mod atmosphere;
mod border;
mod closed_form;
mod cone_flow;
mod fittings;
mod flown;
mod fluid;
mod inclined;
mod lightest;
mod load;
mod mass;
mod mass_inertia;
mod oracle;
mod published;
mod service;
mod vessel;
mod vessel_bolts;
mod vessel_code;
mod vessel_edges;
mod vessel_flow;
mod vessel_isotensoid;
mod vessel_shells;
mod vessel_wrap;
mod winding;

use std::io::Write;

/// Where a number from outside was printed, and what it is.
#[derive(Clone, Copy)]
struct Outside {
    /// The room of the chain it checks.
    room: &'static str,
    /// Author, title, year, table, equation or page; or the reference library and its version.
    source: &'static str,
}

impl Outside {
    /// Asserts agreement to half a unit of the last printed digit.
    fn printed(&self, case: &str, computed: f64, printed: f64, unit: f64) {
        self.within(case, computed, printed, 0.5 * unit * (1.0 + 1e-9));
    }

    /// Asserts agreement to a share of the expected number.
    fn relative(&self, case: &str, computed: f64, expected: f64, share: f64) {
        self.within(case, computed, expected, share * expected.abs());
    }

    /// Asserts agreement within a tolerance, and lists the check where a list is asked for.
    fn within(&self, case: &str, computed: f64, expected: f64, tolerance: f64) {
        let Self { room, source } = self;
        let off = (computed - expected).abs();
        if let Some(list) = std::env::var_os("OUTSIDE_CHECKS") {
            let row = format!("{room}\t{case}\t{source}\t{expected}\t{computed}\t{tolerance:e}\n");
            std::fs::OpenOptions::new()
                .create(true)
                .append(true)
                .open(list)
                .and_then(|mut file| file.write_all(row.as_bytes()))
                .expect("a list that can be written");
        }
        assert!(
            off <= tolerance,
            "{room}, {case}: computed {computed}, expected {expected} within {tolerance:e}, off by \
             {off:e} ({source})"
        );
    }
}
