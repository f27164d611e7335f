//! Words in a file that are printed again later.

use crate::error::{Error, Result};

/// Refuses control characters but tab and line ends: terminals obey them and no figure can hold them.
pub(crate) fn printable(path: &str, text: &str) -> Result<()> {
    let unprintable = |one: &char| one.is_control() && !matches!(one, '\t' | '\n' | '\r');
    match text.chars().find(unprintable) {
        None => Ok(()),
        Some(found) => Err(Error::Unreadable {
            path: path.to_owned(),
            problem: format!(
                "the text holds the control character U+{:04X}; leave it out",
                u32::from(found)
            ),
        }),
    }
}
