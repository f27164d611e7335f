//! A text file read whole, within limits.

use crate::error::{Error, Result};
use crate::problem::{Place, Problem};
use std::io::{ErrorKind, Read};
use std::path::Path;

/// Largest file taken, bytes.
pub(crate) const MAX_FILE: u64 = 4 * 1024 * 1024;

/// Byte order marks of texts with two bytes to a unit: the Unicode Standard, section 23.8.
const UTF_16: [[u8; 2]; 2] = [[0xff, 0xfe], [0xfe, 0xff]];

/// Reads a regular file of UTF-8 text. A byte order mark in front, as some editors write it, is not
/// part of the text.
pub(crate) fn read_text(path: &Path) -> Result<String> {
    let problem = |problem: String| Error::File {
        file: path.to_owned(),
        problem,
    };
    let refused = |error: std::io::Error| problem(in_words(&error));
    let about = std::fs::metadata(path).map_err(refused)?;
    if about.is_dir() {
        let found = "this is a folder, not a file; name the file in it".to_owned();
        return Err(problem(found));
    }
    if !about.is_file() {
        let found = "not a regular file; write what it holds into one".to_owned();
        return Err(problem(found));
    }
    let mut bytes = Vec::new();
    // A file may grow while it is read, and some tell no length.
    std::fs::File::open(path)
        .and_then(|file| file.take(MAX_FILE + 1).read_to_end(&mut bytes))
        .map_err(refused)?;
    if bytes.len() as u64 > MAX_FILE {
        return Err(problem(format!(
            "larger than {} MB; thin out its tables or check the name",
            MAX_FILE / 1_048_576
        )));
    }
    // English in units of two or four bytes without a mark in front is UTF-8 with zero bytes.
    let start = &bytes[..bytes.len().min(64)];
    let zeros = start.chunks(2).filter(|pair| pair.contains(&0)).count();
    if zeros * 4 > start.len() + 2 || UTF_16.iter().any(|mark| start.starts_with(mark)) {
        return Err(problem(
            "text in UTF-16 or UTF-32, not in UTF-8; save it again and choose UTF-8 as the coding"
                .to_owned(),
        ));
    }
    let text = String::from_utf8(bytes).map_err(|error| not_utf_8(path, &error))?;
    Ok(text
        .strip_prefix('\u{feff}')
        .map_or_else(|| text.clone(), str::to_owned))
}

/// What the system says, and what to do about it.
fn in_words(error: &std::io::Error) -> String {
    match error.kind() {
        ErrorKind::NotFound => {
            "there is no such file; check its name, and the folder it is looked for in".to_owned()
        }
        ErrorKind::PermissionDenied => {
            "it may not be read by this user; change its permissions or copy it".to_owned()
        }
        _ => format!("it cannot be read ({error}); check its name and the disk"),
    }
}

/// Says at which letter a file stops being UTF-8.
fn not_utf_8(path: &Path, error: &std::string::FromUtf8Error) -> Error {
    let bytes = error.as_bytes();
    let at = error.utf8_error().valid_up_to();
    let text = String::from_utf8_lossy(bytes);
    let byte = bytes.get(at).copied().unwrap_or_default();
    Error::Mistakes {
        problems: vec![Problem {
            place: Some(Place::of(path, &text, &(at..at))),
            path: String::new(),
            message: format!("not text in UTF-8: the byte 0x{byte:02X} begins no letter here"),
            hint: "save the file again and choose UTF-8 as the coding".to_owned(),
        }],
        more: 0,
        unreadable_files: true,
    }
}
