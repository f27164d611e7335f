"""Every word a user meets is listed in python/docs/words.md: ours, or the trade's."""

import re
from pathlib import Path
from typing import get_args

import click
import pytest

import hoopline as hl
from hoopline import _core
from hoopline.cli import main
from hoopline.schema import document
from hoopline.tank_options import Status

ROOT = Path(__file__).parents[2]
LIST = ROOT / "python" / "docs" / "words.md"


def commands():
    context = click.Context(main)
    for name in main.list_commands(context):
        yield name
        for parameter in main.get_command(context, name).params:
            if isinstance(parameter, click.Option):
                yield from (option for option in parameter.opts if option.startswith("--"))


def keys():
    tables = document()
    rows = [*tables["inputs"], *tables["results"], *tables["texts"], *tables["listed"]]
    rows += [*tables["others"], *tables["lists"], *tables["choices"]]
    for row in rows:
        yield from (re.sub(r"\[\d*\]", "", name) for name in row["path"].split("."))
    for table in tables["study"]:
        yield from (row["path"] for row in table["names"])
    for kind in tables["kinds"]:
        yield kind["word"]
        yield from (field["path"].rpartition(".")[2] for field in kind["fields"])
    yield from ("value", "source")


def words_of_choices():
    for choice in document()["choices"]:
        yield from (option["word"] for option in choice["options"])
    yield from document()["methods"]


def statuses():
    yield from (_core.fault_word(code) for code in range(1, 28))
    source = (ROOT / "src" / "study" / "optimise" / "candidate.rs").read_text()
    yield from re.findall(r'=> "([a-z ]+)"', source[source.index("fn word") :][:400])
    yield from get_args(Status)
    yield from ("met", "not met", "open")


def headings():
    page = (ROOT / "python" / "hoopline" / "reporting" / "page.html.jinja").read_text()
    yield from re.findall(r"<h2>([^<]+)</h2>", page)
    from hoopline.text import SECTIONS

    yield from SECTIONS.values()


def files():
    source = (ROOT / "python" / "hoopline" / "exporting" / "__init__.py").read_text()
    yield from re.findall(r'"([a-z_]+\.(?:csv|txt))"', source)


def listed():
    return set(re.findall(r"`([^`]+)`", LIST.read_text()))


@pytest.mark.parametrize(
    "words",
    [commands, keys, words_of_choices, statuses, headings, files],
    ids=lambda words: words.__name__,
)
def test_every_word_is_listed(words):
    found = set(words())
    assert found
    assert found - listed() == set()


def test_every_public_name_is_listed():
    names = {name for name in hl.__all__ if not name.startswith("_")}
    names |= {f"plot.{name}" for name in hl.plot.__all__}
    assert names - listed() == set()


def test_nothing_is_listed_that_is_gone():
    known = set(commands()) | set(keys()) | set(words_of_choices()) | set(statuses())
    known |= set(headings()) | set(files()) | set(hl.__all__)
    known |= {f"plot.{name}" for name in hl.plot.__all__}
    assert listed() - known == set()
