//! A constant table that is compared and hashed by the digest of its numbers.

use sha2::{Digest, Sha256};
use std::hash::{Hash, Hasher};
use std::ops::Deref;
use std::sync::Arc;

/// A shared table; equal digests mean equal tables.
#[derive(Debug, Clone)]
pub struct Digested<T> {
    table: Arc<T>,
    digest: [u8; 32],
}

impl<T> Digested<T> {
    /// Shares a table whose content is given by `numbers`.
    pub fn new<'a>(table: T, numbers: impl IntoIterator<Item = &'a f64>) -> Self {
        let mut hasher = Sha256::new();
        for number in numbers {
            hasher.update(number.to_bits().to_le_bytes());
        }
        Self {
            table: Arc::new(table),
            digest: hasher.finalize().into(),
        }
    }

    /// The first digits of the digest, to tell tables apart by eye.
    pub(in crate::stage) fn mark(&self) -> String {
        hexadecimal(&self.digest[..6])
    }
}

impl<T> Deref for Digested<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.table
    }
}

impl<T> PartialEq for Digested<T> {
    fn eq(&self, other: &Self) -> bool {
        self.digest == other.digest
    }
}

impl<T> Eq for Digested<T> {}

impl<T> Hash for Digested<T> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.digest.hash(state);
    }
}

/// Bytes as hexadecimal text.
pub(in crate::stage) fn hexadecimal(bytes: &[u8]) -> String {
    const DIGITS: &[u8; 16] = b"0123456789abcdef";
    bytes
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .map(|nibble| char::from(DIGITS[usize::from(nibble)]))
        .collect()
}
