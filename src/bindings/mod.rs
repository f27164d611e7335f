//! The Python surface: thin wrappers, one file per room. Private behind `python/hoopline`.

mod errors;
mod schema;
mod stage;
mod sweep;

/// Compiled core of `hoopline`; use the package, not this module.
#[pyo3::pymodule]
mod _core {
    #[pymodule_export]
    use super::schema::{fault_word, reason, schema, show, si};
    #[pymodule_export]
    use super::stage::Stage;
    #[pymodule_export]
    use super::sweep::sweep;

    /// Version of the library.
    #[pymodule_export]
    #[allow(non_upper_case_globals)]
    const version: &str = env!("CARGO_PKG_VERSION");
}
