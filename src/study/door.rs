//! Any file hoopline reads, checked as what it is.

use super::file::{KINDS, StudyFile};
use crate::document::{Document, Findings};
use crate::error::{Error, Result};
use crate::stage::{self, Stage, catalogue_file_json, check_catalogue};
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
    /// The kind of a file; none if it cannot be read.
    pub fn of(path: &Path) -> Option<Self> {
        let document = Document::load(path, &mut Findings::default()).ok()?;
        let holds = |name: &str| document.tree.contains_key(name);
        Some(if holds("stage") || KINDS.iter().any(|kind| holds(kind)) {
            Self::Study
        } else if stage::KINDS.iter().any(|kind| holds(kind.word)) {
            Self::Catalogue
        } else {
            Self::Stage
        })
    }
}

/// Loads a stage file; a file of another kind is told apart from a stage with many mistakes.
pub fn load_stage(path: &Path) -> Result<Stage> {
    Stage::load(path).map_err(|error| meant(path, FileKind::Stage, error))
}

/// Loads a study file; as [`load_stage`] otherwise.
pub fn load_study(path: &Path) -> Result<StudyFile> {
    StudyFile::load(path).map_err(|error| meant(path, FileKind::Study, error))
}

/// The error of a file read as one kind, or that it is of another.
fn meant(path: &Path, wanted: FileKind, error: Error) -> Error {
    let Some(kind) = FileKind::of(path).filter(|kind| *kind != wanted) else {
        return error;
    };
    let file = path.display();
    let (wanted, kind, instead) = match (wanted, kind) {
        (FileKind::Study, FileKind::Stage) => (
            "study",
            "stage, or what was meant as one",
            "name it in a study file as stage = \"...\", or use hoopline assess and Stage.load",
        ),
        (_, FileKind::Study) => ("stage", "study", "use hoopline study and Study.load"),
        (FileKind::Study, _) => (
            "study",
            "catalogue",
            "name it in a stage file as catalogue = \"...\"",
        ),
        _ => (
            "stage",
            "catalogue",
            "name it in a stage file as catalogue = \"...\"",
        ),
    };
    Error::Inconsistent(format!("{file} is no {wanted} but a {kind}; {instead}"))
}

/// The rows that names can stand for in a file: of a catalogue its own and the shipped ones, of a
/// stage or a study those of the stage; without a file the shipped ones. JSON text.
pub fn rows_json(path: Option<&Path>) -> Result<String> {
    let Some(file) = path else {
        return catalogue_file_json(None);
    };
    match FileKind::of(file) {
        Some(FileKind::Catalogue) => catalogue_file_json(path),
        Some(FileKind::Study) => Ok(StudyFile::load(file)?.stage.catalogue_json()),
        _ => Ok(Stage::load(file)?.catalogue_json()),
    }
}

/// Reads a file as what it is, for the mistakes in it.
pub fn check(path: &Path) -> Result<FileKind> {
    let kind = FileKind::of(path).unwrap_or(FileKind::Stage);
    match kind {
        FileKind::Stage => Stage::load(path).map(|_| kind),
        FileKind::Study => StudyFile::load(path).map(|_| kind),
        FileKind::Catalogue => check_catalogue(path).map(|()| kind),
    }
}
