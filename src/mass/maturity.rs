//! Maturity: what is known about a part, and the growth allowance that follows from it.

use crate::document::Findings;
use crate::material::{Kind, Row, shipped_rows};
use crate::quantity::{Applies, Field, Quantity};
use std::sync::LazyLock;

const ON_RECORD: &str = include_str!("maturity.toml");

/// A class of maturity: its name, the growth allowance it calls for, and who says so.
#[derive(Debug, Clone, PartialEq)]
pub struct Maturity {
    /// Name to put into a stage file.
    pub name: String,
    /// Growth allowance as a share of basic mass.
    pub growth_allowance: f64,
    /// Document and table, or whose experience it is.
    pub source: String,
}

impl Maturity {
    /// The growth allowance of a class, with its limits.
    pub(crate) fn allowance() -> Field {
        Field {
            path: "growth_allowance".to_owned(),
            quantity: Quantity::Share,
            lower: 0.0,
            upper: 2.0,
            applies: Applies::Always,
            index: 0,
            doc: "growth allowance of that maturity, as a share of basic mass.",
        }
    }
}

/// The classes on record. A stage file may bring its own, which come first.
pub static MATURITIES: LazyLock<Vec<Maturity>> =
    LazyLock::new(|| classes(ON_RECORD, &mut Findings::default()));

/// The rows of a table of classes; one without allowance is none.
fn classes(text: &str, findings: &mut Findings) -> Vec<Maturity> {
    let kind = Kind {
        word: "maturity",
        doc: "a class of maturity",
        fields: vec![Maturity::allowance()],
        required: &["growth_allowance"],
        of_metal: false,
        texts: &[],
        may_say: &[],
    };
    let rows = shipped_rows(text, "classes on record", &[kind], findings);
    let entry = |row: &Row| {
        Some(Maturity {
            name: row.name.clone(),
            growth_allowance: row.value("growth_allowance")?.number,
            source: row.source.clone(),
        })
    };
    rows.iter().filter_map(|row| entry(row)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_class_on_record_reads_within_its_limits() {
        let mut findings = Findings::default();
        let rows = classes(ON_RECORD, &mut findings);
        findings.conclude().expect("no mistakes");
        assert_eq!(rows.len(), ON_RECORD.matches("[[maturity]]").count());
        assert_eq!(rows, *MATURITIES);
        assert!(rows.iter().all(|row| row.source.len() > 20), "{rows:?}");
    }

    #[test]
    fn an_integer_is_an_allowance_like_any_other() {
        let whole = ON_RECORD.replace("growth_allowance = 0.20", "growth_allowance = 1");
        assert_ne!(whole, ON_RECORD);
        let mut findings = Findings::default();
        let rows = classes(&whole, &mut findings);
        assert_eq!(rows[2].growth_allowance.to_bits(), 1.0f64.to_bits());
        assert!(findings.is_empty());
    }

    #[test]
    fn a_class_that_does_not_read_is_told_and_fills_nothing_in() {
        for wrong in ["growth_allowance = 20.0", "growth_allowance = nan", ""] {
            let text = ON_RECORD.replacen("growth_allowance = 0.20", wrong, 1);
            let mut findings = Findings::default();
            let rows = classes(&text, &mut findings);
            assert_eq!(rows.len(), MATURITIES.len() - 1, "{wrong}");
            assert!(findings.conclude().is_err(), "{wrong}");
        }
    }
}
