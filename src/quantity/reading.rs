//! Text with a unit to SI and back.

use super::unit::Quantity;

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
            letter.is_ascii_alphabetic() && !is_exponent(trimmed, *at)
                || *letter == '%'
                || *letter == '°'
                || *letter == 'µ'
        })
        .map_or(trimmed.len(), |(at, _)| at);
    let (number, symbol) = trimmed.split_at(split);
    let number: f64 = number.trim().parse().map_err(|_| {
        format!(
            "\"{text}\" does not begin with a number; write {}",
            wanted(quantity)
        )
    })?;
    if !number.is_finite() {
        return Err(format!(
            "\"{text}\" is not a finite number; write {}",
            wanted(quantity)
        ));
    }
    let symbol = symbol.split_whitespace().collect::<Vec<_>>().join(" ");
    match quantity.units().iter().find(|unit| unit.symbol == symbol) {
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

fn unit_problem(text: &str, symbol: &str, quantity: Quantity) -> String {
    let wanted = wanted(quantity);
    if symbol.is_empty() {
        return format!("\"{text}\" has no unit; write {wanted}");
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
    let unit = quantity.printed();
    let shown = (value - unit.offset) / unit.factor;
    let digits = significant(shown, 5);
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
    fn shown_values() {
        assert_eq!(show(0.16, Quantity::Length), "160 mm");
        assert_eq!(show(293.15, Quantity::Temperature), "20 degC");
        assert_eq!(show(0.15, Quantity::Share), "15 %");
        assert_eq!(show(9640.7, Quantity::Altitude), "9640.7 m");
    }
}
