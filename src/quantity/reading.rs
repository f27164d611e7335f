//! Text with a unit to SI and back.

use super::unit::Quantity;
use crate::problem::cut;

/// Reads text such as `"180 mm"` as `quantity`; returns SI. The error says what is wrong and which
/// units would do.
///
/// ```
/// use hoopline::quantity::{Quantity, read};
/// assert_eq!(read("180 mm", Quantity::Length), Ok(0.18));
/// assert!(read("60 bar", Quantity::GaugePressure).unwrap_err().contains("gauge"));
/// ```
pub fn read(text: &str, quantity: Quantity) -> Result<f64, String> {
    let trimmed = text.trim();
    let split = trimmed
        .char_indices()
        .find(|(at, letter)| {
            letter.is_alphabetic() && !is_exponent(trimmed, *at) || *letter == '%' || *letter == '°'
        })
        .map_or(trimmed.len(), |(at, _)| at);
    let (number, symbol) = trimmed.split_at(split);
    let number: f64 = number
        .trim()
        .parse()
        .map_err(|_| number_problem(text, number.trim(), quantity))?;
    if !number.is_finite() {
        return Err(format!(
            "\"{}\" is not a finite number; write {}",
            cut(text),
            wanted(quantity)
        ));
    }
    let symbol = symbol.split_whitespace().collect::<Vec<_>>().join(" ");
    match quantity.unit(&symbol) {
        Some(unit) => Ok(number * unit.factor + unit.offset),
        None => Err(unit_problem(text, &symbol, quantity)),
    }
}

/// An `e` or `E` between a digit and a digit or sign belongs to the number.
fn is_exponent(text: &str, at: usize) -> bool {
    let bytes = text.as_bytes();
    matches!(bytes[at], b'e' | b'E')
        && at > 0
        && (bytes[at - 1].is_ascii_digit() || bytes[at - 1] == b'.')
        && bytes
            .get(at + 1)
            .is_some_and(|next| next.is_ascii_digit() || *next == b'-' || *next == b'+')
}

fn number_problem(text: &str, number: &str, quantity: Quantity) -> String {
    let text = &cut(text);
    let with_point = number.replacen(',', ".", 1);
    if number.contains(',') && with_point.parse::<f64>().is_ok() {
        let right = text.replacen(',', ".", 1);
        return format!("\"{text}\" has a comma in its number; write \"{right}\"");
    }
    format!(
        "\"{text}\" does not begin with a number; write {}",
        wanted(quantity)
    )
}

/// The unit that was probably meant: written in other letters, with a sign of its own, or with the
/// basis of a pressure put short.
fn alike(symbol: &str, quantity: Quantity) -> Option<&'static str> {
    let plain = |symbol: &str| {
        let symbol = symbol
            .replace('\u{b2}', "2")
            .replace('\u{b3}', "3")
            .replace('\u{b0}', "deg")
            .replace(['\u{b5}', '\u{3bc}'], "u");
        symbol.replace(['^', ' ', '*', '(', ')'], "").to_lowercase()
    };
    let given = plain(symbol);
    let mut units = quantity.units().iter().map(|unit| unit.symbol);
    units.find(|known| {
        let known = plain(known);
        let short = match quantity {
            Quantity::GaugePressure => known.strip_suffix("auge"),
            Quantity::AbsolutePressure => known.strip_suffix("bsolute"),
            Quantity::Temperature => known.strip_prefix("deg"),
            _ => None,
        };
        !known.is_empty() && (known == given || short == Some(given.as_str()))
    })
}

fn unit_problem(text: &str, symbol: &str, quantity: Quantity) -> String {
    let wanted = wanted(quantity);
    let (text, symbol) = (&cut(text), &cut(symbol));
    if symbol.is_empty() {
        return format!("\"{text}\" has no unit; write {wanted}");
    }
    if let Some(meant) = alike(symbol, quantity) {
        return format!(
            "unit \"{symbol}\" is not {}; did you mean \"{meant}\"? write {wanted}",
            quantity.with_article()
        );
    }
    let basis = match quantity {
        Quantity::GaugePressure => Some("gauge"),
        Quantity::AbsolutePressure => Some("absolute"),
        _ => None,
    };
    if let Some(basis) = basis {
        let with_basis = format!("{symbol} {basis}");
        if quantity
            .units()
            .iter()
            .any(|unit| unit.symbol == with_basis)
        {
            return format!(
                "\"{text}\" does not say whether it is gauge or absolute; this one is {basis}: \
                 write {wanted}"
            );
        }
        let symbol = symbol.as_str();
        let known_otherwise = Quantity::ALL
            .iter()
            .flat_map(|other| other.units())
            .any(|unit| unit.symbol == symbol);
        if known_otherwise && (symbol.ends_with("gauge") || symbol.ends_with("absolute")) {
            return format!(
                "\"{text}\" has the wrong pressure basis; this one is {basis} (gauge = absolute - \
                 site pressure): write {wanted}"
            );
        }
    }
    format!(
        "unit \"{symbol}\" is not {}; write {wanted}",
        quantity.with_article()
    )
}

/// The units that would do, in words.
pub fn wanted(quantity: Quantity) -> String {
    let mut symbols: Vec<&str> = Vec::new();
    for unit in quantity.units() {
        if !unit.symbol.is_empty() && !symbols.contains(&unit.symbol) {
            symbols.push(unit.symbol);
        }
    }
    let bare = quantity.units().iter().any(|unit| unit.symbol.is_empty());
    let with_units = format!("a number in {}", symbols.join(", "));
    if bare {
        format!("a bare number or {with_units}")
    } else {
        with_units
    }
}

/// A value with the unit results are printed in, at a precision a reader can use.
pub fn show(value: f64, quantity: Quantity) -> String {
    show_with(value, quantity, 5)
}

/// As [`show`], with as many more digits as tell the value from others; twelve at most, since units
/// round the last ones.
pub(crate) fn show_apart(value: f64, others: [f64; 2], quantity: Quantity) -> String {
    let told = |digits: &i32| {
        let shown = show_with(value, quantity, *digits);
        others
            .iter()
            .all(|other| *other == value || shown != show_with(*other, quantity, *digits))
    };
    let digits = (5..=12).find(told).unwrap_or(5);
    show_with(value, quantity, digits)
}

fn show_with(value: f64, quantity: Quantity, digits: i32) -> String {
    let unit = quantity.printed();
    let shown = (value - unit.offset) / unit.factor;
    let digits = significant(shown, digits);
    if unit.symbol.is_empty() {
        digits
    } else {
        format!("{digits} {}", unit.symbol)
    }
}

/// At most `count` significant digits, without trailing zeros.
fn significant(value: f64, count: i32) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let magnitude = libm::floor(libm::log10(value.abs())) as i32;
    if !(-5..15).contains(&magnitude) {
        return format!("{value:.*e}", (count - 1) as usize);
    }
    let decimals = (count - 1 - magnitude).max(0) as usize;
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_of_each_kind() {
        assert_eq!(read("20 degC", Quantity::Temperature), Ok(293.15));
        assert_eq!(read("15 %", Quantity::Ratio), Ok(0.15));
        assert_eq!(read("0.15", Quantity::Ratio), Ok(0.15));
        assert_eq!(read("60 bar gauge", Quantity::GaugePressure), Ok(60e5));
        assert_eq!(read("1e3 mm", Quantity::Length), Ok(1.0));
        assert_eq!(read("  2.5e-1m ", Quantity::Length), Ok(0.25));
        approx::assert_relative_eq!(
            read("42 ksi", Quantity::Stress).unwrap(),
            42.0 * 6.894757e6,
            max_relative = 1e-7
        );
    }

    #[test]
    fn signs_of_the_si_beside_those_listed() {
        for (text, plain, quantity) in [
            ("30 \u{b0}C", "30 degC", Quantity::Temperature),
            ("30\u{b0}C", "30 degC", Quantity::Temperature),
            ("84\u{b0}", "84 deg", Quantity::Angle),
            ("9 l", "9 L", Quantity::Volume),
            ("9 ml", "9 mL", Quantity::Volume),
            ("5 \u{b5}m", "5 um", Quantity::Length),
            ("5 \u{3bc}m", "5 um", Quantity::Length),
        ] {
            assert_eq!(read(text, quantity), read(plain, quantity), "{text}");
            assert!(read(text, quantity).is_ok(), "{text}");
        }
        for (text, quantity) in [
            ("30 \u{b0}", Quantity::Temperature),
            ("9 ll", Quantity::Volume),
            ("9 l", Quantity::Length),
        ] {
            assert!(read(text, quantity).is_err(), "{text}");
        }
        assert!(!wanted(Quantity::Temperature).contains('\u{b0}'));
        assert!(!wanted(Quantity::Volume).contains(" l"));
    }

    #[test]
    fn wrong_units_say_what_would_do() {
        let problem = read("180 bar", Quantity::Length).unwrap_err();
        assert!(
            problem.contains("not a length") && problem.contains("mm"),
            "{problem}"
        );
        assert!(
            read("180", Quantity::Length)
                .unwrap_err()
                .contains("no unit")
        );
        assert!(read("", Quantity::Length).unwrap_err().contains("number"));
        assert!(read("nan m", Quantity::Length).is_err());
        assert!(read("inf m", Quantity::Length).is_err());
        assert!(
            read("1e999 m", Quantity::Length)
                .unwrap_err()
                .contains("finite")
        );
        assert!(
            read("60 bar absolute", Quantity::GaugePressure)
                .unwrap_err()
                .contains("basis")
        );
    }

    #[test]
    fn slips_of_the_pen_name_what_was_meant() {
        for (text, quantity, meant) in [
            ("5 MM", Quantity::Length, "\"mm\""),
            ("5 \u{b5}M", Quantity::Length, "\"um\""),
            ("5 \u{b0}c", Quantity::Temperature, "\"degC\""),
            ("5 C", Quantity::Temperature, "\"degC\""),
            ("5 kg/m\u{b3}", Quantity::Density, "\"kg/m3\""),
            ("5 kg/m^3", Quantity::Density, "\"kg/m3\""),
            ("5 barg", Quantity::GaugePressure, "\"bar gauge\""),
            ("5 psi(g)", Quantity::GaugePressure, "\"psi gauge\""),
            ("5 bara", Quantity::AbsolutePressure, "\"bar absolute\""),
            ("5,3 mm", Quantity::Length, "\"5.3 mm\""),
        ] {
            let problem = read(text, quantity).unwrap_err();
            assert!(problem.contains(meant), "{text}: {problem}");
        }
        let problem = read("5 bara", Quantity::GaugePressure).unwrap_err();
        assert!(!problem.contains("did you mean"), "{problem}");
    }

    #[test]
    fn values_beside_a_limit_are_told_from_it() {
        let shown = |value| show_apart(value, [0.0, 350.0], Quantity::Temperature);
        assert_eq!(shown(350.000004), "76.850004 degC");
        assert_eq!(shown(360.0), "86.85 degC");
        let shown = |value| show_apart(value, [0.02, 3.0], Quantity::Length);
        assert_eq!(shown(0.01999999), "19.99999 mm");
    }

    #[test]
    fn shown_values() {
        assert_eq!(show(0.16, Quantity::Length), "160 mm");
        assert_eq!(show(293.15, Quantity::Temperature), "20 degC");
        assert_eq!(show(0.15, Quantity::Share), "15 %");
        assert_eq!(show(9640.7, Quantity::Altitude), "9640.7 m");
    }
}
