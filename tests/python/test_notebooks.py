"""Every notebook runs from top to bottom."""

from pathlib import Path

import jupytext
import pytest
from nbclient import NotebookClient

NOTEBOOKS = sorted((Path(__file__).parents[2] / "notebooks").glob("*.py"))


def test_there_are_notebooks():
    assert NOTEBOOKS


# The kernel warns on its standard error about its transport, and its client about event loops;
# neither is about the notebook.
@pytest.mark.filterwarnings("ignore::DeprecationWarning", "ignore::ResourceWarning")
@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_notebook(path):
    notebook = jupytext.read(path)
    client = NotebookClient(notebook, timeout=120, resources={"metadata": {"path": path.parent}})
    client.execute()
    outputs = [output for cell in notebook.cells for output in cell.get("outputs", [])]
    assert any("<svg" in output.get("data", {}).get("text/html", "") for output in outputs)
