//! A text file read whole, within limits.

use crate::error::{Error, Result};
use std::io::Read;
use std::path::Path;

/// Largest file taken, bytes.
pub(crate) const MAX_FILE: u64 = 4 * 1024 * 1024;

/// Reads a regular file of UTF-8 text. A byte order mark in front, as some editors write it, is not
/// part of the text.
pub(crate) fn read_text(path: &Path) -> Result<String> {
    let problem = |problem: String| Error::File {
        file: path.to_owned(),
        problem,
    };
    let about = std::fs::metadata(path).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => problem("there is no such file".to_owned()),
        _ => problem(error.to_string()),
    })?;
    if about.is_dir() {
        return Err(problem("this is a folder, not a file".to_owned()));
    }
    if !about.is_file() {
        return Err(problem("not a regular file".to_owned()));
    }
    let mut bytes = Vec::new();
    // A file may grow while it is read, and some tell no length.
    std::fs::File::open(path)
        .and_then(|file| file.take(MAX_FILE + 1).read_to_end(&mut bytes))
        .map_err(|error| problem(error.to_string()))?;
    if bytes.len() as u64 > MAX_FILE {
        return Err(problem(format!("larger than {} MB", MAX_FILE / 1_048_576)));
    }
    let text = String::from_utf8(bytes).map_err(|_| problem("not text in UTF-8".to_owned()))?;
    Ok(text
        .strip_prefix('\u{feff}')
        .map_or_else(|| text.clone(), str::to_owned))
}
