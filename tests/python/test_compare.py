"""Comparisons: what differs is listed, nothing else is, and saved ones of other versions read."""

import json
import math
import pickle
import re
from html.parser import HTMLParser

import pytest
from command_line import run

import hoopline as hl


@pytest.fixture(scope="module")
def plain():
    return hl.Stage.load(hl.example("petrel_plain"))


@pytest.fixture(scope="module")
def found(stage, plain):
    return hl.compare(stage, plain)


@pytest.fixture
def saved(stage):
    """Return the content of a saved assessment, fresh for each test."""
    return json.loads(stage.assess().to_json())


def test_inputs_that_differ_are_those_and_no_others(stage, plain, found):
    sides = [{row.path: row.value for row in one.inputs()} for one in (stage, plain)]
    paths = {path for path in {**sides[0], **sides[1]} if sides[0].get(path) != sides[1].get(path)}
    assert {row.path for row in found.inputs} == paths
    for row in found.inputs:
        assert row.values == tuple(side.get(row.path) for side in sides)
        alone = [letter for letter, x in zip("AB", row.values, strict=True) if x is not None]
        assert row.note == ("" if len(alone) == 2 else f"only in {alone[0]}")


def test_inputs_computed_from_others_come_last_and_say_so(stage, values):
    values["payload_bay"] = values["recovery_bay"] = {"length": "300 mm"}
    values["rail"]["length"] = "10 m"
    rows = hl.compare(stage, hl.Stage(values)).inputs
    assert [(row.path, row.note) for row in rows] == [
        ("rail.length", ""),
        ("payload_bay.volume", "computed in B"),
        ("recovery_bay.volume", "computed in B"),
    ]
    assert all(row.differences[0] and row.relative[0] for row in rows)
    text = str(hl.compare(stage, hl.Stage(values)))
    assert re.search(r"payload_bay.volume +6 L +5.793 L +-0.207 L +-3.5 %  computed in B\n", text)


def test_differences_are_side_less_reference_in_printed_units(found):
    rows = {row.path: row for row in (*found.inputs, *found.results)}
    diameter = rows["tank.outer_diameter"]
    assert diameter.values == (0.16, 0.18)
    assert diameter.shown == ("160 mm", "180 mm")
    assert diameter.differences == ("+20.0 mm",)
    assert diameter.relative[0] == pytest.approx(0.125, rel=1e-12)
    assert rows["pressures.burst"].differences[0].endswith(" bar")
    assert rows["tank.liner_hoop_share"].differences[0].endswith(" points")


def test_a_difference_of_temperatures_is_in_kelvin(stage):
    warm = stage.replace(
        {"propellant.fill_temperature": stage["propellant.fill_temperature"] + 1.0}
    )
    (row,) = hl.compare(stage, warm).inputs
    assert (row.differences, row.relative) == (("+1.00 K",), (None,))


def test_results_that_print_alike_are_left_out_unless_asked_for(stage, found, plain):
    assert all(len(set(row.shown)) > 1 for row in found.results)
    everything = hl.compare(stage, plain, everything=True)
    wanted = {*stage.assess().results, *plain.assess().results}
    assert {row.path for row in everything.results} == {
        path for path in wanted if not path.startswith("margins.")
    }
    assert len(found.results) < len(everything.results)
    rows = {row.path: row for row in everything.results}
    assert rows["load.oxidiser"].values[0] != rows["load.oxidiser"].values[1]
    assert rows["load.oxidiser"].differences == ("0 kg",)  # they differ in the last bits


def test_lines_add_up_to_the_total(stage, plain):
    hoop = hl.Stage.load(hl.example("petrel_hoop"))
    textbook = hl.Stage.load(hl.example("published/v2_textbook"))
    stated = stage.replace({"mass.stated.tank": "12 kg"})
    sides = (stage, plain, hoop, textbook, stated)
    found = hl.compare(*sides)
    for rows, total, path in (
        (found.masses, found.total, "mass.predicted"),
        ((found.total, *found.propellant), found.lift_off, "mass.lift_off"),
    ):
        assert total.predicted == tuple(side.assess()[path] for side in sides)
        for place in range(4):
            added = math.fsum(row.differences[place] for row in rows)
            assert added == pytest.approx(total.differences[place], abs=1e-9)
            change = total.predicted[place + 1] - total.predicted[0]
            assert total.differences[place] == pytest.approx(change, abs=1e-12)


def test_lines_of_one_name_are_matched_in_their_order(stage, values):
    item = values["mass"]["item"][0]
    values["mass"]["item"].append({**item, "name": item["name"], "mass": "100 g"})
    found = hl.compare(stage, hl.Stage(values))
    twice = [row for row in found.masses if row.name == item["name"]]
    assert [row.predicted[0] is None for row in twice] == [False, True]
    assert sum(row.differences[0] for row in found.masses) == pytest.approx(
        found.total.differences[0], abs=1e-9
    )


def test_margins_tell_what_governs_and_what_changes_sign(stage):
    thin = stage.replace({"tank.liner.wall": "2.5 mm"})
    found = hl.compare(stage, thin)
    assert found.governing == tuple(one.assess().governing.path for one in (stage, thin))
    turned = {row.path for row in found.margins if "no longer met in B" in row.note}
    before, after = (
        {margin.path: margin.value for margin in one.assess().margins} for one in (stage, thin)
    )
    assert turned == {path for path in before if before[path] >= 0.0 > after[path]}
    assert turned
    back = hl.compare(thin, stage)
    assert {row.path for row in back.margins if "met now in B" in row.note} == turned
    assert "NOT all margins and requirements are met by B (" in found.verdict


def test_what_is_not_met_is_named_for_every_side_wherever_the_verdict_stands(stage, values):
    thin = stage.replace({"tank.liner.wall": "2.5 mm"})
    mass = next(line for line in values["requirement"] if line["id"] == "TNK-03")
    mass["at_most"] = "1 kg"
    heavy = hl.Stage(values)
    found = hl.compare(heavy, thin, stage)
    for side, one in zip(found.sides, (heavy, thin, stage), strict=True):
        made = one.assess()
        assert side.negative == tuple(line.path for line in made.margins if line.value < 0.0)
        assert set(side.not_met) == {
            line.id for line in made.requirements if line.status == "not met"
        }
    assert found.sides[0].not_met == ("TNK-03",)
    assert found.sides[1].negative
    pages = (str(found), found.markdown().replace("\\", ""), found._repr_html_(), found.to_json())
    for page in pages:
        text = " ".join(page.split())
        assert "are met by A (requirement TNK-03) and B (margin" in text
        for path in found.sides[1].negative:
            name = path.removeprefix("margins.").replace("_", " ")
            assert name in text.partition("and B (")[2].partition(")")[0]


def test_requirements_whose_status_changed(stage, plain, found):
    status = [
        {line.id: line.status for line in one.assess().requirements} for one in (stage, plain)
    ]
    changed = {key for key in status[0] if status[0][key] != status[1].get(key)}
    assert {row.path for row in found.requirements} == changed
    assert changed


def of_side(caution, letter):
    """Return a caution as the side's own assessment words it."""

    def own(match):
        return dict(re.findall(r"([A-Z]) ([\d.]+)", match[0])).get(letter, match[1])

    return re.sub(r"\b[A-Z] ([\d.]+) \(((?:, )?[A-Z] [\d.]+)+\)", own, caution.text)


def test_cautions_gained_lost_and_with_other_numbers(stage, plain, found):
    sides = (stage, plain, stage.replace({"fins.span_ratio": 1.1 * stage["fins.span_ratio"]}))
    for together in (found, hl.compare(*sides)):
        for place, side in enumerate(together.sides):
            held = [one for one in together.cautions if one.holds[place]]
            texts = sides[place].assess().cautions
            assert sorted(of_side(one, side.letter) for one in held) == sorted(texts)
        texts = [re.sub(r"[\d.]+", "", caution.text) for caution in together.cautions]
        assert len(texts) == len(set(texts))
    text = str(found)
    assert re.search(r"A and B: fineness ratio A [\d.]+ \(B [\d.]+\)", text)
    assert "gained in B: a closure's rim" in text
    assert "lost in B: a closure's rim" in str(hl.compare(plain, stage))


def test_text_is_at_most_96_columns_wide_and_ends_with_safety(stage, plain):
    for pair in ((stage, plain), (plain, stage)):
        for everything in (False, True):
            text = str(hl.compare(*pair, everything=everything))
            assert max(map(len, text.split("\n"))) <= 96
            assert " ".join(text.split()).endswith(" ".join(stage.assess().safety.split()))


def test_the_verdict_is_one_sentence(found, stage):
    assert found.verdict.endswith(".")
    assert ". " not in found.verdict
    assert str(found).index(found.verdict.split(",")[0]) < str(found).index("Inputs that differ")
    assert hl.compare(stage, stage).verdict.startswith("No input and no result differs; ")


def test_markdown_is_tables_of_equal_width(stage, values):
    values["mass"]["item"][0]["name"] = "pay|load"
    content = json.loads(hl.Stage(values).assess().to_json())
    content["name"] = "A | B\n*bold* <b>"  # a stage refuses that, a saved file may hold it
    saved = hl.Assessment.from_json(json.dumps(content))
    text = hl.compare(stage, saved).markdown()
    assert "A \\| B" in text
    assert "\\*bold\\* \\<b\\>" in text
    assert "| pay\\|load |" in text
    width = 0
    for line in text.splitlines():
        cells = line.replace("\\|", "").count("|")
        if not line.startswith("|"):
            width = 0
        else:
            assert cells == (width or cells), line
            width = cells


def test_html_is_escaped_and_balanced(stage, values):
    values["name"] = "<script>alert(1)</script>"
    page = hl.compare(stage, hl.Stage(values))._repr_html_()
    assert "<script>" not in page
    stack = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag, _attributes):
            stack.append(tag)

        def handle_endtag(self, tag):
            assert stack.pop() == tag

    Reader().feed(page)
    assert not stack


def test_json_holds_everything_and_it_pickles(found):
    content = json.loads(found.to_json())
    assert set(content) == set(type(found).__slots__)
    assert content["sides"][0]["letter"] == "A"
    assert pickle.loads(pickle.dumps(found)) == found
    with pytest.raises(AttributeError):
        found.verdict = ""


def test_a_saved_assessment_reads_back(stage, saved, plain):
    assessment = stage.assess()
    back = hl.Assessment.from_json(assessment.to_json())
    assert back == assessment
    assert str(back) == str(assessment)
    assert back.to_json() == hl.Assessment.from_json(back.to_json()).to_json()
    assert back.schema == 1
    assert back.choices["follow.load"] == stage.follow["load"]
    assert pickle.loads(pickle.dumps(back)) == back
    assert hl.compare(back, plain) == hl.compare(stage, plain)
    with pytest.raises(hl.InputError, match="load the stage file"):
        back.explain("pressures.proof")


def test_another_version_is_read_as_far_as_paths_go(saved, plain, tmp_path):
    saved["version"], saved["schema"] = "9.9.9", 2
    saved["results"]["ascent.novelty"] = 12.5
    saved["results"].pop("ascent.max_mach")
    saved["inputs"].append({"path": "rail.grease", "value": 2.0, "unit": "m", "shown": "2 m"})
    saved["requirements"][0]["decided_by"] = "ascent.novelty"
    saved["requirements"][0]["colour"] = "green"
    saved["novelty"] = [1, 2]
    file = tmp_path / "later.json"
    file.write_text(json.dumps(saved), encoding="utf-8")
    back = hl.Assessment.from_json(file.read_text(encoding="utf-8"))
    assert dict(back.unread) == {"ascent.novelty": 12.5}
    assert "9.9.9" in str(back)
    found = hl.compare(file, plain)
    rows = {row.path: row for row in (*found.inputs, *found.results)}
    assert rows["ascent.novelty"].note == "only in A"
    assert rows["ascent.max_mach"].note == "only in B"
    assert rows["rail.grease"].note == "only in A"
    text = " ".join(str(found).split())
    assert "Versions differ (A 9.9.9, B" in text
    assert "Layouts differ (schema A 2, B 1)" in text
    assert "the models do" in text
    assert max(map(len, str(found).split("\n"))) <= 96


def test_one_saved_before_layouts_had_numbers_is_read(saved, stage):
    for key in ("schema", "choices", "on_record", "tables"):
        saved.pop(key)
    back = hl.Assessment.from_json(json.dumps(saved))
    found = hl.compare(back, stage)
    assert back.schema is None
    assert "A without a number" in found.notes[0]
    assert all(row.note == "only in B" for row in found.choices)
    assert not found.inputs


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (lambda saved: saved.pop("digest"), "digest is nothing and not a text"),
        (lambda saved: saved.pop("results"), "results is nothing and not an object"),
        (lambda saved: saved["results"].pop("ascent.apogee"), "results has no ascent.apogee"),
        (lambda saved: saved["results"].update({"mass.basic": "x"}), "mass.basic is 'x' and not a"),
        (lambda saved: saved["results"].update({"mass.basic": True}), "a finite number"),
        (lambda saved: saved["results"].update({"mass.basic": math.nan}), "a finite number"),
        (lambda saved: saved.update(margins=[1]), r"margins\[0\] is 1 and not an object"),
        (lambda saved: saved["margins"][0].pop("path"), r"margins\[0\]: path is nothing"),
        (lambda saved: saved.update(schema="one"), "schema is 'one' and not a whole number"),
        (lambda saved: saved["requirements"][0].update(status="green"), "met, not met or open"),
        (lambda saved: saved["mass_lines"][0].update(basic=None), "basic is nothing"),
        (lambda saved: saved.update(cautions="none"), "cautions is 'none' and not a list"),
        (lambda saved: saved.update(bands=[{"model": "x", "span": [1]}]), "pair of numbers"),
    ],
)
def test_what_is_no_assessment_is_refused_with_its_place(saved, change, message):
    change(saved)
    with pytest.raises(hl.InputError, match=message):
        hl.Assessment.from_json(json.dumps(saved))


@pytest.mark.parametrize("text", ["", "{", "[]", "1", '{"name": "x"}', "[" * 100_000])
def test_other_texts_are_refused(text):
    with pytest.raises(hl.InputError, match="not a saved assessment"):
        hl.Assessment.from_json(text)


def test_what_cannot_be_compared_is_refused(stage, tmp_path):
    with pytest.raises(hl.InputError, match="2 to 26 designs, not 1"):
        hl.compare(stage)
    with pytest.raises(hl.InputError, match="not an int"):
        hl.compare(stage, 3)
    with pytest.raises(hl.InputError, match="neither a stage file"):
        hl.compare(stage, tmp_path / "x.csv")
    with pytest.raises(hl.DataError, match=r"gone\.json"):
        hl.compare(stage, tmp_path / "gone.json")
    bad = tmp_path / "bad.json"
    bad.write_bytes(b"\xff\xfe")
    with pytest.raises(hl.InputError, match=r"bad\.json: not a saved assessment: no UTF-8"):
        hl.compare(stage, bad)


def test_the_waterfall_goes_from_one_total_to_the_other(found):
    plate = hl.plot.mass_waterfall(found)
    (panel,) = plate.figure.axes
    start, *steps, stop = panel.patches
    level = start.get_x() + start.get_width()
    assert level == pytest.approx(found.total.predicted[0])
    for bar, text in zip(steps, panel.texts[1:-1], strict=True):
        assert bar.get_x() == pytest.approx(level)
        level += bar.get_width()
        rises = bar.get_width() > 0.0
        assert ("/" in bar.get_hatch()) == rises
        assert text.get_text().startswith("+" if rises else "-")
        assert float(text.get_text()) == pytest.approx(bar.get_width(), abs=0.0051)
    assert level == pytest.approx(found.total.predicted[1])
    assert stop.get_x() + stop.get_width() == pytest.approx(found.total.predicted[1])
    assert not start.get_hatch()
    with pytest.raises(hl.InputError, match='other = "C" is not in this comparison'):
        hl.plot.mass_waterfall(found, "C")


def test_small_lines_are_summed_with_their_number(stage, values):
    for place in range(len(values["mass"]["item"])):
        values["mass"]["item"][place]["mass"] = f"{1.0 + 0.01 * place} kg"
    values["tank"]["outer_diameter"] = "170 mm"
    found = hl.compare(stage, hl.Stage(values))
    changed = sum(abs(row.differences[0]) >= 5e-4 for row in found.masses)
    panel = hl.plot.mass_waterfall(found).figure.axes[0]
    names = [text.get_text() for text in panel.get_yticklabels()]
    assert len(names) == 13
    assert names[-2] == f"others ({changed - 10})"


def test_the_command(tmp_path, stage, found):
    files = [str(hl.example(name)) for name in ("petrel_slim", "petrel_plain")]
    done = run("compare", *files)
    assert (done.exit_code, done.stdout) == (1, f"{found}\n")
    assert run("compare", *files, "--markdown").stdout == found.markdown()
    assert json.loads(run("compare", *files, "--json").stdout) == json.loads(found.to_json())
    assert run("compare", files[0], files[0]).exit_code == 0
    saved = tmp_path / "slim.json"
    saved.write_text(stage.assess().to_json(), encoding="utf-8")
    assert run("compare", str(saved), files[1]).stdout == f"{found}\n"
    run("compare", *files, "--into", str(tmp_path / "out"))
    assert sorted(path.name for path in (tmp_path / "out").iterdir()) == [
        "comparison.json", "comparison.md", "comparison.txt",
        "mass_waterfall_b.png", "mass_waterfall_b.svg",
    ]  # fmt: skip
    for wrong in (files[:1], [*files, "--json", "--markdown"], [files[0], "gone.toml"]):
        assert run("compare", *wrong).exit_code == 2


def test_the_waterfall_of_equals_says_so_and_draws_no_fat_bars(stage):
    plate = hl.plot.mass_waterfall(hl.compare(stage, stage))
    assert "is predicted as heavy as" in plate.caption
    assert "Strokes" not in plate.caption
    panel = plate.figure.axes[0]
    low, high = sorted(panel.get_ylim())
    assert panel.patches[0].get_height() < 0.1 * (high - low)


@pytest.mark.parametrize(
    ("versions", "said"),
    [
        (("9.9.9", "9.9.9"), ["All were assessed by version 9.9.9, which is not this one"]),
        (("", ""), ["Which version assessed A and B is not known"]),
        (("", None), ["Which version assessed B is not known"]),
        (("9.9.9", None), [f"Versions differ (A {hl.__version__}, B 9.9.9)"]),
        ((None, None), []),
    ],
)
def test_a_version_that_is_not_this_one_is_told(stage, versions, said):
    def saved(version):
        content = json.loads(stage.assess().to_json())
        if version is not None:
            content["version"] = version
        return hl.Assessment.from_json(json.dumps(content))

    found = hl.compare(saved(versions[1]), saved(versions[0]))
    assert [note[: len(start)] for note, start in zip(found.notes, said, strict=True)] == said


def test_no_bar_of_the_waterfall_is_labelled_as_nothing(stage):
    near = stage.replace({"mass.item[0].mass": "4.003 kg"})
    found = hl.compare(stage, near)
    changes = [row.differences[0] for row in found.masses if abs(row.differences[0]) >= 5e-4]
    assert min(map(abs, changes)) < 5e-3
    plate = hl.plot.mass_waterfall(found)
    (panel,) = plate.figure.axes
    labels = [float(text.get_text()) for text in panel.texts[1:-1]]
    assert labels == pytest.approx(changes, abs=5e-4)
    assert 0.0 not in labels
    assert "0.00 kg" not in plate.caption
