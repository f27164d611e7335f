//! Any file hoopline reads, checked as what it is.

use super::file::{KINDS, StudyFile};
use crate::document::{Document, Findings};
use crate::error::Result;
use crate::stage::{self, Stage, check_catalogue};
use std::path::Path;

/// What a file is, by what stands at its top.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileKind {
    /// A stage.
    Stage,
    /// A study: it names a stage or asks a question.
    Study,
    /// A catalogue: it holds rows.
    Catalogue,
}

impl FileKind {
    /// The kind of a file. One that cannot be read counts as a stage, whose reading says why.
    pub fn of(path: &Path) -> Self {
        let Ok(document) = Document::load(path, &mut Findings::default()) else {
            return Self::Stage;
        };
        let holds = |name: &str| document.tree.contains_key(name);
        if holds("stage") || KINDS.iter().any(|kind| holds(kind)) {
            Self::Study
        } else if stage::KINDS.iter().any(|kind| holds(kind.word)) {
            Self::Catalogue
        } else {
            Self::Stage
        }
    }
}

/// Reads a file as what it is, for the mistakes in it.
pub fn check(path: &Path) -> Result<FileKind> {
    let kind = FileKind::of(path);
    match kind {
        FileKind::Stage => Stage::load(path).map(|_| kind),
        FileKind::Study => StudyFile::load(path).map(|_| kind),
        FileKind::Catalogue => check_catalogue(path).map(|()| kind),
    }
}
