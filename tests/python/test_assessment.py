import json
import pickle

import pytest

import hoopline as hl
from hoopline import results


@pytest.fixture(scope="module")
def assessment(stage):
    return stage.assess()


def test_results_by_group_and_by_path(assessment):
    assert assessment.ascent.apogee == assessment["ascent.apogee"]
    assert assessment.tank.mass == assessment.results["tank.mass"]
    assert assessment.margins.hoop_burst == assessment["margins.hoop_burst"]


def test_margins_come_smallest_first_and_the_first_governs(assessment):
    values = [margin.value for margin in assessment.margins]
    assert values == sorted(values)
    assert len(values) == len(assessment.margins) >= 6
    assert assessment.governing == next(iter(assessment.margins))


def test_lines_of_the_mass_statement_add_up(assessment):
    for line in assessment.mass_lines:
        assert line.predicted == pytest.approx(line.basic + line.growth, abs=1e-9)
    assert sum(line.basic for line in assessment.mass_lines) == pytest.approx(
        assessment.mass.basic, rel=1e-12
    )
    assert sum(line.predicted for line in assessment.mass_lines) == pytest.approx(
        assessment.mass.predicted, rel=1e-12
    )
    tank = sum(line.basic for line in assessment.mass_lines if line.group == "tank")
    assert tank == pytest.approx(assessment.tank.mass, rel=1e-12)


def test_an_unknown_attribute_names_the_nearest(assessment):
    with pytest.raises(AttributeError, match=r'"ascent\.apogee"'):
        assessment.ascent.apogi  # noqa: B018
    with pytest.raises(AttributeError, match='"margins"'):
        assessment.margin  # noqa: B018
    with pytest.raises(KeyError, match=r"ascent\.apogee"):
        assessment["ascent.apogi"]


def test_a_result_that_does_not_apply_says_so(published):
    with pytest.raises(KeyError, match="does not apply"):
        published.assess()["tank.mass"]
    assert published.assess().governing is None
    assert len(published.assess().margins) == 0


def test_an_assessment_does_not_change(assessment):
    with pytest.raises(AttributeError):
        assessment.name = "other"
    with pytest.raises(AttributeError):
        assessment.tank.mass = 0.0
    with pytest.raises(TypeError):
        assessment.results["tank.mass"] = 0.0


def test_pickling_and_equality(stage, assessment):
    copied = pickle.loads(pickle.dumps(assessment))
    assert copied == assessment == stage.assess()
    assert copied.results == assessment.results
    assert hash(copied) == hash(assessment)
    assert pickle.loads(pickle.dumps(assessment.margins)).hoop_burst
    for name in ("Band", "Group", "Margin", "Margins", "MassLine"):
        # Earlier pickles name the module in which the parts stood.
        earlier = pickle.loads(f"choopline.assessment\n{name}\n.".encode())
        assert earlier is getattr(results, name)
    assert assessment != stage.replace({"mass.added": 1.0}).assess()


def test_json_holds_all_results(assessment):
    content = json.loads(assessment.to_json())
    assert content["results"] == dict(assessment.results)
    assert content["digest"] == assessment.digest


def test_completion_knows_groups_and_results(assessment):
    assert {"tank", "ascent", "margins", "cautions"} <= set(dir(assessment))
    assert "apogee" in dir(assessment.ascent)


def test_text_names_what_the_numbers_rest_on(stage, assessment):
    text = str(assessment)
    assert "follow:" in text
    assert "tank = volume" in text
    assert assessment.rule_set is not None
    assert assessment.rule_set["name"] in text
    assert "proof 1.5 x MEOP, burst 3 x MEOP" in " ".join(text.split())
    assert "MEOP basis:" in text
    headings = ["Pressures", "Dimensions", "Mass statement", "Drag", "Thrust", "Ascent"]
    headings += ["Loads on the tank in flight", "Margins of safety", "Model bands of the apogee"]
    places = [text.index(f"\n{heading}\n") for heading in headings]
    assert places == sorted(places)
    assert "GOVERNS" in text
    assert "do not show that a tank is safe" in " ".join(text.split())
    assert all(len(line) <= 96 for line in text.splitlines())
    for caution in assessment.cautions:
        assert " ".join(caution.split()) in " ".join(text.split())


def test_factors_of_ones_own_do_not_carry_the_name_of_a_published_rule_set(stage):
    text = " ".join(str(stage.replace({"rule_set.proof_factor": 1.25}).assess()).split())
    assert "proof 1.25 x MEOP" in text
    assert 'rule set: stated factors in place of "competition guide, overwrapped"' in text
    assert "Test and Evaluation Guide" not in text


def test_a_stated_tank_mass_is_marked(stage):
    assessment = stage.replace({"mass.stated.tank": "12 kg"}).assess()
    lines = str(assessment).splitlines()
    assert any(line.split()[:2] == ["tank,", "stated"] and "12.000" in line for line in lines)
    assert any("predicted" in line and line.endswith("stated") for line in lines)
    assert any("what-if" in caution for caution in assessment.cautions)


def test_unmet_margins_are_said_in_words(stage):
    weak = stage.replace({"tank.liner.wall": "0.3 mm"}).assess()
    assert weak.governing is not None
    assert weak.governing.value < 0.0
    assert "does not meet its rule set" in str(weak)


def test_html_escapes_what_the_user_wrote(values):
    values["name"] = "<b>Petrel</b> & co"
    page = hl.Stage(values).assess()._repr_html_()
    assert "&lt;b&gt;Petrel&lt;/b&gt; &amp; co" in page
    assert "<b>Petrel" not in page


def test_bands_name_their_input_and_basis(stage):
    assessment = stage.assess()
    assert {band.model for band in assessment.bands} == {"friction", "wave drag", "base drag"}
    for band in assessment.bands:
        low, high = (
            stage.replace({band.input: multiplier}).assess().ascent.apogee
            - assessment.ascent.apogee
            for multiplier in band.span
        )
        assert (low, high) == band.change
        assert low < 0.0 < high
        assert band.basis in " ".join(str(assessment).split()) or band.basis[1:] in " ".join(
            str(assessment).split()
        )
    low, high = assessment.band_together
    assert low == pytest.approx(-(sum(band.change[0] ** 2 for band in assessment.bands) ** 0.5))
    assert high == pytest.approx(sum(band.change[1] ** 2 for band in assessment.bands) ** 0.5)


def test_a_stated_drag_has_no_bands():
    assessment = hl.Stage.load(hl.example("published/v2_textbook")).assess()
    assert assessment.bands == ()
    assert "Model bands" not in str(assessment)


def test_three_bases_of_meop_stand_side_by_side(stage):
    changes = {
        "pressure.basis": "vented",
        "pressure.relief_setting": "55 bar gauge",
        "pressure.relief_accumulation": "10 %",
        "pressure.stated": "60 bar gauge",
        "pressure.reason": "highest of ten fills",
    }
    assessment = stage.replace(changes).assess()
    text = " ".join(str(assessment).split())
    assert assessment.pressures.meop == assessment.pressures.meop_vented == pytest.approx(60.5e5)
    assert assessment.pressures.meop_stated == pytest.approx(60e5)
    assert assessment.pressures.meop_closed > 72e5
    assert 'Reason given: "highest of ten fills".' in text
    caution = next(text for text in assessment.cautions if text.startswith("vented"))
    assert "60.5 bar gauge" in caution
    assert "72.77" in caution


def test_the_mass_statement_ends_at_ignition_and_burnout(stage):
    assessment = stage.assess()
    ends = {"at_ignition": "mass.lift_off", "at_burnout": "mass.burnout"}
    dry = sum(line.predicted for line in assessment.mass_lines)
    for when, path in ends.items():
        wet = sum(line.predicted for line in assessment.propellant_lines[when])
        assert dry + wet == pytest.approx(assessment[path])
    assert any("newly designed" in line for line in str(assessment).splitlines())


def test_text_says_where_and_how_it_is_launched(stage):
    text = " ".join(str(stage.assess()).split())
    assert "atmosphere.model = us_standard_1976, rail.direction = inclined" in text
    assert "rail.elevation = 86 deg" in text


def test_values_of_ones_own_without_a_source_are_a_caution(stage):
    changes = {"rule_set.proof_factor": 1.6, "tank.liner.metal.yield_strength": "230 MPa"}
    first = stage.replace({"rule_set.proof_factor": 1.6}).assess().cautions
    assert any("no source is stated for the values of rule_set:" in text for text in first)
    assert not any("no source" in text for text in stage.assess().cautions)
    assert stage.replace(changes).assess().cautions


def test_what_yields_before_proof_is_the_first_caution(stage):
    assert "weld zone flows" in stage.assess().cautions[0]


def test_a_slow_rail_exit_and_a_small_static_margin_are_cautions(stage):
    def told(changes):
        return " ".join(stage.replace(changes).assess().cautions)

    slow = told({"rail.length": "0.6 m"})
    exit_speed = stage.replace({"rail.length": "0.6 m"}).assess()["ascent.rail_exit_speed"]
    assert f"leaves the rail at {exit_speed - 0.05:.1f} m/s" in slow
    assert "30.5 m/s" in slow
    small = told({"fins.static_margin": 0.2})
    assert "static margin 0.2" in small or "static margin 0.19" in small
    fine = told({"fins.static_margin": 1.5, "rail.length": "8 m"})
    assert "leaves the rail" not in fine
    assert "requirement sheet" not in fine
