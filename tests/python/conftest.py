import os
from typing import Any

import pytest

import hoopline as hl

# Figures are drawn without a screen, in kernels and subprocesses too.
os.environ["MPLBACKEND"] = "agg"


@pytest.fixture(scope="session")
def stage() -> hl.Stage:
    return hl.Stage.load(hl.example("petrel_slim"))


@pytest.fixture(scope="session")
def published() -> hl.Stage:
    return hl.Stage.load(hl.example("published/v2_textbook"))


@pytest.fixture
def values() -> dict[str, Any]:
    """Return the nested mapping of an example stage, fresh for each test."""
    import tomllib

    return tomllib.loads(hl.example("petrel_slim").read_text(encoding="utf-8"))
