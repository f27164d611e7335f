//! A digest of everything that a batch comes to, bit by bit.

use crate::batch::{Plan, fly};
use crate::outputs::{All, OUTPUTS, bits};
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};
use std::fmt::Write;

/// SHA-256 of the bits of every output, design by design, least significant byte first, and the vector
/// instructions that this program was built with.
pub fn digest(plan: &Plan) -> Result<Value, String> {
    let rows = fly::<All, _>(plan)?.rows;
    let mut digests = Map::new();
    for (output, name) in OUTPUTS.iter().enumerate() {
        let mut digest = Sha256::new();
        for row in &rows {
            digest.update(bits(row[output]).to_le_bytes());
        }
        let mut hex = String::new();
        for byte in digest.finalize() {
            write!(hex, "{byte:02x}").map_err(|error| error.to_string())?;
        }
        digests.insert((*name).to_owned(), Value::String(hex));
    }
    Ok(json!({"sha256": digests, "instructions": instructions()}))
}

fn instructions() -> Vec<&'static str> {
    let built = [
        ("sse2", cfg!(target_feature = "sse2")),
        ("avx", cfg!(target_feature = "avx")),
        ("avx2", cfg!(target_feature = "avx2")),
        ("fma", cfg!(target_feature = "fma")),
        ("avx512f", cfg!(target_feature = "avx512f")),
        ("neon", cfg!(target_feature = "neon")),
        ("sve", cfg!(target_feature = "sve")),
    ];
    built
        .into_iter()
        .filter_map(|(name, there)| there.then_some(name))
        .collect()
}
