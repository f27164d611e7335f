import json
import subprocess
import sys

import pytest
from click.testing import CliRunner

import hoopline as hl
from hoopline import demo
from hoopline.cli import main


def run(*arguments: str):
    return CliRunner().invoke(main, [str(argument) for argument in arguments])


def test_assess_prints_the_assessment(stage):
    result = run("assess", hl.example("petrel_slim"))
    assert result.exit_code == 0
    assert result.stdout == f"{stage.assess()}\n"
    assert result.stderr == ""


def test_assess_prints_json(stage):
    result = run("assess", hl.example("petrel_slim"), "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout)["results"] == dict(stage.assess().results)


def test_the_published_case_goes_through_the_same_command():
    result = run("assess", hl.example("published/v2_textbook"))
    assert result.exit_code == 0
    assert "burnout altitude" in result.stdout
    assert "Margins" not in result.stdout


@pytest.mark.parametrize(
    ("text", "message"),
    [(None, "no such file"), ("schema = 1\n[tank]\nwal = 1\n", "bad.toml:3:1:"), ("x", "bad.toml")],
)
def test_bad_input_ends_with_code_2_and_one_message(tmp_path, text, message):
    file = tmp_path / "bad.toml"
    if text is not None:
        file.write_text(text, encoding="utf-8")
    result = run("assess", file)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert message in result.stderr
    assert "Traceback" not in result.stderr


def test_unknown_commands_and_options_end_with_code_2():
    assert run("asess").exit_code == 2
    assert run("assess", "x.toml", "--jsn").exit_code == 2


def test_version():
    result = run("--version")
    assert result.exit_code == 0
    assert result.stdout == f"hoopline {hl.__version__}\n"


def test_the_module_runs_in_a_process_of_its_own(tmp_path):
    code = "from hoopline.cli import main; main()"
    command = [sys.executable, "-c", code, "assess", str(tmp_path / "missing.toml")]
    done = subprocess.run(command, check=False, capture_output=True, text=True)
    assert done.returncode == 2
    assert "no such file" in done.stderr
    assert "Traceback" not in done.stderr


def test_demo_names_its_folder_and_writes_everything(tmp_path):
    folder = tmp_path / "new" / "out"
    result = run("demo", "--into", folder)
    assert result.exit_code == 0, result.output
    assert result.stdout.rstrip().endswith(str(folder))
    written = {file.name for file in folder.iterdir()}
    assert written == {
        "apogee_and_fineness.png", "apogee_and_fineness.svg",
        "apogee_and_tank_mass.png", "apogee_and_tank_mass.svg",
        "diameter_sweep.csv",
        "petrel_hoop.txt", "petrel_plain.txt", "petrel_slim.txt", "v2_textbook.txt",
    }  # fmt: skip
    table = (folder / "diameter_sweep.csv").read_text(encoding="utf-8").splitlines()
    assert len(table) == 1 + 3 * len(demo.DIAMETERS)
    assert table[0].startswith("variant,tank.outer_diameter [mm],")
    again = run("demo", "--into", folder)
    assert again.exit_code == 0


def test_a_folder_that_cannot_be_made_is_a_plain_refusal():
    result = CliRunner().invoke(main, ["demo", "--into", "/dev/null/nope"])
    assert result.exit_code == 2
    assert "Error:" in result.output
    assert "Traceback" not in result.output
