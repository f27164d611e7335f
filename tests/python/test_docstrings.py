"""Examples in docstrings run."""

import doctest
import importlib
import pkgutil

import pytest

import hoopline

MODULES = sorted(
    module.name for module in pkgutil.walk_packages(hoopline.__path__, prefix="hoopline.")
)


def test_there_are_modules_with_examples():
    finder = doctest.DocTestFinder(exclude_empty=True)
    examples = sum(
        len(found.examples)
        for name in MODULES
        for found in finder.find(importlib.import_module(name))
    )
    assert examples >= 10


@pytest.mark.parametrize("name", ["hoopline", *MODULES])
def test_docstring_examples(name):
    module = importlib.import_module(name)
    result = doctest.testmod(module, raise_on_error=False)
    assert result.failed == 0
