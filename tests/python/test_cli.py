import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest
from command_line import run

import hoopline as hl
from hoopline import demo


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


EXAMPLE = str(hl.example("petrel_slim"))


def shell(line: str, **more):
    """Run a line of bash in which `hoopline` is this package's command."""
    code = "from hoopline.cli import main; main(prog_name='hoopline')"
    python = f'hoopline() {{ {sys.executable} -c "{code}" "$@"; }}'
    return subprocess.run(
        ["bash", "-c", f"set -o pipefail; {python}; {line}"],
        check=False, capture_output=True, text=True, **more,
    )  # fmt: skip


def test_a_stage_that_misses_a_margin_or_a_requirement_ends_with_code_1(tmp_path):
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    thin, heavy = tmp_path / "thin.toml", tmp_path / "heavy.toml"
    thin.write_text(text.replace('wall = "3.4 mm"', 'wall = "2.0 mm"'), encoding="utf-8")
    heavy.write_text(text.replace('at_most = "9 kg"', 'at_most = "8 kg"'), encoding="utf-8")
    for file, words in ((thin, "NOT all margins are met"), (heavy, "1 NOT met (TNK-03)")):
        result = run("assess", file)
        assert (result.exit_code, result.stderr) == (1, "")
        assert words in result.stdout


def test_a_misspelt_command_names_the_nearest():
    result = run("asess")
    assert result.exit_code == 2
    assert 'no command "asess"; did you mean "assess"?' in result.stderr


@pytest.mark.parametrize("arguments", ["assess " + EXAMPLE, "--version", "--help"])
def test_a_full_device_is_a_plain_refusal(arguments):
    done = shell(f"hoopline {arguments} > /dev/full")
    assert done.returncode == 2
    assert done.stderr.startswith("Error: No space left on device")
    assert "Traceback" not in done.stderr


def test_a_reader_that_leaves_early_is_no_error():
    done = shell(f"hoopline assess {EXAMPLE} | head -n 1")
    assert (done.returncode, done.stdout, done.stderr) == (0, "Petrel slim\n", "")


def test_text_is_plain_when_piped_and_stands_out_in_a_terminal(monkeypatch):
    from hoopline.cli import terminal

    assert "\x1b" not in shell(f"hoopline assess {EXAMPLE}").stdout
    monkeypatch.setattr(terminal.sys.stdout, "isatty", lambda: True, raising=False)
    printed = []
    monkeypatch.setattr(terminal.click, "echo", printed.append)
    terminal.show("Margins of safety\n  hoop  -0.05  GOVERNS. Cylinder\n")
    assert printed[0].count("\x1b[") == 6
    terminal.show('{"a": -0.5}', as_json=True)
    assert printed[1] == '{"a": -0.5}'


def test_ctrl_c_ends_with_its_own_code(monkeypatch):
    from hoopline.stage import Stage

    def interrupted(_path):
        raise KeyboardInterrupt

    monkeypatch.setattr(Stage, "load", interrupted)
    result = run("assess", EXAMPLE)
    assert (result.exit_code, result.stderr.strip()) == (130, "stopped")


@pytest.mark.parametrize("name", ["bash", "zsh", "fish"])
def test_completion_prints_what_the_shell_reads(name):
    result = run("completion", name)
    assert result.exit_code == 0
    assert "_HOOPLINE_COMPLETE" in result.stdout


def test_completion_completes():
    words = 'COMP_WORDS="hoopline as" COMP_CWORD=1 _HOOPLINE_COMPLETE=bash_complete'
    done = shell(f"export {words}; hoopline")
    assert done.stdout == "plain,assess\n"


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
        "lightest_wall.png", "lightest_wall.svg",
        "petrel_hoop.txt", "petrel_plain.txt", "petrel_slim.txt", "v2_textbook.txt",
        "petrel_slim_report.html",
    }  # fmt: skip
    table = (folder / "diameter_sweep.csv").read_text(encoding="utf-8").splitlines()
    assert len(table) == 1 + 3 * len(demo.DIAMETERS)
    assert table[0].startswith("variant,tank.outer_diameter [mm],")
    again = run("demo", "--into", folder, "--json")
    assert again.exit_code == 0
    assert {Path(path).name for path in json.loads(again.stdout)["written"]} == written


def test_the_demo_table_is_safe_to_open_and_leaves_empty_what_is_no_number(tmp_path):
    slim, published = (
        hl.Stage.load(hl.example(name)) for name in ("petrel_slim", "published/v2_textbook")
    )
    sound = hl.sweep(slim, {"tank.liner.wall": ["3 mm", "95 mm"]})
    path = tmp_path / "table.csv"
    demo._write_table(path, {"=1+1": sound, "stated": hl.sweep(published, {"mass.added": [0.0]})})
    with path.open(newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    assert [row["variant"] for row in rows] == ["'=1+1", "'=1+1", "stated"]
    masses = [row["tank.mass [kg]"] for row in rows]
    assert masses == [repr(float(sound["tank.mass"][0])), "", ""]


@pytest.mark.parametrize(
    ("command", "file"),
    [(("demo",), None), (("export", EXAMPLE), None), (("report", EXAMPLE), "page.html"),
     (("example", "petrel_slim"), "mine.toml")],
    ids=lambda given: given[0] if isinstance(given, tuple) else "",
)  # fmt: skip
def test_files_written_are_told_by_the_names_they_have(command, file, tmp_path):
    folder = tmp_path / "Pr\N{LATIN SMALL LETTER U WITH DIAERESIS}fstand"
    folder.mkdir()
    result = run(*command, "--into", folder / file if file else folder, "--json")
    assert result.exit_code == 0, result.output
    assert sorted(json.loads(result.stdout)["written"]) == sorted(map(str, folder.iterdir()))
    assert str(folder) in result.stdout


def test_report_tells_what_it_wrote(tmp_path):
    page = tmp_path / "page.html"
    result = run("report", EXAMPLE, "--into", page, "--json")
    assert json.loads(result.stdout) == {"written": [str(page)]}
    nowhere = run("report", EXAMPLE, "--into", tmp_path / "absent" / "page.html")
    assert nowhere.exit_code == 2
    assert "absent/page.html: no such file or directory; check its name" in nowhere.output
    assert [file.name for file in tmp_path.iterdir()] == ["page.html"]


def test_a_folder_that_cannot_be_made_is_a_plain_refusal():
    result = run("demo", "--into", "/dev/null/nope")
    assert result.exit_code == 2
    assert "Error:" in result.output
    assert "Traceback" not in result.output


def test_check_tells_every_mistake_of_every_file(tmp_path):
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    bad = tmp_path / "bad.toml"
    wrong = text.replace('outer_diameter = "160 mm"', 'outer_diameter = "160 bar"')
    bad.write_text(wrong.replace("count = 4", "count = 7"), encoding="utf-8")
    result = run("check", EXAMPLE, bad, tmp_path / "absent.toml")
    assert result.exit_code == 2
    lines = result.stdout.splitlines()
    assert lines[0] == f"{EXAMPLE}: no mistakes found"
    places = [line.split(": ")[1] for line in lines if line.startswith(f"{bad}:")]
    assert places == ["tank.outer_diameter", "fins.count = 7"]
    assert "there is no such file" in lines[-1]
    content = json.loads(run("check", EXAMPLE, bad, "--json").stdout)
    assert [row["mistakes"] == "" for row in content] == [True, False]
    assert run("check", EXAMPLE).exit_code == 0
    assert run("check").exit_code == 2
