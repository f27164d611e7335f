//! Which known name a name that is not known may stand for: one guesser for stage files, studies,
//! catalogues, paths, results and commands.
//!
//! What counts is the last name of a path; the table it stands in only decides between those whose
//! last name is near. Where none is near there is no hint, since a wrong one leads astray.

use crate::synonyms::meant;

/// A text of more bytes is no slip of the pen, and comparing it takes long.
const LONGEST_SLIP: usize = 200;
/// Most names in one hint.
const MOST: usize = 3;
/// Share of letters that must agree, and where the table is another one.
const NEAR: f64 = 0.65;
const NEAR_ELSEWHERE: f64 = 0.8;
/// Shortest name whose beginning, or of which a part, may stand for the whole, letters.
const SHORTEST_PART: usize = 3;
/// What the same last name and a synonym count, and a part of a name, the more the longer it is.
const SAME: f64 = 1.0;
const SYNONYM: f64 = 0.98;
const PART: f64 = 0.8;
const LENGTH: f64 = 0.1;
/// What the table counts beside the last name, and the beginning of its path.
const TABLE: f64 = 0.4;
const BEGINNING: f64 = 0.5;

/// The known names that `given` may stand for, none of them nearer than the others, in the order
/// of `known`; three at most, and none if none is near.
pub(crate) fn near_names<'a>(given: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    if given.len() > LONGEST_SLIP {
        return Vec::new();
    }
    let wanted = plain(given);
    best(
        known
            .into_iter()
            .map(|name| (likeness(&wanted, &plain(name)), name)),
    )
}

/// As [`near_names`], for dotted paths. Of entries of a list the one with the number given is
/// named, or the first.
pub(crate) fn near_paths<'a>(given: &str, known: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    if given.len() > LONGEST_SLIP {
        return Vec::new();
    }
    let pattern = unnumbered(given);
    let (table, last) = split(&pattern);
    let (wanted, joined) = (plain(last), plain(&pattern.replace('.', "_")));
    let rated = known.into_iter().map(|path| {
        let other = unnumbered(path);
        let (other_table, other_last) = split(&other);
        let tables = likeness_of_tables(table, other_table);
        let name = if joined == plain(&other.replace('.', "_")) {
            SAME
        } else if meant(&wanted).contains(&other.as_str()) {
            SYNONYM
        } else if tables > 0.0 {
            likeness(&wanted, &plain(other_last)).max(parts(&wanted, &plain(other_last)))
        } else {
            likeness(&wanted, &plain(other_last))
        };
        let least = if tables > 0.0 { NEAR } else { NEAR_ELSEWHERE };
        let near = name >= least;
        (if near { name + TABLE * tables } else { 0.0 }, path)
    });
    let numbered = |path: &str| digits(path) == digits(given);
    let mut found: Vec<(f64, &str)> = Vec::new();
    for (likeness, path) in rated {
        match found
            .iter_mut()
            .find(|(_, other)| unnumbered(other) == unnumbered(path))
        {
            Some(other) if numbered(path) && !numbered(other.1) => other.1 = path,
            None if likeness >= NEAR => found.push((likeness, path)),
            _ => {}
        }
    }
    let names = best(found.into_iter());
    let elsewhere = |name: &String| likeness_of_tables(table, split(&unnumbered(name)).0) == 0.0;
    // The same name in several tables, none of them like the one given, is no hint.
    if !table.is_empty()
        && names.len() > 1
        && names.iter().all(elsewhere)
        && meant(&wanted).is_empty()
    {
        return Vec::new();
    }
    names
}

/// A hint that names them, or an empty text.
pub(crate) fn asked(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [only] => format!("did you mean \"{only}\"?"),
        [rest @ .., last] => format!("did you mean {} or \"{last}\"?", quoted(rest)),
    }
}

/// Names in quotes, one behind the other.
pub(crate) fn quoted<T: std::fmt::Display>(names: impl IntoIterator<Item = T>) -> String {
    let quoted = names.into_iter().map(|name| format!("\"{name}\""));
    quoted.collect::<Vec<_>>().join(", ")
}

/// The likest, and those as like.
fn best<'a>(rated: impl Iterator<Item = (f64, &'a str)>) -> Vec<String> {
    let rated: Vec<(f64, &str)> = rated.filter(|(likeness, _)| *likeness >= NEAR).collect();
    let most = rated
        .iter()
        .map(|(likeness, _)| *likeness)
        .fold(0.0, f64::max);
    let mut names: Vec<String> = Vec::new();
    for (likeness, name) in rated {
        if likeness >= most - 1e-9 && !names.iter().any(|known| known == name) {
            names.push(name.to_owned());
        }
    }
    names.truncate(MOST);
    names
}

/// How like two names are, both in plain letters; below [`NEAR`] they are not.
fn likeness(given: &str, known: &str) -> f64 {
    if given == known {
        return SAME;
    }
    if meant(given).contains(&known) {
        return SYNONYM;
    }
    let begins = known.starts_with(given) || format!("_{known}_").contains(&format!("_{given}_"));
    let part = if begins && given.len() >= SHORTEST_PART {
        PART + LENGTH * given.len() as f64 / known.len() as f64
    } else {
        0.0
    };
    part.max(strsim::normalized_damerau_levenshtein(given, known))
}

/// How like a name is to one of the words of another, which counts less than the whole.
fn parts(given: &str, known: &str) -> f64 {
    let parts = known.split('_').filter(|part| part.len() > SHORTEST_PART);
    let like = parts.map(|part| strsim::normalized_damerau_levenshtein(given, part));
    (1.0 - LENGTH) * like.fold(0.0, f64::max)
}

/// How like two tables are: by the names they begin with, or by the letters of a misspelt one.
fn likeness_of_tables(given: &str, known: &str) -> f64 {
    if given == known {
        return 1.0;
    }
    let names = given.split('.').zip(known.split('.'));
    let common = names.take_while(|(one, other)| one == other).count();
    let most = given.split('.').count().max(known.split('.').count());
    let shared = BEGINNING * common as f64 / most as f64;
    let letters = strsim::normalized_damerau_levenshtein(given, known);
    shared.max(if letters >= NEAR { letters } else { 0.0 })
}

/// Small letters, with an underscore between words.
fn plain(name: &str) -> String {
    let name = name.trim().trim_end_matches("[]").to_lowercase();
    name.replace([' ', '-', '/', ','], "_")
}

fn split(path: &str) -> (&str, &str) {
    path.rsplit_once('.').unwrap_or(("", path))
}

fn digits(path: &str) -> String {
    path.chars().filter(char::is_ascii_digit).collect()
}

/// A path with the numbers of entries taken out: `mass.item[2].name` to `mass.item[].name`.
fn unnumbered(path: &str) -> String {
    let mut inside = false;
    let keep = |letter: &char| {
        inside = (inside || *letter == '[') && *letter != ']';
        !inside || *letter == '['
    };
    path.chars().filter(keep).collect()
}

#[cfg(test)]
mod tests {
    use super::{near_names, near_paths};
    use crate::stage::{CHOICES, INPUTS, RESULTS};

    fn input(given: &str) -> Vec<String> {
        let choices = CHOICES.iter().map(|choice| choice.path);
        near_paths(
            given,
            INPUTS
                .fields
                .iter()
                .map(|field| field.path.as_str())
                .chain(choices),
        )
    }

    fn result(given: &str) -> Vec<String> {
        near_paths(
            given,
            RESULTS.fields.iter().map(|field| field.path.as_str()),
        )
    }

    #[test]
    fn the_trade_s_word_for_an_input_finds_it() {
        for (given, meant) in [
            ("rail.angle", "rail.elevation"),
            ("propellant.of_ratio", "propellant.oxidiser_to_fuel_ratio"),
            ("motor.isp", "motor.specific_impulse"),
            ("tank.diameter", "tank.outer_diameter"),
            ("tank.outer_diametr", "tank.outer_diameter"),
            ("mass.payload", "mass.item[0].mass"),
            ("mass.item[1].weight", "mass.item[1].mass"),
            ("tank.wall", "tank.liner.wall"),
            ("skin.roughness", "skin.sand_grain_roughness"),
            ("tube.tolerance", "tank.liner.wall_under_tolerance"),
            ("tnak.volume", "tank.volume"),
            ("mass.item[3].growth", "mass.item[3].growth_allowance"),
        ] {
            assert_eq!(input(given), [meant]);
        }
    }

    #[test]
    fn a_path_that_only_begins_alike_is_no_hint() {
        for given in [
            "motor.colour",
            "tank.liner.paint",
            "rail.x",
            "propellant.supplier",
        ] {
            assert_eq!(input(given), [""; 0], "{given}");
        }
    }

    #[test]
    fn a_result_is_found_by_its_last_name() {
        assert_eq!(result("apogee"), ["ascent.apogee", "estimate.apogee"]);
        assert_eq!(result("tank_mass"), ["tank.mass"]);
        assert!(result("mass").contains(&"tank.mass".to_owned()));
    }

    #[test]
    fn a_shape_is_found_by_the_trade_s_adjective() {
        let shapes = [
            "hemisphere",
            "ellipsoid_2_1",
            "torisphere",
            "isotensoid",
            "flat_clamped",
            "flat_supported",
        ];
        let meant = |given: &str| near_names(given, shapes);
        assert_eq!(meant("elliptical"), ["ellipsoid_2_1"]);
        assert_eq!(meant("Spherical"), ["hemisphere"]);
        assert_eq!(meant("geodesic dome"), ["isotensoid"]);
        assert_eq!(meant("flat"), ["flat_clamped", "flat_supported"]);
        assert_eq!(meant("welded"), [""; 0]);
    }
}
