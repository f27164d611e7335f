//! An explanation as JSON text, for other languages and programs.

use super::formula::NAMED;
use super::{Explanation, Unit};
use crate::error::Result;
use crate::quantity::{Quantity, show};
use crate::stage::given::Stage;
use crate::stage::shown::assessment::SAFETY;
use serde_json::{Value, json};

impl Unit {
    fn symbol(self) -> &'static str {
        match self {
            Self::Of(quantity) => quantity.si(),
            Self::Si(symbol) => symbol,
        }
    }

    fn show(self, value: f64) -> String {
        match self {
            Self::Of(quantity) => show(value, quantity),
            Self::Si(symbol) => format!("{} {symbol}", show(value, Quantity::Ratio)),
        }
    }
}

impl Stage {
    /// The explanation of a result as JSON: SI values, and each number as it is printed.
    pub fn explain_json(&self, path: &str) -> Result<String> {
        let mut content = self.explain(path)?.json();
        content["cautions"] = json!(self.assess()?.cautions);
        content["safety"] = json!(SAFETY);
        content["name"] = json!(self.labels().name);
        content["digest"] = json!(self.digest());
        content["version"] = json!(env!("CARGO_PKG_VERSION"));
        Ok(content.to_string())
    }
}

impl Explanation {
    fn json(&self) -> Value {
        let formulas = || self.steps.iter().map(|step| step.formula.as_str());
        let functions: Vec<&str> = NAMED
            .iter()
            .filter(|(name, _)| formulas().any(|formula| formula.contains(&format!("{name}("))))
            .map(|(_, meaning)| *meaning)
            .collect();
        json!({
            "path": self.path,
            "doc": self.doc,
            "value": self.value,
            "unit": self.quantity.si(),
            "shown": show(self.value, self.quantity),
            "terms": self.terms.iter().map(|term| json!({
                "symbol": term.symbol,
                "path": term.path,
                "doc": term.doc,
                "value": term.value,
                "unit": term.unit.symbol(),
                "shown": term.unit.show(term.value),
                "origin": term.origin,
                "source": term.source,
                "ask": term.ask,
            })).collect::<Vec<_>>(),
            "steps": self.steps.iter().map(|step| json!({
                "symbol": step.symbol,
                "formula": step.formula,
                "doc": step.doc,
                "value": step.value,
                "unit": step.unit.symbol(),
                "shown": step.unit.show(step.value),
                "source": step.source,
            })).collect::<Vec<_>>(),
            "functions": functions,
            "method": self.method.as_ref().map(|(text, source)| json!({
                "text": text,
                "source": source,
            })),
            "known_error": {"model": self.known_error.0, "text": self.known_error.1},
            "factor": self.factor.as_ref().map(|factor| json!({
                "path": factor.path,
                "value": factor.value,
                "rule_set": factor.rule_set,
                "source": factor.source,
                "scope": factor.scope,
            })),
            "next": self.next.as_ref().map(|next| json!({
                "governs": next.governs,
                "path": next.margin.as_ref().map(|(path, _)| path),
                "value": next.margin.as_ref().map(|(_, value)| value),
            })),
        })
    }
}
