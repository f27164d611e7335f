//! Which room may use which: the table of `DEVELOPERS.md`, held against the imports of `src`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Rooms in the order of the table, by path below `src`, and the rooms each may use. Rooms of one row
/// may use each other.
fn table() -> Vec<(String, Vec<String>)> {
    let page = std::fs::read_to_string(root().join("DEVELOPERS.md")).expect("a page");
    let mut rows: Vec<(String, Vec<String>)> = Vec::new();
    for line in page.lines().filter(|line| line.starts_with("| `src/")) {
        let cells: Vec<&str> = line.split('|').map(str::trim).collect();
        let [_, folders, _, may_use, _] = cells[..] else {
            panic!("a row has three cells: {line}")
        };
        let rooms: Vec<String> = folders.split(", ").map(room_of_cell).collect();
        let above: Vec<String> = rows.iter().map(|(room, _)| room.clone()).collect();
        let allowed: Vec<String> = match may_use {
            "-" => Vec::new(),
            "all above" => above.clone(),
            listed => listed.split(", ").map(without_remark).collect(),
        };
        for each in &allowed {
            assert!(above.contains(each), "{each} does not stand above: {line}");
        }
        for room in &rooms {
            let mut allowed = allowed.clone();
            allowed.extend(rooms.iter().cloned());
            rows.push((room.clone(), allowed));
        }
    }
    rows
}

/// `src/stage/chain/` is stage/chain, `src/error.rs` is error.
fn room_of_cell(cell: &str) -> String {
    let path = cell.trim_matches('`');
    let path = path.strip_prefix("src/").expect("a path below src");
    path.trim_end_matches('/')
        .trim_end_matches(".rs")
        .to_owned()
}

/// `atmosphere (standard gravity)` is atmosphere.
fn without_remark(listed: &str) -> String {
    listed.split(" (").next().unwrap_or(listed).to_owned()
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|end| end == "rs") {
            found.push(path);
        }
    }
}

/// What of a file is neither comment nor test; its tests stand at the end.
fn code(path: &Path) -> String {
    let text = std::fs::read_to_string(path).expect("a source");
    let text = text.split("#[cfg(test)]\nmod ").next().unwrap_or_default();
    let lines = text.lines();
    let lines: Vec<&str> = lines
        .filter(|line| !line.trim_start().starts_with("//"))
        .collect();
    lines.join("\n")
}

/// The room that a path below `src` or below the crate belongs to: the longest one known.
fn room_of<'a>(path: &str, rooms: &'a [(String, Vec<String>)]) -> Option<&'a str> {
    let inside = |room: &&str| {
        path == *room
            || path
                .strip_prefix(*room)
                .is_some_and(|rest| rest.starts_with('/') || rest == ".rs")
    };
    let known = rooms.iter().map(|(room, _)| room.as_str());
    known.filter(inside).max_by_key(|room| room.len())
}

/// Every path from the crate's root in a text, as `stage/chain/settle`.
fn imports(text: &str) -> Vec<String> {
    let starts = text.match_indices("crate::");
    starts
        .map(|(at, mark)| {
            let rest = &text[at + mark.len()..];
            let letter = |letter: char| letter.is_alphanumeric() || letter == '_' || letter == ':';
            let end = rest.find(|each| !letter(each)).unwrap_or(rest.len());
            rest[..end].trim_end_matches(':').replace("::", "/")
        })
        .collect()
}

#[test]
fn rooms_use_only_what_the_table_lets_them() {
    let rooms = table();
    let allowed: BTreeMap<&str, &Vec<String>> = rooms
        .iter()
        .map(|(room, allowed)| (room.as_str(), allowed))
        .collect();
    let mut files = Vec::new();
    sources(&root().join("src"), &mut files);
    let mut wrong = Vec::new();
    let mut seen = 0;
    for file in files {
        let below = file.strip_prefix(root().join("src")).expect("below src");
        let below = below.to_string_lossy().replace('\\', "/");
        let text = code(&file);
        if below == "lib.rs" {
            continue;
        }
        let Some(own) = room_of(&below, &rooms) else {
            wrong.push(format!("{below}: no row of the table holds it"));
            continue;
        };
        for import in imports(&text) {
            seen += 1;
            match room_of(&import, &rooms) {
                Some(used) if allowed[own].iter().any(|each| each == used) => {}
                // What a room hands to its own parts.
                Some(used) if own.starts_with(&format!("{used}/")) => {}
                Some(used) => wrong.push(format!("{below}: {own} uses {used} (crate::{import})")),
                // A name that the crate hands out again says nothing of its room.
                None => wrong.push(format!("{below}: crate::{import} names no room")),
            }
        }
        // From a room's own face, one step up is another room; a module within it may step up to it.
        let head = rooms
            .iter()
            .any(|(room, _)| below == format!("{room}/mod.rs"));
        let upwards = if head {
            "\nuse super::"
        } else {
            "super::super::"
        };
        if text.contains(upwards) {
            wrong.push(format!("{below}: leaves its room by {}", upwards.trim()));
        }
    }
    assert!(seen > 300, "{seen} imports read");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
