//! Rule sets: the factors a design is judged by, as data with source and scope.

use crate::document::Findings;
use crate::material::{Kind, Row, Text, shipped_rows};
use crate::numerics::Real;
use crate::quantity::{Choice, choice, fields, slots};
use std::sync::LazyLock;

const ON_RECORD: &str = include_str!("rule_sets.toml");

slots! {
    /// Factors of a rule set.
    pub struct RuleSet<R> {
        /// Proof pressure over MEOP.
        proof_factor: Ratio [1.0, 10.0], Tank;
        /// Required burst pressure over MEOP.
        burst_factor: Ratio [1.0, 20.0], BurstFactor;
        /// Required burst pressure over proof pressure, as pressure-cylinder practice counts it (burst over test
        /// pressure).
        burst_ratio: Ratio [1.0, 20.0], BurstRatio;
    }
}

choice! {
    /// What the burst pressure that a rule set requires is counted on.
    pub enum BurstBasis {
        /// MEOP: burst factor.
        Meop = "MEOP",
        /// The proof pressure: burst ratio.
        Proof = "proof pressure",
    }
}

impl<R: Real> RuleSet<R> {
    /// Required burst pressure over MEOP, whatever it is counted on.
    pub fn burst_over_meop(&self, basis: BurstBasis) -> R {
        match basis {
            BurstBasis::Meop => self.burst_factor,
            BurstBasis::Proof => self.proof_factor * self.burst_ratio,
        }
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
    /// How long its document holds the proof pressure.
    pub hold: String,
    /// Proof pressure over MEOP, where its document states one.
    pub proof_factor: Option<f64>,
    /// What its burst pressure is counted on.
    pub basis: BurstBasis,
    /// Required burst pressure over that.
    pub burst: f64,
}

/// What stands in place of a hold that was not read in a rule set's document.
const NOT_READ: &str = "not read in the document";

impl Published {
    /// How long its document holds the proof pressure, if that was read in it.
    pub fn hold_as_read(&self) -> Option<&str> {
        Some(self.hold.as_str()).filter(|hold| *hold != NOT_READ)
    }

    /// The factors that its document states, by the names they have in a stage file.
    pub fn factors(&self) -> impl Iterator<Item = (&'static str, f64)> {
        let burst = match self.basis {
            BurstBasis::Meop => "burst_factor",
            BurstBasis::Proof => "burst_ratio",
        };
        let proof = self.proof_factor.map(|factor| ("proof_factor", factor));
        proof.into_iter().chain([(burst, self.burst)])
    }
}

choice! {
    /// The kind of wall a rule set covers.
    pub enum Wall {
        /// Metal only.
        Metal = "metal",
        /// Metal with a fibre overwrap.
        Overwrapped = "overwrapped",
        /// Metal with fibre around its cylinder only.
        HoopWrapped = "hoop_wrapped",
        /// Metal with fibre over cylinder and closures.
        FullyWrapped = "fully_wrapped",
    }
}

impl Wall {
    /// Whether it covers a tank with or without overwrap, and with plies over its closures or without.
    pub fn covers(self, overwrapped: bool, over_closures: bool) -> bool {
        match self {
            Self::Metal => !overwrapped,
            Self::Overwrapped => overwrapped,
            Self::HoopWrapped => overwrapped && !over_closures,
            Self::FullyWrapped => over_closures,
        }
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
        words: &[
            Wall::OPTIONS[0].0,
            Wall::OPTIONS[1].0,
            Wall::OPTIONS[2].0,
            Wall::OPTIONS[3].0,
        ],
    },
    Text {
        key: "welded_liner",
        doc: "whether its document excludes welded liners",
        words: &WELDED_LINER,
    },
    Text {
        key: "hold",
        doc: "how long it holds the proof pressure",
        words: &[],
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
        required: &[],
        of_metal: false,
        texts: TEXTS,
        may_say: &[],
    };
    let rows = shipped_rows(text, "rule sets on record", &[kind], findings);
    let entry = |row: &Row| {
        let number = |key| row.value(key).map(|value| value.number);
        let (basis, burst) = match (number("burst_factor"), number("burst_ratio")) {
            (Some(factor), None) => (BurstBasis::Meop, factor),
            (None, Some(ratio)) => (BurstBasis::Proof, ratio),
            _ => return None,
        };
        Some(Published {
            name: row.name.clone(),
            source: row.source.clone(),
            scope: row.text("scope").to_owned(),
            wall: Wall::from_word(row.text("wall"))?,
            excludes_welded_liners: row.text("welded_liner") == WELDED_LINER[0],
            hold: row.text("hold").to_owned(),
            proof_factor: number("proof_factor"),
            basis,
            burst,
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

    #[test]
    fn a_row_without_burst_or_with_two_of_them_judges_nothing() {
        for wrong in ["", "burst_factor = 3.4\nburst_ratio = 2.0"] {
            let text = ON_RECORD.replacen("burst_factor = 3.4", wrong, 1);
            assert_ne!(text, ON_RECORD);
            let rows = published(&text, &mut Findings::default());
            assert_eq!(rows.len(), PUBLISHED.len() - 1, "{wrong}");
        }
    }

    #[test]
    fn a_wall_is_covered_by_what_is_wound_over_it() {
        let covered = |wall: Wall| {
            let tanks = [(false, false), (true, false), (true, true)];
            tanks.map(|(wrapped, over)| wall.covers(wrapped, over))
        };
        assert_eq!(covered(Wall::Metal), [true, false, false]);
        assert_eq!(covered(Wall::Overwrapped), [false, true, true]);
        assert_eq!(covered(Wall::HoopWrapped), [false, true, false]);
        assert_eq!(covered(Wall::FullyWrapped), [false, false, true]);
    }
}
