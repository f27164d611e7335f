"""Requirements: what is read, how it is judged, where a mistake is explained."""

import pickle

import pytest

import hoopline as hl

ANALYSIS = {"id": "R1", "text": "It shall.", "method": "analysis"}


def judged(values, **requirement):
    stage = hl.Stage({**values, "requirement": [{**ANALYSIS, **requirement}]})
    (line,) = stage.assess().requirements
    return line


def refused(values, **requirement):
    with pytest.raises(hl.InputError) as caught:
        hl.Stage({**values, "requirement": [{**ANALYSIS, **requirement}]})
    return str(caught.value)


def test_at_most_is_allowable_over_load_less_one(values, stage):
    line = judged(values, response="tank.mass", at_most="9 kg")
    mass = stage.assess().tank.mass
    assert line.status == "met"
    assert line.value == mass
    assert line.margin == pytest.approx(9.0 / mass - 1.0, rel=1e-15)
    assert (line.limit, line.shown) == ("at most 9 kg", "8.618 kg")


def test_at_least_takes_the_result_as_what_is_available(values, stage):
    line = judged(values, response="ascent.apogee", at_least="10 km")
    assert line.status == "not met"
    assert line.margin == pytest.approx(stage.assess().ascent.apogee / 1e4 - 1.0, rel=1e-15)
    assert line.limit == "at least 10000 m"


def test_a_margin_against_a_limit_is_the_same_quotient(values, stage):
    margin = stage.assess().margins.hoop_burst
    line = judged(values, response="margins.hoop_burst", at_least=0.2)
    # allowable / (1.2 x factor x load) - 1
    assert line.margin == pytest.approx((1.0 + margin) / 1.2 - 1.0, rel=1e-14)
    assert judged(values, response="margins.hoop_burst", at_least=0).margin == pytest.approx(margin)


def test_all_margins_are_decided_by_the_smallest(values, stage):
    line = judged(values, response="margins", at_least=0)
    governing = stage.assess().governing
    assert (line.decided_by, line.value) == (governing.path, governing.value)


def test_a_window_has_the_smaller_of_its_two_margins(values):
    window = {"response": "airframe.static_margin", "at_least": 1.5, "at_most": 2.2}
    line = judged(values, **window)
    assert line.margin == pytest.approx(2.2 / 2.0 - 1.0, abs=1e-9)
    assert judged(values, **{**window, "at_most": 8}).margin == pytest.approx(2.0 / 1.5 - 1.0)


def test_a_zero_limit_has_no_quotient_but_is_judged(values):
    line = judged(values, response="airframe.burnout_static_margin", at_least=0)
    assert (line.status, line.margin, line.shown_margin) == ("met", None, "")
    line = judged(values, response="airframe.burnout_static_margin", at_least=-1)
    assert (line.status, line.margin) == ("met", None)


def test_what_is_to_be_tested_stays_open_until_evidence_is_stated(values):
    given = {"response": "margins.hoop_burst", "at_least": 0, "method": "test"}
    assert judged(values, **given).status == "open"
    line = judged(values, **given, evidence="report T-7")
    assert line.status == "met"
    assert "report T-7" in line.basis
    # Evidence does not outvote the calculation.
    assert judged(values, **{**given, "at_least": 5}, evidence="report T-7").status == "not met"


def test_what_nothing_computes_stays_open_until_evidence_is_stated(values):
    assert judged(values, method="inspection").status == "open"
    assert judged(values, method="inspection", evidence="film 3").status == "met"


def test_the_matrix_is_sorted_not_met_first_then_by_margin(values):
    rows = [
        {"id": "none", "method": "inspection"},
        {"id": "wide", "response": "tank.mass", "at_most": "90 kg"},
        {"id": "failed", "response": "tank.mass", "at_most": "8 kg"},
        {"id": "close", "response": "tank.mass", "at_most": "8.7 kg"},
        {"id": "worse", "response": "airframe.static_margin", "at_most": "-1"},
    ]
    stage = hl.Stage({**values, "requirement": [{**ANALYSIS, **row} for row in rows]})
    assessment = stage.assess()
    ids = [line.id for line in assessment.requirements]
    assert ids == ["worse", "failed", "close", "wide", "none"]
    assert not assessment.met
    assert hl.Stage({**values, "requirement": []}).assess().met


def test_requirements_travel_with_the_stage_and_follow_its_changes(values):
    requirement = {**ANALYSIS, "response": "tank.mass", "at_most": "9 kg"}
    stage = hl.Stage({**values, "requirement": [requirement]})
    copy = pickle.loads(pickle.dumps(stage)).replace({"tank.liner.wall": "6 mm"})
    assert [line.status for line in copy.assess().requirements] == ["not met"]
    bare = {**requirement, "response": "margins.girth_seam_proof", "at_least": 0}
    del bare["at_most"]
    stage = hl.Stage({**values, "requirement": [bare]})
    (line,) = stage.replace({"tank.liner.girth_seam.basis": "none"}).assess().requirements
    assert line.status == "open"
    assert "does not apply" in line.basis


@pytest.mark.parametrize(
    ("requirement", "message"),
    [
        ({"response": "tank.mas", "at_most": "9 kg"}, 'did you mean "tank.mass"'),
        ({"response": "tank.mass"}, "a response needs a limit"),
        ({"at_most": "9 kg"}, "a limit needs the result it limits"),
        ({"response": "tank.mass", "at_most": "9 mm"}, 'unit "mm" is not a mass'),
        ({"response": "tank.outer_diameter", "at_most": "1 m"}, "geometry.tank_outer_diameter"),
        ({"response": "ascent.apogee", "at_least": "9 km", "at_most": "8 km"}, "nothing meets"),
        ({"method": "analisis"}, 'did you mean "analysis"'),
        ({"method": ""}, "requirement[0].method is missing"),
        ({"id": " "}, "requirement[0].id is missing"),
        ({"respons": "tank.mass"}, 'did you mean "requirement[0].response"'),
        ({"response": "margins.longitudinal_seam_proof", "at_least": 0}, "does not apply"),
        ({"response": "status.code", "at_least": 0}, "unknown result"),
        ({"response": "tank.mass", "at_most": True}, "is not a mass"),
    ],
)
def test_a_requirement_that_cannot_be_read_says_why(values, requirement, message):
    assert message in refused(values, **requirement)


def test_two_requirements_of_one_id_are_refused(values):
    with pytest.raises(hl.InputError, match="already a requirement"):
        hl.Stage({**values, "requirement": [ANALYSIS, ANALYSIS]})


def test_a_mistake_in_a_file_is_explained_where_it_stands(tmp_path):
    text = hl.example("petrel_slim").read_text(encoding="utf-8")
    file = tmp_path / "own.toml"
    file.write_text(text.replace('at_most = "9 kg"', 'at_most = "9 lbs"'), encoding="utf-8")
    line = text.splitlines().index('at_most = "9 kg"') + 1
    with pytest.raises(hl.InputError, match=rf'own.toml:{line}:\d+: .*unit "lbs" is not a mass'):
        hl.Stage.load(file)


def test_text_and_page_carry_the_matrix(stage):
    assessment = stage.assess()
    text = str(assessment)
    assert "required:   3 met, 3 open (TNK-03, TNK-02, TNK-04) of 6" in text
    assert "MET      TNK-01: No margin of safety" in text
    assert "<caption>Requirements</caption>" in assessment._repr_html_()


def test_assessments_that_judge_differently_are_not_equal(values):
    def assessed(limit):
        requirement = {**ANALYSIS, "response": "tank.mass", "at_most": limit}
        return hl.Stage({**values, "requirement": [requirement]}).assess()

    assert assessed("9 kg") == assessed("9 kg")
    assert assessed("9 kg") != assessed("8 kg")
