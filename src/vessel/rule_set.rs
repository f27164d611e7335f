//! Rule sets: the factors a design is judged by, as data with source and scope.

use crate::document::Findings;
use crate::material::{Kind, Row, Text, shipped_rows};
use crate::quantity::{Choice, choice, fields, slots};
use std::sync::LazyLock;

const ON_RECORD: &str = include_str!("rule_sets.toml");

slots! {
    /// Factors of a rule set.
    pub struct RuleSet<R> {
        /// Proof pressure over MEOP.
        proof_factor: Ratio [1.0, 10.0], Tank;
        /// Required burst pressure over MEOP.
        burst_factor: Ratio [1.0, 20.0], Tank;
    }
}

/// A published rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Published {
    /// Name to put into a stage file.
    pub name: String,
    /// Document, edition, paragraph.
    pub source: String,
    /// What the rule set covers; whether that fits is the user's judgement.
    pub scope: String,
    /// Whether it is for overwrapped tanks, bare metal tanks, or both.
    pub wall: Wall,
    /// Whether its document excludes welded liners.
    pub excludes_welded_liners: bool,
    /// Proof pressure over MEOP.
    pub proof_factor: f64,
    /// Required burst pressure over MEOP.
    pub burst_factor: f64,
}

choice! {
    /// The kind of wall a rule set covers.
    pub enum Wall {
        /// Metal only.
        Metal = "metal",
        /// Metal with a fibre overwrap.
        Overwrapped = "overwrapped",
    }
}

/// What a rule set says of welded liners.
const WELDED_LINER: [&str; 2] = ["excluded", "not mentioned"];

/// What a rule set says beside its factors.
const TEXTS: &[Text] = &[
    Text {
        key: "scope",
        doc: "what the rule set covers",
        words: &[],
    },
    Text {
        key: "wall",
        doc: "the kind of wall it covers",
        words: &[Wall::OPTIONS[0].0, Wall::OPTIONS[1].0],
    },
    Text {
        key: "welded_liner",
        doc: "whether its document excludes welded liners",
        words: &WELDED_LINER,
    },
];

/// The published rule sets on record.
pub static PUBLISHED: LazyLock<Vec<Published>> =
    LazyLock::new(|| published(ON_RECORD, &mut Findings::default()));

/// The published rule set of a name.
pub fn named(name: &str) -> Option<&'static Published> {
    PUBLISHED.iter().find(|known| known.name == name)
}

/// The rows of a table of rule sets; one that lacks a factor or word is none.
fn published(text: &str, findings: &mut Findings) -> Vec<Published> {
    let kind = Kind {
        word: "rule_set",
        doc: "a published rule set",
        fields: fields::<RuleSet<f64>>(),
        required: &["proof_factor", "burst_factor"],
        of_metal: false,
        texts: TEXTS,
    };
    let rows = shipped_rows(text, "rule sets on record", &[kind], findings);
    let entry = |row: &Row| {
        Some(Published {
            name: row.name.clone(),
            source: row.source.clone(),
            scope: row.text("scope").to_owned(),
            wall: Wall::from_word(row.text("wall"))?,
            excludes_welded_liners: row.text("welded_liner") == WELDED_LINER[0],
            proof_factor: row.value("proof_factor")?.number,
            burst_factor: row.value("burst_factor")?.number,
        })
    };
    rows.iter().filter_map(|row| entry(row)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_rule_set_on_record_reads_within_its_limits() {
        let mut findings = Findings::default();
        let rows = published(ON_RECORD, &mut findings);
        findings.conclude().expect("no mistakes");
        assert_eq!(rows.len(), ON_RECORD.matches("[[rule_set]]").count());
        assert_eq!(rows, *PUBLISHED);
        assert!(rows.iter().all(|row| row.source.len() > 20), "{rows:?}");
    }

    #[test]
    fn an_integer_is_a_factor_like_any_other() {
        let short = ON_RECORD.replace("burst_factor = 3.0", "burst_factor = 3");
        assert_ne!(short, ON_RECORD);
        let mut findings = Findings::default();
        assert_eq!(published(&short, &mut findings), *PUBLISHED);
        assert!(findings.is_empty());
    }

    #[test]
    fn a_row_that_does_not_read_is_told_and_judges_nothing() {
        for (right, wrong) in [
            ("burst_factor = 3.4", "burst_factor = 0"),
            ("burst_factor = 3.4", "burst_factor = 34.0"),
            ("burst_factor = 3.4", "burst_factor = true"),
            ("burst_factor = 3.4", "bursts_factor = 3.4"),
            ("burst_factor = 3.4", ""),
            ("wall = \"metal\"", "wall = \"metl\""),
            ("welded_liner = \"excluded\"", "welded_liner = \"yes\""),
            ("name = \"DOT-CFFC, fifth revision\"", ""),
        ] {
            let text = ON_RECORD.replacen(right, wrong, 1);
            assert_ne!(text, ON_RECORD, "{right}");
            let mut findings = Findings::default();
            let rows = published(&text, &mut findings);
            assert_eq!(rows.len(), PUBLISHED.len() - 1, "{wrong}");
            assert!(findings.conclude().is_err(), "{wrong}");
        }
    }
}
