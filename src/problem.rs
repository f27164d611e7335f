//! One mistake: where it stands, what is wrong, what would be right; and how that is printed.

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};
use std::fmt;
use std::ops::Range;
use std::path::{Path, PathBuf};

/// Longest message or hint that is printed, letters: a file may hold a text of megabytes.
const LONGEST: usize = 1200;

/// Longest text that a message repeats, letters.
const REPEATED: usize = 80;

/// Where a mistake stands in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The file.
    pub file: PathBuf,
    /// Line, counted from 1.
    pub line: usize,
    /// Column, counted from 1 in letters.
    pub column: usize,
    /// The line as it stands.
    pub source_line: String,
    /// How many letters of the line are meant, at least one.
    pub width: usize,
}

impl Place {
    /// The place of a span of bytes in the text of a file.
    pub(crate) fn of(file: &Path, text: &str, span: &Range<usize>) -> Self {
        let start = span.start.min(text.len());
        let before = text.get(..start).unwrap_or("");
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let source_line = text[line_start..].lines().next().unwrap_or("");
        let meant = text.get(span.clone()).unwrap_or("");
        Self {
            file: file.to_owned(),
            line: before.matches('\n').count() + 1,
            column: before[line_start..].chars().count() + 1,
            source_line: source_line.to_owned(),
            width: meant.lines().next().unwrap_or("").chars().count().max(1),
        }
    }
}

/// One mistake.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Where it stands; none for what did not come from a file.
    pub place: Option<Place>,
    /// Dotted path it is about, possibly empty.
    pub path: String,
    /// What is wrong.
    pub message: String,
    /// What would be right, possibly empty.
    pub hint: String,
}

impl Problem {
    /// The mistake in words: one line, and below it the line of the file with what is meant marked.
    pub fn shown(&self, coloured: bool) -> String {
        let (message, hint) = (self.printable_message(), self.printable_hint());
        match &self.place {
            None if hint.is_empty() => message,
            None => format!("{message}; {hint}"),
            Some(place) => {
                let file = printable(&place.file.display().to_string());
                let first = format!("{file}:{}:{}: {message}", place.line, place.column);
                format!("{first}\n{}", self.snippet(coloured))
            }
        }
    }

    /// What is wrong, as a terminal may have it.
    pub fn printable_message(&self) -> String {
        printable(&self.message)
    }

    /// What would be right, as a terminal may have it.
    pub fn printable_hint(&self) -> String {
        printable(&self.hint)
    }

    /// The line of the file with what is meant marked and what would be right below; empty for what
    /// did not come from a file.
    pub fn snippet(&self, coloured: bool) -> String {
        let Some(place) = &self.place else {
            return String::new();
        };
        let hint = self.printable_hint();
        // What ends a line in some programs would tear it apart here.
        let line: String = place
            .source_line
            .chars()
            .map(|letter| if letter == '\r' { ' ' } else { letter })
            .collect();
        let byte = |letters: usize| {
            let start = line.char_indices().nth(letters);
            start.map_or(line.len(), |(byte, _)| byte)
        };
        let start = place.column.saturating_sub(1);
        let span = byte(start)..byte(start + place.width.max(1));
        let mut group = Group::with_level(Level::ERROR).element(
            Snippet::source(line.as_str())
                .line_start(place.line)
                .annotation(AnnotationKind::Primary.span(span)),
        );
        if !hint.is_empty() {
            group = group.element(Level::HELP.message(hint));
        }
        let renderer = if coloured {
            Renderer::styled()
        } else {
            Renderer::plain()
        };
        let shown = renderer.render(&[group]);
        let lines: Vec<&str> = shown.lines().map(str::trim_end).collect();
        lines.join("\n").trim_end().to_owned()
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.shown(false))
    }
}

/// Several mistakes below each other, and how many more there are.
pub fn listed(problems: &[Problem], more: usize, coloured: bool) -> String {
    let mut shown: Vec<String> = problems
        .iter()
        .map(|problem| problem.shown(coloured))
        .collect();
    if more > 0 {
        shown.push(format!("and {more} more; mend these first"));
    }
    let in_files = problems.iter().any(|problem| problem.place.is_some());
    shown.join(if in_files { "\n\n" } else { "\n" })
}

/// A message and its hint from one sentence: they part at the first semicolon outside quotes.
pub(crate) fn parted(sentence: &str) -> (String, String) {
    let mut quoted = false;
    for (at, letter) in sentence.char_indices() {
        quoted ^= letter == '"';
        if let (false, Some(rest)) = (quoted, sentence[at..].strip_prefix("; ")) {
            return (sentence[..at].to_owned(), rest.to_owned());
        }
    }
    (sentence.to_owned(), String::new())
}

/// The beginning of a text that is repeated in a message.
pub(crate) fn cut(text: &str) -> String {
    match text.char_indices().nth(REPEATED) {
        Some((end, _)) => format!("{} ...", &text[..end]),
        None => text.to_owned(),
    }
}

/// Text of a file as a terminal may have it: no control characters, no end of lines, not too long.
fn printable(text: &str) -> String {
    let mut shown = String::new();
    for (count, letter) in text.chars().enumerate() {
        if count == LONGEST {
            shown.push_str(" ...");
            break;
        }
        match letter {
            '\n' | '\r' => shown.push(' '),
            letter if letter.is_control() || is_direction(letter) => {
                shown.extend(letter.escape_unicode());
            }
            letter => shown.push(letter),
        }
    }
    shown
}

/// Letters without a shape that turn round what stands after them: the Unicode Standard, section 23.2.
pub(crate) fn is_direction(letter: char) -> bool {
    matches!(letter, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problem(source_line: &str, column: usize, width: usize) -> String {
        let place = Place {
            file: PathBuf::from("a.toml"),
            line: 7,
            column,
            source_line: source_line.to_owned(),
            width,
        };
        let problem = Problem {
            place: Some(place),
            path: String::new(),
            message: "wrong".to_owned(),
            hint: "right".to_owned(),
        };
        problem.to_string()
    }

    /// Columns on the screen of the marks, and of the text they stand below.
    fn marks(shown: &str) -> (usize, usize) {
        let lines: Vec<&str> = shown.lines().collect();
        let at = |line: &str, mark: char| {
            let before = line.chars().take_while(|letter| *letter != mark);
            before
                .map(|letter| if letter == '径' { 2 } else { 1 })
                .sum()
        };
        (at(lines[3], '^'), at(lines[2], 'X'))
    }

    #[test]
    fn marks_stand_below_what_they_mean() {
        for (line, column) in [
            ("ab = X", 6),
            ("\tab = X", 7),
            ("径 = X", 5),
            ("é = \tX", 6),
        ] {
            let shown = problem(line, column, 1);
            let (mark, meant) = marks(&shown);
            assert_eq!(mark, meant, "{shown}");
        }
    }

    #[test]
    fn a_place_past_the_end_and_an_empty_line_are_shown() {
        assert!(problem("", 1, 1).starts_with("a.toml:7:1: wrong\n"));
        assert!(problem("ab", 40, 9).contains("help: right"));
    }

    #[test]
    fn sentences_part_at_a_semicolon_outside_quotes() {
        let parts = parted("\"a; b\" is wrong; write c; or d");
        assert_eq!(parts.0, "\"a; b\" is wrong");
        assert_eq!(parts.1, "write c; or d");
        assert_eq!(parted("nothing").1, "");
    }

    #[test]
    fn what_is_repeated_is_cut() {
        assert_eq!(cut("short"), "short");
        assert_eq!(cut(&"径".repeat(100)), format!("{} ...", "径".repeat(80)));
    }

    #[test]
    fn control_characters_and_endless_texts_do_not_reach_a_terminal() {
        assert_eq!(printable("a\u{1b}[31mb\nc"), "a\\u{1b}[31mb c");
        assert_eq!(printable("kg\u{202e}"), "kg\\u{202e}");
        assert!(printable(&"x".repeat(5000)).len() < 1300);
    }
}
