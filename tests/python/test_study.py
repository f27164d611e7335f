"""Study files: read, refused, answered."""

import csv
import json
import shutil
import tomllib

import jsonschema
import pytest
from command_line import run

import hoopline as hl

HEAD = 'schema = 1\nstage = "petrel_slim.toml"\n'
SWEEP = """
[[sweep]]
name = "walls"
results = ["tank.mass"]
[[sweep.vary]]
path = "tank.liner.wall"
values = ["3 mm", "4 mm"]
"""
SEARCH = """
[[optimise]]
name = "lightest"
minimise = "tank.mass"
[[optimise.vary]]
path = "tank.liner.wall"
from = "1 mm"
to = "8 mm"
"""

LISTED = 'values = ["3 mm", "4 mm"]'
VARIED = '[[sweep.vary]]\npath = "tank.liner.wall"\nvalues = ["5 mm"]\n'
HELD = '[[optimise.subject_to]]\nresponse = "tank.mass"\n'


@pytest.fixture
def folder(tmp_path):
    shutil.copy(hl.example("petrel_slim"), tmp_path)
    return tmp_path


@pytest.fixture
def write(folder):
    def write(text):
        path = folder / "study.toml"
        path.write_text(text)
        return path

    return write


def told(*arguments):
    result = run(*arguments)
    return result.exit_code, result.output


def test_the_questions_are_those_of_the_file(write):
    study = hl.Study.load(write(HEAD + SWEEP + SEARCH))
    walls, lightest = study.questions
    assert walls.vary == {"tank.liner.wall": ["3 mm", "4 mm"]}
    assert lightest.vary == {"tank.liner.wall": ("1 mm", "8 mm")}
    assert lightest.subject_to is None
    assert study.stage.name == "Petrel slim"


def test_an_answer_is_what_the_call_gives(write):
    study = hl.Study.load(write(HEAD + SWEEP + SEARCH))
    walls, lightest = (study.answer(question) for question in study.questions)
    stage = hl.Stage.load(hl.example("petrel_slim"))
    direct = hl.sweep(stage, {"tank.liner.wall": ["3 mm", "4 mm"]})
    assert (walls["tank.mass"] == direct["tank.mass"]).all()
    search = hl.optimise(stage, {"tank.liner.wall": ("1 mm", "8 mm")}, minimise="tank.mass")
    assert lightest.to_json() == search.to_json()


def test_from_to_count_is_evenly_spaced(write):
    text = SWEEP.replace('values = ["3 mm", "4 mm"]', 'from = "3 mm"\nto = "4 mm"\ncount = 3')
    study = hl.Study.load(write(HEAD + text))
    assert study.questions[0].vary == {"tank.liner.wall": ["3 mm", "3.5 mm", "4 mm"]}


def test_bounds_and_goal_reach_the_search(write):
    text = SEARCH.replace('minimise = "tank.mass"', 'maximise = "ascent.apogee"\nscan = 9') + (
        '[[optimise.subject_to]]\nresponse = "tank.mass"\nat_least = "7 kg"\nat_most = "9 kg"\n'
    )
    study = hl.Study.load(write(HEAD + text))
    question = study.questions[0]
    assert question.subject_to == {"tank.mass": ("7 kg", "9 kg")}
    found = study.answer(question)
    assert found.best.governing[0].text == "tank.mass at least 7 kg"
    assert found.evaluations < 129


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (SWEEP, ["schema is missing", "stage is missing"]),
        (HEAD.replace("= 1", "= 2") + SWEEP, ["study.toml:1:10", "schema = 2 is not known"]),
        (HEAD, ["a question to ask", "[[sweep]] or [[optimise]]"]),
        (HEAD.replace("petrel_slim", "petrel_slip") + SWEEP, ["petrel_slip.toml"]),
        (HEAD + SWEEP.replace("sweep", "sweeep"), ["sweeep", 'did you mean "sweep"?']),
        (HEAD + SWEEP.replace("values =", "valeus ="), ["study.toml:9:1", 'mean "values"?']),
        (HEAD + SWEEP.replace("liner.wall", "liner.wal"), ["study.toml:8:8", "tank.liner.wall"]),
        (HEAD + SWEEP.replace('"4 mm"', '"4 kg"'), ["study.toml:9:19", "kg"]),
        (HEAD + SWEEP.replace('"4 mm"', "4"), ["study.toml:9:19", "no unit"]),
        (HEAD + SWEEP.replace('"4 mm"', '"4 m"'), ["study.toml:9:19", "outside"]),
        (HEAD + SWEEP.replace("tank.mass", "tank.mas"), ["study.toml:6:12", "tank.mass"]),
        (HEAD + SWEEP.replace('name = "walls"', ""), ["name of the question"]),
        (HEAD + SWEEP + SWEEP, ["already a sweep"]),
        (HEAD + SWEEP.replace("values", "from"), ["either values, or from and to"]),
        (HEAD + SWEEP.replace('["3 mm", "4 mm"]', "[]"), ["values is a list"]),
        (HEAD + '[[sweep]]\nname = "a"\n', ["what varies"]),
        (HEAD + "[sweep]\n", ["list of tables"]),
        (HEAD + SEARCH.replace("minimise", "minimize"), ['mean "minimise"?', "what is sought"]),
        (HEAD + SEARCH.replace("name", 'maximise = "ascent.apogee"\nname'), ["exclude each other"]),
        (HEAD + SEARCH + "count = 3\n", ["goes with from and to of a sweep"]),
        (HEAD + SEARCH.replace("name", "scan = 1.5\nname"), ["whole number from 3"]),
        (HEAD + SEARCH.replace("name", "scan = 2\nname"), ["whole number from 3"]),
        (HEAD + SEARCH + '[[optimise.subject_to]]\nresponse = "tank.mas"\n', ["tank.mass"]),
        (HEAD + SWEEP + VARIED, ["study.toml:11:8", "tank.liner.wall is varied twice"]),
        (
            HEAD + SEARCH + VARIED.replace("sweep", "optimise"),
            ["study.toml:12:8", "tank.liner.wall is varied twice"],
        ),
        (
            HEAD + SEARCH + HELD + 'at_least = "9 kg"\n' + HELD + 'at_most = "20 kg"\n',
            ["study.toml:15:12", "tank.mass is held twice", "in one table"],
        ),
        (HEAD + SEARCH + HELD, ["study.toml:12:1", "has no limit"]),
        (HEAD + SEARCH + HELD + 'at_least = "9 m"\n', ["study.toml:13:12", "is not a mass"]),
        (HEAD + SEARCH + HELD + "at_most = [9]\n", ["study.toml:13:11", "is not a mass"]),
        (HEAD + SEARCH + HELD + "at_least = 7\n", ["study.toml:13:12", "7 has no unit", '"7 kg"']),
        (
            HEAD + SEARCH + HELD + 'at_least = "9 kg"\nat_most = "8 kg"\n',
            ["study.toml:12:1", "at_least above at_most"],
        ),
        (
            HEAD + SEARCH + HELD.replace("tank.mass", "status.code") + "at_least = 0\n",
            ["study.toml:12:12", "status.code is not a result to search by"],
        ),
        (
            HEAD + SEARCH.replace('"tank.mass"', '"status.code"'),
            ["study.toml:6:12", "status.code is not a result to search by"],
        ),
        (
            HEAD + SEARCH.replace('"1 mm"', '"8 mm"'),
            ["study.toml:10:6", "from comes first and lies below to"],
        ),
        (
            HEAD + SEARCH.replace("liner.wall", "fore_closure.kind").replace("mm", ""),
            ["study.toml:9:1", "tank.fore_closure.kind is a choice", "under values"],
        ),
        (
            HEAD + SWEEP.replace(LISTED, 'from = "3 mm"\nto = "0.4 cm"\ncount = 3'),
            ["study.toml:10:6", "from and to need one unit"],
        ),
        (
            HEAD + SWEEP.replace(LISTED, 'from = "3 mm"\nto = "4 mm"\ncount = 1000000000'),
            ["more than 5000000 cases"],
        ),
        (HEAD + SWEEP.replace('"walls"', '" "'), ["study.toml:5:8", "this text is empty"]),
        (
            HEAD + SWEEP.replace('"walls"', '"a\\u001b[31m"'),
            ["study.toml:5:8", "control character U+001B"],
        ),
    ],
)
def test_every_mistake_is_told_where_it_stands(write, text, words):
    file = write(text)
    with pytest.raises((hl.InputError, hl.DataError)) as refused:
        hl.Study.load(file)
    for word in words:
        assert word in str(refused.value)
    code, output = told("check", file)
    if "stage =" in text:
        assert code == 2
        assert words[-1] in output


def test_several_mistakes_are_told_at_once(write):
    text = HEAD + SWEEP.replace('"4 mm"', '"4 kg"').replace("tank.mass", "tank.mas")
    with pytest.raises(hl.InputError) as refused:
        hl.Study.load(write(text))
    assert "study.toml:6:12" in str(refused.value)
    assert "study.toml:9:19" in str(refused.value)


def test_a_mistake_of_the_stage_is_told_in_the_stage(write, folder):
    stage = folder / "petrel_slim.toml"
    stage.write_text(stage.read_text().replace('wall = "3.4 mm"', 'wall = "3.4 kg"'))
    with pytest.raises(hl.InputError, match=r"petrel_slim\.toml:"):
        hl.Study.load(write(HEAD + SWEEP))


def test_the_command_prints_each_answer_and_the_safety_paragraph_once(write):
    code, output = told("study", write(HEAD + SWEEP + SEARCH))
    assert code == 0
    assert output.index("sweep: walls") < output.index("optimise: lightest")
    assert output.count("Nitrous oxide decomposes") == 1
    assert "3.181 mm" in output


def test_a_search_without_a_design_ends_with_1(write):
    code, output = told("study", write(HEAD + SEARCH.replace('"8 mm"', '"2 mm"')))
    assert code == 1
    assert "no design looked at meets" in " ".join(output.split())


def test_as_json(write):
    code, output = told("study", "--json", write(HEAD + SWEEP + SEARCH))
    content = json.loads(output)
    assert code == 0
    columns = content["answers"][0]["answer"]["columns"]
    assert columns["tank.liner.wall [m]"] == [0.003, 0.004]
    assert content["answers"][1]["answer"]["feasible"] is True


def test_into_a_folder(write, tmp_path):
    code, _ = told("study", write(HEAD + SWEEP + SEARCH), "--into", tmp_path / "out")
    assert code == 0
    names = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert names == [
        "01_sweep_walls.csv",
        "01_sweep_walls.txt",
        "02_optimise_lightest.txt",
        "study.json",
    ]
    with (tmp_path / "out" / "01_sweep_walls.csv").open(newline="") as file:
        header, *rows = csv.reader(file)
    assert header[0] == "tank.liner.wall [mm]"
    assert [row[0] for row in rows] == ["3.0", "4.0"]
    assert "Nitrous oxide" in (tmp_path / "out" / "01_sweep_walls.txt").read_text()


def test_names_of_files_stay_within_the_folder_and_the_limit_of_the_disk(write, tmp_path):
    names = ("../../out/💥", "n" * 400, "💥", "=cmd|a")
    text = HEAD + "".join(SWEEP.replace('"walls"', f'"{name}"') for name in names)
    code, output = told("study", write(text), "--into", tmp_path / "out")
    assert code == 0
    assert "n" * 400 in output
    names = sorted(path.name for path in (tmp_path / "out").glob("*.csv"))
    assert names == [
        "01_sweep_out.csv",
        f"02_sweep_{'n' * 60}.csv",
        "03_sweep.csv",
        "04_sweep_cmd_a.csv",
    ]


def test_an_answer_that_cannot_be_kept_is_still_printed(write, tmp_path):
    (tmp_path / "file").write_text("kept")
    code, output = told("study", write(HEAD + SWEEP), "--into", tmp_path / "file" / "out")
    assert code == 2
    assert "sweep: walls" in output
    assert (tmp_path / "file").read_text() == "kept"


def test_a_case_without_results_is_null_and_never_nan(write):
    values = 'path = "tank.outer_diameter"\nvalues = ["160 mm", "900 mm"]'
    text = SWEEP.replace(f'path = "tank.liner.wall"\n{LISTED}', values)
    code, output = told("study", "--json", write(HEAD + text))
    assert code == 0
    content = json.loads(output, parse_constant=pytest.fail)
    columns = content["answers"][0]["answer"]["columns"]
    assert columns["tank.mass [kg]"][0] > 0
    assert columns["tank.mass [kg]"][1] is None


def test_check_knows_a_study(write):
    assert told("check", write(HEAD + SWEEP)) == (0, f"{write(HEAD + SWEEP)}: no mistakes found\n")


@pytest.fixture(scope="module")
def validator():
    schema = hl.json_schema("study")
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema)


def test_the_packaged_study_fits_the_schema(validator):
    validator.validate(tomllib.loads(hl.example("petrel_study").read_text()))


@pytest.mark.parametrize(
    "text",
    [
        SWEEP,
        HEAD,
        HEAD.replace("= 1", "= 2") + SWEEP,
        HEAD + SWEEP.replace("values =", "valeus ="),
        HEAD + SWEEP.replace("tank.mass", "tank.mas"),
        HEAD + SWEEP.replace('name = "walls"', ""),
        HEAD + SWEEP.replace("values", "from"),
        HEAD + SWEEP.replace('["3 mm", "4 mm"]', "[]"),
        HEAD + '[[sweep]]\nname = "a"\n',
        HEAD + "[sweep]\n",
        HEAD + SEARCH.replace("minimise", "minimize"),
        HEAD + SEARCH.replace("name", 'maximise = "ascent.apogee"\nname'),
        HEAD + SEARCH.replace("name", "scan = 1.5\nname"),
        HEAD + SEARCH.replace("name", "scan = 2\nname"),
        HEAD + SEARCH + HELD,
        HEAD + SEARCH + '[[optimise.subject_to]]\nresponse = "tank.mas"\n',
    ],
)
def test_what_the_reader_refuses_the_schema_refuses(validator, write, text):
    assert not validator.is_valid(tomllib.loads(text))
    assert told("check", write(text))[0] == 2


def test_check_knows_every_kind_of_packaged_file():
    files = sorted(hl.example("petrel_slim").parent.rglob("*.toml"))
    assert {"petrel_study.toml", "workshop_stock.toml"} <= {file.name for file in files}
    code, output = told("check", *files)
    assert code == 0
    assert output.count("no mistakes found") == len(files)


def test_a_mistake_of_a_catalogue_is_told_where_it_stands(folder):
    stock = folder / "stock.toml"
    text = hl.example("workshop_stock").read_text()
    stock.write_text(text.replace("[[tube]]", "[[tube]]\nwal = 3", 1))
    code, output = told("check", stock)
    assert code == 2
    assert "stock.toml:24:1" in output
    assert 'did you mean "wall"?' in output


@pytest.mark.parametrize(
    ("command", "name", "words"),
    [
        ("assess", "petrel_study", "is no stage but a study; use hoopline study and Study.load"),
        ("report", "workshop_stock", "is no stage but a catalogue; name it in a stage file"),
        ("study", "petrel_slim", "is no study but a stage, or what was meant as one; name it"),
        ("study", "workshop_stock", "is no study but a catalogue; name it in a stage file"),
    ],
)
def test_a_file_of_another_kind_is_told_as_such(command, name, words):
    code, output = told(command, hl.example(name))
    assert code == 2
    assert words in " ".join(output.split())


def test_a_study_whose_grammar_is_broken_is_told_so(write):
    code, output = told("study", write(HEAD + "[[sweep]\n"))
    assert code == 2
    assert "study.toml:3" in output
