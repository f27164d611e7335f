//! Words in a file that are printed again later.

use crate::error::{Error, Result};
use crate::problem::is_direction;
use serde_json::Value;

/// A value that is to be a text that can be printed.
pub(crate) fn text_of<'v>(path: &str, value: &'v Value) -> Result<&'v str> {
    let Some(text) = value.as_str() else {
        return Err(Error::Unreadable {
            path: path.to_owned(),
            problem: format!("{value} is not a text; put it in quotes"),
        });
    };
    printable(path, text).map(|()| text)
}

/// Refuses a text that cannot be printed as it is, or a name that is not one line without blanks
/// around it: names stand in lines of tables and are compared.
pub(crate) fn printable(path: &str, text: &str) -> Result<()> {
    amiss(path, text).map_or(Ok(()), |problem| {
        Err(Error::Unreadable {
            path: path.to_owned(),
            problem,
        })
    })
}

/// What is wrong with a text, and what would be right.
fn amiss(path: &str, text: &str) -> Option<String> {
    if let Some(found) = text.chars().find(|&one| is_unprintable(one)) {
        let number = u32::from(found);
        return Some(format!(
            "the text holds the control character U+{number:04X}; leave it out"
        ));
    }
    if !matches!(path.rsplit('.').next(), Some("name" | "id")) {
        return None;
    }
    let one_line = text.split_whitespace().collect::<Vec<_>>().join(" ");
    if text.chars().any(ends_line) {
        return Some(format!(
            "a name is one line, without tabs; write \"{one_line}\""
        ));
    }
    (!text.trim().is_empty() && text != text.trim())
        .then(|| format!("\"{text}\" has blanks around it; write \"{}\"", text.trim()))
}

/// What ends a line or moves on in it in some program: the Unicode Standard, section 5.8, and tab.
fn ends_line(one: char) -> bool {
    matches!(one, '\t' | '\n' | '\r' | '\u{2028}' | '\u{2029}')
}

/// Control characters but tab and line ends: terminals obey them and no figure can hold them.
fn is_unprintable(one: char) -> bool {
    is_direction(one) || one.is_control() && !matches!(one, '\t' | '\n' | '\r')
}
