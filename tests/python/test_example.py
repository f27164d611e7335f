"""The packaged examples: listed, printed, copied, and never over a file that is there."""

import json

import pytest
from command_line import run

import hoopline as hl
from hoopline.packaged import examples


def test_examples_are_listed_with_what_they_are():
    text = run("example").stdout
    listed = {line.split()[0] for line in text.splitlines()}
    assert listed == set(examples()) >= {"petrel_slim", "published/v2_textbook"}
    rows = json.loads(run("example", "--json").stdout)
    assert {row["name"]: row["description"] for row in rows} == examples()
    assert "two hemispheres" in examples()["petrel_slim"]
    assert "3 tube" in examples()["workshop_stock"]


def test_an_example_is_printed():
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    assert run("example", "petrel_slim").stdout.rstrip() == text.rstrip()
    assert json.loads(run("example", "petrel_slim", "--json").stdout)["text"] == text
    refused = run("example", "petrel_slin")
    assert refused.exit_code == 2
    assert 'did you mean "petrel_slim"?' in refused.stderr


@pytest.mark.parametrize("name", sorted(examples()))
def test_a_copy_can_be_checked_at_once(name, tmp_path):
    copy = tmp_path / "mine.toml"
    done = run("example", name, "--into", copy)
    assert (done.exit_code, done.stderr) == (0, "")
    assert copy.read_bytes() == hl.example(name).read_bytes()
    checked = run("check", copy)
    assert checked.exit_code == 0, checked.stdout


def test_a_copy_overwrites_nothing_and_leaves_nothing_half_done(tmp_path):
    copy, stock = tmp_path / "mine.toml", tmp_path / "workshop_stock.toml"
    stock.write_text("mine", encoding="utf-8")
    written = json.loads(run("example", "petrel_stock", "--into", copy, "--json").stdout)
    assert written["written"] == [str(copy)]
    copy.write_text("changed", encoding="utf-8")
    refused = run("example", "petrel_stock", "--into", copy)
    assert refused.exit_code == 2
    assert "is there already" in refused.stderr
    assert (copy.read_text(), stock.read_text()) == ("changed", "mine")
    itself = run("example", "petrel_study", "--into", tmp_path / "petrel_slim.toml")
    assert itself.exit_code == 2
    assert "another name" in itself.stderr
    assert run("example", "petrel_slim", "--into", tmp_path / "no" / "a.toml").exit_code == 2
    assert run("example", "--into", copy).exit_code == 2
    assert sorted(tmp_path.iterdir()) == [copy, stock]
