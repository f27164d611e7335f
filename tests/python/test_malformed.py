"""Stage files with one kind of mistake each: what `hoopline check` prints, to the letter.

Beside each file in tests/data/malformed stands the print that a user gets. A print is changed by
hand after reading it, never by taking over what comes out.
"""

import json
import random
import re
from pathlib import Path

import pytest
from command_line import run

import hoopline as hl

FOLDER = Path(__file__).parents[1] / "data" / "malformed"
NAMES = sorted(file.stem for file in FOLDER.glob("*.toml"))
FEWEST = 25
# No letter of these can be told, and so no place.
WITHOUT_PLACE = {"utf_16", "utf_16_without_a_mark"}


def check(name, *options):
    return run("check", f"{name}.toml", *options)


@pytest.fixture(autouse=True)
def in_folder(monkeypatch):
    monkeypatch.chdir(FOLDER)


def test_every_file_has_its_print_and_every_print_its_file():
    assert len(NAMES) >= FEWEST
    assert [file.stem for file in sorted(FOLDER.glob("*.txt"))] == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_the_print_is_exactly_as_written_down(name):
    expected = (FOLDER / f"{name}.txt").read_text(encoding="utf-8")
    result = check(name)
    assert result.output == expected
    assert result.exit_code == 2  # what every refused input ends with
    assert "Traceback" not in result.output


@pytest.mark.parametrize("name", NAMES)
def test_every_mistake_has_a_place_a_name_and_a_way_out(name):
    (row,) = json.loads(check(name, "--json").stdout)
    assert row["problems"]
    for problem in row["problems"]:
        told = f"{problem['message']}\n{problem['snippet']}\n{problem['help']}"
        if name in WITHOUT_PLACE:
            assert f"{name}.toml" in problem["message"]
        else:
            place = f"{problem['file']}:{problem['line']}:{problem['column']}: "
            assert f"{place}{problem['message']}\n{problem['snippet']}" in row["mistakes"]
            assert problem["file"] == f"{name}.toml"
        assert problem["help"] or "; " in problem["message"]
        leaf = re.sub(r"\[\d+\]", "", problem["path"]).rsplit(".", 1)[-1]
        assert leaf in told


@pytest.mark.parametrize("name", NAMES)
def test_the_marks_stand_below_what_is_meant(name):
    (row,) = json.loads(check(name, "--json").stdout)
    for problem in row["problems"]:
        if name in WITHOUT_PLACE:
            continue
        lines = problem["snippet"].splitlines()
        gutter = lines[0].index("|")
        assert lines[1].lstrip().startswith(str(problem["line"]))
        assert lines[2][gutter + 2 :].index("^") == problem["column"] - 1


@pytest.mark.parametrize("name", NAMES)
def test_loading_refuses_with_the_same_words(name):
    with pytest.raises((hl.InputError, hl.DataError)) as caught:
        hl.Stage.load(f"{name}.toml")
    assert f"{caught.value}\n" == (FOLDER / f"{name}.txt").read_text(encoding="utf-8")


def test_files_damaged_at_random_are_refused_in_words(tmp_path):
    draw = random.Random(7)  # noqa: S311 (nothing secret hangs on it)
    sources = [(FOLDER / f"{name}.toml").read_bytes() for name in NAMES]
    marks = [b'"', b"[", b"]", b"=", b"\0", b"\xff", b"nan", b"1e999", b"[tank]\n", b"\r", b"{"]
    file = tmp_path / "damaged.toml"
    refused = []
    for _ in range(400):
        lines = draw.choice(sources).split(b"\n")
        lines[draw.randrange(len(lines))] = draw.choice(lines)
        text = b"\n".join(lines)
        at = draw.randrange(len(text) + 1)
        file.write_bytes(text[:at] + draw.choice(marks) + text[at + draw.randrange(9) :])
        try:
            hl.Stage.load(file)
        except (hl.InputError, hl.DataError) as error:  # anything else fails the test
            refused += error.problems
    assert len(refused) > 400
    assert all(one.file == str(file) or str(file) in one.message for one in refused)
