//! A digest of everything that a batch comes to, bit by bit.

use crate::batch::{Plan, fly};
use crate::outputs::All;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

/// SHA-256 of the bits of all outputs, design by design, least significant byte first, and the vector
/// instructions that this program was built with.
pub fn digest(plan: &Plan) -> Result<Value, String> {
    let mut digest = Sha256::new();
    for row in fly::<All, _>(plan)?.rows {
        for value in row {
            digest.update(value.to_le_bytes());
        }
    }
    let hex: String = digest
        .finalize()
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    Ok(json!({"sha256": hex, "instructions": instructions()}))
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
