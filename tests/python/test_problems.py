"""What an error knows beyond its text, and its colour in a terminal."""

import dataclasses
import json
import os
import pickle
import subprocess
import sys
from pathlib import Path

import pytest
from command_line import run

import hoopline as hl

FOLDER = Path(__file__).parents[1] / "data" / "malformed"
FIELDS = ["file", "line", "column", "path", "message", "help", "snippet"]


@pytest.fixture
def refused(monkeypatch):
    monkeypatch.chdir(FOLDER)
    with pytest.raises(hl.InputError) as caught:
        hl.Stage.load("several.toml")
    return caught.value


def test_an_error_in_a_file_knows_every_mistake_and_its_place(refused):
    assert [(one.path, one.line, one.column) for one in refused.problems] == [
        ("pressure.soak_temperatur", 24, 1),
        ("tank.outer_diameter", 30, 18),
        ("payload_bay.volume", 62, 10),
        ("fins.count", 73, 9),
        ("mass.item[0].place", 99, 9),
        ("requirement[0].at_least", 105, 12),
    ]
    lines = Path("several.toml").read_text(encoding="utf-8").splitlines()
    for one in refused.problems:
        assert one.file == "several.toml"
        assert lines[one.line - 1] in one.snippet
        assert one.help in one.snippet
        first = f"{one.file}:{one.line}:{one.column}: {one.message}\n"
        assert f"{first}{one.snippet}" in str(refused)


def test_problems_do_not_change_and_survive_pickling(refused):
    assert [field.name for field in dataclasses.fields(hl.Problem)] == FIELDS
    with pytest.raises(dataclasses.FrozenInstanceError):
        refused.problems[0].line = 1
    copy = pickle.loads(pickle.dumps(refused))
    assert copy.problems == refused.problems
    assert (str(copy), copy.coloured) == (str(refused), refused.coloured)


def test_a_value_without_a_file_has_a_problem_without_a_place(stage):
    with pytest.raises(hl.InputError) as caught:
        stage.replace({"tank.outer_diameter": "1 mm"})
    (one,) = caught.value.problems
    assert (one.file, one.line, one.column, one.snippet) == (None, None, None, "")
    assert one.path == "tank.outer_diameter"
    assert f"{one.message}; {one.help}" == str(caught.value)


def test_an_error_that_knows_its_text_alone_has_one_problem():
    with pytest.raises(hl.InputError) as caught:
        hl.Stage(None)
    (one,) = caught.value.problems
    assert one.message == str(caught.value)


def test_a_file_that_cannot_be_read_has_a_problem_too(tmp_path):
    with pytest.raises(hl.DataError) as caught:
        hl.Stage.load(tmp_path / "absent.toml")
    (one,) = caught.value.problems
    assert one.message == f"{tmp_path / 'absent.toml'}: there is no such file"
    assert one.help


def test_check_prints_the_same_fields_as_json(refused):
    result = run("check", "several.toml", "--json")
    (row,) = json.loads(result.stdout)
    assert row["problems"] == [dataclasses.asdict(one) for one in refused.problems]
    sound = run("check", str(hl.example("petrel_slim")), "--json")
    assert json.loads(sound.stdout)[0]["problems"] == []


def test_without_colour_the_coloured_text_is_the_text(refused):
    import re

    assert "\x1b[" in refused.coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", refused.coloured) == str(refused)


def in_terminal(*arguments, **variables):
    """Run the command with a terminal of its own; return what a person sees, and the exit code."""
    import pty

    ours, theirs = pty.openpty()
    plain = {key: text for key, text in os.environ.items() if key not in ("NO_COLOR", "TERM")}
    code = "from hoopline.cli import main; main(prog_name='hoopline')"
    done = subprocess.Popen(
        [sys.executable, "-c", code, *arguments],
        stdin=theirs, stdout=theirs, stderr=theirs, cwd=FOLDER,
        env={**plain, "TERM": "xterm", **variables},
    )  # fmt: skip
    os.close(theirs)
    seen = b""
    while True:
        try:
            more = os.read(ours, 4096)
        except OSError:  # how a terminal says that the other end has gone
            break
        if not more:
            break
        seen += more
    os.close(ours)
    return seen.decode("utf-8").replace("\r\n", "\n"), done.wait()


def test_what_is_no_terminal_takes_no_colour(monkeypatch):
    import io

    from hoopline.cli.terminal import takes_colour

    class Terminal(io.StringIO):
        def isatty(self):
            return True

    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    assert takes_colour(Terminal())
    assert not takes_colour(io.StringIO())
    monkeypatch.setenv("NO_COLOR", "")  # set, yet to nothing: as if it were not
    assert takes_colour(Terminal())
    monkeypatch.setenv("NO_COLOR", "1")
    assert not takes_colour(Terminal())


@pytest.mark.skipif(sys.platform == "win32", reason="terminals differ")
@pytest.mark.parametrize("command", ["check", "assess"])
def test_a_terminal_shows_colour_unless_told_otherwise(command, refused):
    before = "Error: " if command == "assess" else ""
    seen, code = in_terminal(command, "several.toml")
    assert code == 2
    assert seen == f"{before}{refused.coloured}\n"
    for variables in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
        seen, code = in_terminal(command, "several.toml", **variables)
        assert code == 2
        assert seen == f"{before}{refused}\n"


def test_a_pipe_shows_no_colour(refused):
    code = "from hoopline.cli import main; main(prog_name='hoopline')"
    for command, before in (("check", ""), ("assess", "Error: ")):
        done = subprocess.run(
            [sys.executable, "-c", code, command, "several.toml"],
            check=False, capture_output=True, text=True,
        )  # fmt: skip
        assert done.stdout + done.stderr == f"{before}{refused}\n"
