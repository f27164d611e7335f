"""The door for newcomers, started with another Python than the system's."""

import importlib.util
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def do(monkeypatch, tmp_path):
    """Return the door with the pip of its Python gone, Rust there, and nothing installed."""
    spec = importlib.util.spec_from_file_location("do", ROOT / "do.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)

    def printed(*command):
        return "cargo 1.99.0" if command[0] == "cargo" else None

    monkeypatch.setattr(module, "output_of", printed)
    monkeypatch.setattr(module, "TOOLS", tmp_path)
    monkeypatch.setattr(module.shutil, "which", lambda name: name)
    return module


def test_the_checks_need_no_pip(do):
    assert do.missing(installs=False) is None


def test_an_installer_that_is_there_needs_no_pip(do):
    assert "pip" in do.missing(installs=True)
    do.uv().parent.mkdir(parents=True)
    do.uv().touch()
    assert do.missing(installs=True) is None


def test_an_environment_without_pip_is_told_from_a_system_without(do, monkeypatch):
    monkeypatch.setattr(sys, "prefix", "/somewhere/.venv")
    monkeypatch.setattr(sys, "base_prefix", "/usr")
    assert "/somewhere/.venv has no pip; run do.py with the Python outside" in do.missing(
        installs=True
    )
    monkeypatch.setattr(sys, "prefix", "/usr")
    assert do.missing(installs=True).endswith("apt install python3-pip")
