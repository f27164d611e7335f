//! Long calls: the work runs on a thread of its own without the interpreter's lock, while the
//! calling thread watches for Ctrl-C and reports progress.

use crate::error::{Error, Result};
use crate::study::Progress;
use pyo3::prelude::*;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;

/// How often Ctrl-C and progress are looked at.
const LOOK: Duration = Duration::from_millis(50);

/// Runs `work` beside the interpreter. An exception raised by a signal or by the progress callback
/// stops the work and is raised once it has stopped.
pub(super) fn watched<T: Send>(
    py: Python<'_>,
    total: usize,
    callback: Option<Py<PyAny>>,
    work: impl FnOnce(&Progress) -> Result<T> + Send,
) -> PyResult<T> {
    let progress = Progress::default();
    let watch = &progress;
    py.detach(|| {
        std::thread::scope(|scope| {
            let (sender, receiver) = channel();
            let worker = scope.spawn(move || {
                let result = work(watch);
                // The receiver outlives the worker; a failed send could only mean it is gone.
                let _ = sender.send(());
                result
            });
            let mut raised = None;
            while let Err(RecvTimeoutError::Timeout) = receiver.recv_timeout(LOOK) {
                let looked = Python::attach(|py| {
                    py.check_signals()?;
                    match &callback {
                        Some(callback) => callback.call1(py, (watch.done(), total)).map(|_| ()),
                        None => Ok(()),
                    }
                });
                if let (Err(error), true) = (looked, raised.is_none()) {
                    watch.cancel();
                    raised = Some(error);
                }
            }
            let result = worker.join();
            if let Some(error) = raised {
                return Err(error);
            }
            let value = match result {
                Ok(result) => result?,
                Err(_) => {
                    return Err(Error::Inconsistent(
                        "a worker thread failed unexpectedly; please report the inputs".to_owned(),
                    )
                    .into());
                }
            };
            if let Some(callback) = &callback {
                Python::attach(|py| callback.call1(py, (total, total)))?;
            }
            Ok(value)
        })
    })
}
