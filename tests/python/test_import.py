"""What an import or a command loads, never how long it takes: that depends on the machine."""

import subprocess
import sys

import pytest

HEAVY = ["matplotlib", "pandas", "xarray", "scipy", "jinja2", "rich", "IPython", "hypothesis"]


def loaded_after(code: str) -> set[str]:
    script = f"{code}\nimport sys\nprint(*sorted(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", script], check=True, capture_output=True, text=True
    )
    return set(done.stdout.splitlines()[-1].split())


def test_importing_the_package_loads_nothing_heavy():
    modules = loaded_after("import hoopline")
    assert "hoopline" in modules
    assert modules.isdisjoint([*HEAVY, "numpy", "click", "json", "hoopline._core"])


def test_assessing_a_stage_does_without_numpy():
    modules = loaded_after(
        "import hoopline as hl; str(hl.Stage.load(hl.example('petrel_slim')).assess())"
    )
    assert "hoopline._core" in modules
    assert modules.isdisjoint([*HEAVY, "numpy", "click"])


def test_sweeping_loads_numpy_and_nothing_else_that_is_heavy():
    modules = loaded_after("import hoopline as hl; hl.sweep")
    assert "numpy" in modules
    assert modules.isdisjoint(HEAVY)


def test_help_loads_nothing_heavy():
    modules = loaded_after(
        "import click.testing, hoopline.cli as cli\n"
        "assert click.testing.CliRunner().invoke(cli.main, ['--help']).exit_code == 0"
    )
    assert modules.isdisjoint([*HEAVY, "numpy", "hoopline._core", "hoopline.stage"])


def test_the_public_names_are_there():
    import hoopline as hl

    assert dir(hl) == sorted(hl.__all__)
    for name in hl.__all__:
        assert getattr(hl, name) is not None
    assert hl.__version__.count(".") == 2
    with pytest.raises(AttributeError, match="sweeep"):
        hl.sweeep  # noqa: B018
