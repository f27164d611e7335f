//! Evaluates a formula as it is printed: plain arithmetic over symbols.
//!
//! The grammar is a subset of Python's, so that a formula can be copied into a session and gives the same
//! number there: `+ - * / **`, brackets, numbers, symbols, and the functions of [`call`].

use crate::atmosphere;
use crate::fluid::nitrous_oxide;
use crate::quantity::Slots;
use crate::vessel::{
    Closure, ClosureKind, closure_area, closure_area_outside, closure_depth, closure_volume,
};

/// Functions that are no arithmetic: name as in a formula, what it computes and whose equations it is.
pub(super) const NAMED: [(&str, &str); 10] = [
    (
        "n2o_pressure",
        "n2o_pressure(temperature, density): one phase of nitrous oxide, Lemmon and Span 2006; \
         textbook.nitrous_oxide.pressure",
    ),
    (
        "n2o_saturation_pressure",
        "n2o_saturation_pressure(temperature): liquid and vapour in equilibrium, Lemmon and Span 2006; \
         textbook.nitrous_oxide.saturation_pressure",
    ),
    (
        "n2o_liquid_density",
        "n2o_liquid_density(temperature): liquid in equilibrium with its vapour, Lemmon and Span 2006; \
         textbook.nitrous_oxide.liquid_density",
    ),
    (
        "n2o_vapour_density",
        "n2o_vapour_density(temperature): vapour in equilibrium with its liquid, Lemmon and Span 2006; \
         textbook.nitrous_oxide.vapour_density",
    ),
    (
        "air_pressure",
        "air_pressure(altitude): U.S. Standard Atmosphere 1976; textbook.air",
    ),
    (
        "torisphere_volume",
        "torisphere_volume(diameter, crown radius ratio, knuckle radius ratio): cap and swept knuckle, \
         exact; textbook.closure_volume",
    ),
    (
        "torisphere_area",
        "torisphere_area(diameter, crown radius ratio, knuckle radius ratio): cap and swept knuckle, \
         exact; textbook.closure_area",
    ),
    (
        "isotensoid_closure_depth",
        "isotensoid_closure_depth(diameter, turning radius ratio): curve of geodesic fibres and cap; \
         textbook.closure_depth",
    ),
    (
        "isotensoid_closure_volume",
        "isotensoid_closure_volume(diameter, turning radius ratio): curve of geodesic fibres and cap; \
         textbook.closure_volume",
    ),
    (
        "isotensoid_closure_area",
        "isotensoid_closure_area(diameter, turning radius ratio, offset): area of the parallel surface that \
         lies so far outside, by Steiner's formula; without offset textbook.closure_area",
    ),
];

/// Value of a formula, or what in it cannot be read.
pub(super) fn evaluate(formula: &str, lookup: &dyn Fn(&str) -> Option<f64>) -> Result<f64, String> {
    let mut reader = Reader {
        rest: formula,
        lookup,
    };
    let value = reader.sum()?;
    if reader.peek().is_none() {
        Ok(value)
    } else {
        Err(format!("\"{}\" is left over", reader.rest))
    }
}

struct Reader<'a> {
    rest: &'a str,
    lookup: &'a dyn Fn(&str) -> Option<f64>,
}

impl<'a> Reader<'a> {
    fn peek(&mut self) -> Option<char> {
        self.rest = self.rest.trim_start();
        self.rest.chars().next()
    }

    fn take(&mut self, token: &str) -> bool {
        self.peek();
        match self.rest.strip_prefix(token) {
            Some(rest) => {
                self.rest = rest;
                true
            }
            None => false,
        }
    }

    fn sum(&mut self) -> Result<f64, String> {
        let mut value = self.product()?;
        loop {
            if self.take("+") {
                value += self.product()?;
            } else if self.take("-") {
                value -= self.product()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn product(&mut self) -> Result<f64, String> {
        let mut value = self.signed()?;
        loop {
            if self.take("*") {
                value *= self.signed()?;
            } else if self.take("/") {
                value /= self.signed()?;
            } else {
                return Ok(value);
            }
        }
    }

    fn signed(&mut self) -> Result<f64, String> {
        if self.take("-") {
            return Ok(-self.signed()?);
        }
        let base = self.atom()?;
        if self.take("**") {
            let exponent = self.signed()?;
            return Ok(libm::pow(base, exponent));
        }
        Ok(base)
    }

    fn atom(&mut self) -> Result<f64, String> {
        if self.take("(") {
            let value = self.sum()?;
            return self.closed(value);
        }
        match self.peek() {
            Some(first) if first.is_ascii_digit() => self.number(),
            Some(first) if first.is_ascii_alphabetic() => {
                let name = self.word(|letter| letter.is_ascii_alphanumeric() || letter == '_');
                if !self.take("(") {
                    let found = (self.lookup)(name);
                    return found.ok_or_else(|| format!("\"{name}\" has no value"));
                }
                let mut arguments = vec![self.sum()?];
                while self.take(",") {
                    arguments.push(self.sum()?);
                }
                let value = call(name, &arguments)
                    .ok_or_else(|| format!("{name} of {} is not known", arguments.len()))?;
                self.closed(value)
            }
            _ => Err(format!("a number is expected at \"{}\"", self.rest)),
        }
    }

    fn closed(&mut self, value: f64) -> Result<f64, String> {
        if self.take(")") {
            Ok(value)
        } else {
            Err(format!("a bracket is open at \"{}\"", self.rest))
        }
    }

    fn word(&mut self, belongs: impl Fn(char) -> bool) -> &'a str {
        let end = self.rest.find(|letter| !belongs(letter));
        let (word, rest) = self.rest.split_at(end.unwrap_or(self.rest.len()));
        self.rest = rest;
        word
    }

    fn number(&mut self) -> Result<f64, String> {
        let before = self.rest;
        let mut length = self
            .word(|letter| letter.is_ascii_digit() || letter == '.')
            .len();
        if let Some(exponent) = self.rest.strip_prefix('e') {
            self.rest = exponent;
            length += 1;
            if let Some(rest) = exponent.strip_prefix('-') {
                self.rest = rest;
                length += 1;
            }
            length += self.word(|letter| letter.is_ascii_digit()).len();
        }
        let text = &before[..length];
        text.parse().map_err(|_| format!("\"{text}\" is no number"))
    }
}

fn call(name: &str, arguments: &[f64]) -> Option<f64> {
    Some(match (name, arguments) {
        ("sqrt", [x]) => x.sqrt(),
        ("sin", [x]) => libm::sin(*x),
        ("cos", [x]) => libm::cos(*x),
        ("atan", [x]) => libm::atan(*x),
        ("exp", [x]) => libm::exp(*x),
        ("log", [x]) => libm::log(*x),
        ("log1p", [x]) => libm::log1p(*x),
        ("sinh", [x]) => libm::sinh(*x),
        ("log10", [x]) => libm::log10(*x),
        ("tanh", [x]) => libm::tanh(*x),
        ("min", [first, rest @ ..]) => rest.iter().fold(*first, |least, x| least.min(*x)),
        ("max", [first, rest @ ..]) => rest.iter().fold(*first, |most, x| most.max(*x)),
        ("n2o_pressure", [temperature, density]) => nitrous_oxide::pressure(*temperature, *density),
        ("n2o_saturation_pressure", [temperature]) => {
            nitrous_oxide::saturation(*temperature).pressure
        }
        ("n2o_liquid_density", [temperature]) => {
            nitrous_oxide::saturation(*temperature).liquid_density
        }
        ("n2o_vapour_density", [temperature]) => {
            nitrous_oxide::saturation(*temperature).vapour_density
        }
        ("air_pressure", [altitude]) => atmosphere::standard(*altitude).pressure,
        ("torisphere_volume", [diameter, crown, knuckle]) => {
            closure_volume(ClosureKind::Torisphere, &dish(*crown, *knuckle), *diameter)
        }
        ("torisphere_area", [diameter, crown, knuckle]) => {
            closure_area(ClosureKind::Torisphere, &dish(*crown, *knuckle), *diameter)
        }
        ("isotensoid_closure_depth", [diameter, turning]) => {
            closure_depth(ClosureKind::Isotensoid, &curve(*turning), *diameter)
        }
        ("isotensoid_closure_volume", [diameter, turning]) => {
            closure_volume(ClosureKind::Isotensoid, &curve(*turning), *diameter)
        }
        ("isotensoid_closure_area", [diameter, turning, offset]) => {
            closure_area_outside(*turning, *diameter, *offset)
        }
        _ => return None,
    })
}

fn curve(turning_radius_ratio: f64) -> Closure<f64> {
    Closure {
        turning_radius_ratio,
        ..dish(0.0, 0.0)
    }
}

fn dish(crown: f64, knuckle: f64) -> Closure<f64> {
    Closure {
        crown_radius_ratio: crown,
        knuckle_radius_ratio: knuckle,
        turning_radius_ratio: 0.0,
        ..Closure::uniform(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn value(formula: &str) -> Result<f64, String> {
        evaluate(formula, &|name| match name {
            "pi" => Some(std::f64::consts::PI),
            "a" => Some(3.0),
            "b_1" => Some(0.5),
            _ => None,
        })
    }

    #[test]
    fn follows_the_order_of_operations_of_python() {
        for (formula, expected) in [
            ("1 + 2 * 3 ** 2", 19.0),
            ("-a ** 2", -9.0),
            ("2 ** 3 ** 2", 512.0),
            ("2 ** -1", 0.5),
            ("a - 1 - 1", 1.0),
            ("8 / 2 / 2", 2.0),
            ("(a + 1) * b_1", 2.0),
            ("max(a, b_1, 7) - min(a, b_1)", 6.5),
            ("1e-3 * 1e3 + 2.5", 3.5),
            ("sqrt(a ** 2 + 16)", 5.0),
        ] {
            assert_eq!(value(formula), Ok(expected), "{formula}");
        }
    }

    #[test]
    fn what_cannot_be_read_is_an_error() {
        for formula in [
            "",
            "a +",
            "(a",
            "c",
            "sqrt(a, a)",
            "a b_1",
            "1.2.3",
            "a ** ",
        ] {
            assert!(value(formula).is_err(), "{formula}");
        }
    }
}
