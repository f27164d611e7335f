"""Processor time of one thread, which other programs on the machine disturb least."""

from __future__ import annotations

import os
import resource
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable


def on_one_thread() -> None:
    """Keep every library to one thread; call it before the first of them is imported."""
    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ[name] = "1"
    os.environ["XLA_FLAGS"] = "--xla_cpu_multi_thread_eigen=false intra_op_parallelism_threads=1"
    os.environ["JAX_PLATFORMS"] = "cpu"


def seconds(work: Callable[[], object]) -> float:
    """Return the processor time this process spends on some work."""
    start = time.process_time()
    work()
    return time.process_time() - start


def children_seconds(work: Callable[[], object]) -> float:
    """Return the processor time that programs started by some work spend, all told."""

    def spent() -> float:
        usage = resource.getrusage(resource.RUSAGE_CHILDREN)
        return usage.ru_utime + usage.ru_stime

    before = spent()
    work()
    return spent() - before
