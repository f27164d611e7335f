//! The names of a study file, and what each stands for.

/// A table of a study file.
#[derive(Debug)]
pub struct TableNames {
    /// Its path, list entries without their numbers; empty for the top.
    pub path: &'static str,
    /// The names in it, each with its meaning.
    pub names: &'static [(&'static str, &'static str)],
}

impl TableNames {
    /// The names alone.
    pub(super) fn known(&self) -> Vec<&'static str> {
        self.names.iter().map(|(name, _)| *name).collect()
    }
}

/// Kinds of question, as lists of tables in the file.
pub(in crate::study) const KINDS: &[&str] = &["sweep", "optimise"];

pub(super) const TOP: &TableNames = &STUDY_TABLES[0];
pub(super) const SWEEP: &TableNames = &STUDY_TABLES[1];
pub(super) const OPTIMISE: &TableNames = &STUDY_TABLES[2];
pub(super) const VARY: &TableNames = &STUDY_TABLES[3];
pub(super) const SUBJECT_TO: &TableNames = &STUDY_TABLES[4];

/// Every table of a study file.
pub static STUDY_TABLES: [TableNames; 5] = [
    TableNames {
        path: "",
        names: &[
            ("schema", "number of this form of the file"),
            ("stage", "stage file it is about, relative to this file"),
            ("name", "name of the study"),
            ("description", "what the study is for"),
            ("sweep", "every combination of values"),
            ("optimise", "search for the best design"),
        ],
    },
    TableNames {
        path: "sweep",
        names: &[
            ("name", "name of the question"),
            ("vary", "what varies"),
            ("results", "paths of the results that the table shows"),
        ],
    },
    TableNames {
        path: "optimise",
        names: &[
            ("name", "name of the question"),
            ("minimise", "path of the result to make small"),
            ("maximise", "path of the result to make large"),
            ("vary", "what varies"),
            (
                "subject_to",
                "what must hold; left out, margins and requirements of the stage",
            ),
            (
                "scan",
                "points along each range before the search closes in",
            ),
        ],
    },
    TableNames {
        path: "vary",
        names: &[
            (
                "path",
                "dotted path of an input, a choice or a name on record",
            ),
            ("values", "values to try"),
            ("from", "lower end of a range"),
            ("to", "upper end of a range"),
            (
                "count",
                "of a sweep: how many values from one end to the other",
            ),
        ],
    },
    TableNames {
        path: "subject_to",
        names: &[
            ("response", "path of a result, or margins for every one"),
            ("at_least", "smallest value allowed"),
            ("at_most", "largest value allowed"),
        ],
    },
];
