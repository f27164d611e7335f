//! TOML read with every mistake of its grammar told in the words of a stage file.

use super::findings::TOLD;
use crate::error::{Error, Result};
use crate::problem::{Place, Problem, cut};
use std::ops::Range;
use std::path::Path;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// Quotation marks of printed text.
const TYPOGRAPHIC: [char; 7] = [
    '\u{201c}', '\u{201d}', '\u{201e}', '\u{ab}', '\u{bb}', '\u{2018}', '\u{2019}',
];

/// Reads TOML; `file` is named in errors. Of each line its first mistake is told: what comes after it
/// mostly follows from it.
pub(super) fn parse<'a>(text: &'a str, file: &Path) -> Result<Spanned<DeTable<'a>>> {
    let (table, mut errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(table);
    }
    errors.sort_by_key(|error| error.span().map_or(0, |span| span.start));
    let mut problems: Vec<Problem> = Vec::new();
    for error in errors {
        let span = meant(error.message(), text, error.span().unwrap_or(0..0));
        let place = Place::of(file, text, &span);
        let line = |problem: &Problem| problem.place.as_ref().map(|place| place.line);
        if problems.last().and_then(line) == Some(place.line) {
            continue;
        }
        let (message, hint) = in_words(error.message(), text, &span);
        problems.push(Problem {
            place: Some(place),
            path: String::new(),
            message,
            hint,
        });
    }
    let more = problems.len().saturating_sub(TOLD);
    problems.truncate(TOLD);
    Err(Error::Mistakes {
        problems,
        more,
        unreadable_files: false,
    })
}

/// The span that is meant: of a paragraph that is not closed its beginning.
fn meant(found: &str, text: &str, span: Range<usize>) -> Range<usize> {
    let mark = match found {
        _ if !found.contains("multi-line") || !is_unclosed(found) => return span,
        _ if found.contains('\'') => "'''",
        _ => "\"\"\"",
    };
    match text[..span.start].rfind(mark) {
        Some(start) => start..start + mark.len(),
        None => span,
    }
}

fn is_unclosed(found: &str) -> bool {
    found.contains("string, expected `\"") || found.contains("string, expected `'")
}

/// What is wrong and what would be right. The reader's own words stand where none of ours fit.
fn in_words(found: &str, text: &str, span: &Range<usize>) -> (String, String) {
    let found = found.trim().replace('\n', ", ");
    let whole = text.get(span.clone()).unwrap_or("");
    let meant = cut(whole);
    let (message, hint) = match found.as_str() {
        _ if found.starts_with("duplicate key") => return twice(whole, text, span),
        _ if found.starts_with("key with no value") => (
            "a name without a value".to_owned(),
            "write name = value, such as wall = \"3 mm\"".to_owned(),
        ),
        _ if found.starts_with("string values must be quoted") => (
            format!("{meant} is neither a number nor a text in straight quotation marks"),
            format!("write \"{}\"", meant.trim_matches(TYPOGRAPHIC)),
        ),
        _ if found.contains("visible characters") => (
            "a control character stands in this text".to_owned(),
            "leave it out".to_owned(),
        ),
        _ if found.starts_with("carriage return must be") => (
            "a line ends with a carriage return alone".to_owned(),
            "save the file again and choose line feeds as line ends".to_owned(),
        ),
        _ if is_unclosed(&found) => (
            "the text that begins in this line is not closed".to_owned(),
            "end it with the quotation mark that it begins with".to_owned(),
        ),
        _ if found.starts_with("missing escaped value") => (
            "a backslash between double quotation marks begins an escape".to_owned(),
            "write two of them, or the text between single quotation marks".to_owned(),
        ),
        _ => (
            found,
            "write name = value, with texts and numbers with a unit in quotes, or a table's name \
             in brackets"
                .to_owned(),
        ),
    };
    (message, hint)
}

/// A name that stands twice in its table, and where it stands first.
fn twice(name: &str, text: &str, span: &Range<usize>) -> (String, String) {
    let line_start = text[..span.start].rfind('\n').map_or(0, |at| at + 1);
    let (before, _) = DeTable::parse_recoverable(&text[..line_start]);
    let mut last = None;
    latest("", before.get_ref(), name, &mut last);
    let first = last.map_or(String::new(), |at| {
        format!(", first in line {}", text[..at].matches('\n').count() + 1)
    });
    let hint = if text[line_start..span.start].trim_start().starts_with('[') {
        "gather the values of the table in one place"
    } else {
        "keep one of the two"
    };
    (
        format!("\"{}\" stands here a second time{first}", cut(name)),
        hint.to_owned(),
    )
}

/// Where a name or the path of a table stands last.
fn latest(prefix: &str, table: &DeTable<'_>, name: &str, last: &mut Option<usize>) {
    for (key, value) in table {
        let path = crate::quantity::field::join(prefix, key.get_ref());
        let start = key.span().start;
        if key.get_ref() == name || path == name {
            *last = Some(last.map_or(start, |known| known.max(start)));
        }
        match value.get_ref() {
            DeValue::Table(inner) => latest(&path, inner, name, last),
            DeValue::Array(list) => {
                for entry in list {
                    if let DeValue::Table(inner) = entry.get_ref() {
                        latest(&path, inner, name, last);
                    }
                }
            }
            _ => {}
        }
    }
}
