import re

import numpy as np
import pytest

import hoopline as hl
from hoopline import demo
from hoopline.plot.slender import SLENDER, slender

VARY = {"tank.outer_diameter": hl.linspace("80 mm", "240 mm", 33)}


@pytest.fixture(scope="module")
def variants():
    stages = [hl.Stage.load(hl.example(name)) for name in demo.VARIANTS]
    return {stage.name: hl.sweep(stage, VARY) for stage in stages}


def test_the_caption_states_the_finding_and_counts_what_is_left_out(variants):
    plate = hl.plot.apogee_and_fineness(variants)
    for name, sweep in variants.items():
        best = sweep.largest("ascent.apogee")
        diameter = sweep.axes["tank.outer_diameter"][best.index] * 1e3
        assert f"{name} {best['ascent.apogee'] / 1e3:.2f} km at {diameter:.0f} mm" in plate.caption
    failed = sum(int((~sweep.ok).sum()) for sweep in variants.values())
    assert f"{failed} of 99 cases" in plate.caption


def test_curves_hold_the_numbers_of_the_sweep(variants):
    left, right = hl.plot.apogee_and_fineness(variants).figure.axes
    for index, (name, sweep) in enumerate(variants.items()):
        line = left.get_lines()[2 * index]
        assert line.get_label() == name
        np.testing.assert_array_equal(line.get_ydata(), sweep["ascent.apogee"] / 1e3)
        np.testing.assert_array_equal(
            right.get_lines()[2 * index].get_ydata(), sweep["geometry.tank_fineness_ratio"]
        )
    lines, markers = left.get_lines()[::2], left.get_lines()[1::2]
    assert len({line.get_color() for line in lines}) == len(variants)
    assert len({str(line._dash_pattern) for line in lines}) == len(variants)
    assert len({marker.get_marker() for marker in markers}) == len(variants)


def test_markers_are_filled_where_all_margins_are_met(stage):
    designs = demo.designs(stage)
    met = designs.margins_met
    for index in [(0, 0), (8, 5), (16, 10)]:
        if designs.ok[index]:
            assessment = stage.replace(designs.case(index).inputs).assess()
            assert met[index] == all(margin.value >= 0.0 for margin in assessment.margins)
    plate = hl.plot.apogee_and_tank_mass(demo.what_if(stage), designs)
    hollow, filled = plate.figure.axes[1].collections
    assert len(filled.get_offsets()) == met.sum()
    assert len(hollow.get_offsets()) == (designs.ok & ~met).sum()
    assert len(hollow.get_facecolors()) == 0
    assert f"{met.sum()} meet all margins" in plate.caption


def test_every_figure_says_the_same_of_a_slender_vehicle(stage, variants):
    plates = [
        hl.plot.apogee_and_fineness(variants),
        hl.plot.apogee_and_tank_mass(demo.what_if(stage), demo.designs(stage)),
        hl.plot.around(hl.sweep(stage, VARY)),
    ]
    for plate in plates:
        ratios = re.findall(
            r"ody lift, stability at angle of attack and bending set the limit of a vehicle of "
            r"fineness ratio (\d+), and none of them is in this model[.;]? ",
            plate.caption,
        )
        assert len(ratios) == 1, plate.caption
        assert float(ratios[0]) > SLENDER


def test_figures_and_caution_call_the_same_vehicles_slender(stage):
    told = []
    for diameter in hl.linspace("180 mm", "183 mm", 13):
        one = stage.replace({"tank.outer_diameter": diameter}).assess()
        warned = any(caution.startswith("fineness ratio") for caution in one.cautions)
        assert warned is bool(slender(one["airframe.fineness_ratio"])), diameter
        told.append(warned)
    assert set(told) == {True, False}


def test_the_slope_of_the_caption_is_that_of_two_assessments(stage):
    stated = demo.what_if(stage)
    plate = hl.plot.apogee_and_tank_mass(stated, demo.designs(stage))
    computed = sum(x.predicted for x in stage.assess().mass_lines if x.group == "tank")
    pair = [
        stage.replace({"mass.stated.tank": computed + change}).assess()["ascent.apogee"]
        for change in (-0.1, 0.1)
    ]
    found = re.search(r"apogee by ([+-]\d+) m", plate.caption)
    assert found is not None
    assert float(found[1]) == pytest.approx((pair[1] - pair[0]) / 0.2, abs=3.0)


def test_files_are_the_same_each_time(variants, tmp_path):
    names = []
    for folder in (tmp_path / "a", tmp_path / "b"):
        folder.mkdir()
        names.append(hl.plot.apogee_and_fineness(variants).save(folder, "figure"))
    assert [path.suffix for path in names[0]] == [".svg", ".png"]
    assert names[0][0].read_bytes() == names[1][0].read_bytes()
    text = names[0][0].read_text(encoding="utf-8")
    labels = re.findall(r"<text[^>]*>([^<]+)</text>", text)  # as text, not as outlines
    assert {"Petrel slim", "apogee above the launch site, km"} <= set(labels)


def test_notebooks_show_a_figure_with_its_caption(variants):
    page = hl.plot.apogee_and_fineness(variants)._repr_html_()
    assert page.startswith("<figure aria-label=")
    assert re.search(r'<svg role="img" style="max-width: 100%; height: auto"', page)


def test_sweeps_that_do_not_fit_the_figure_are_refused(stage, variants):
    other = hl.sweep(stage, {"tank.liner.wall": ["2 mm", "3 mm"]})
    with pytest.raises(hl.InputError, match="one and the same path"):
        hl.plot.apogee_and_fineness({**variants, "other": other})
    with pytest.raises(hl.InputError, match=r"mass\.stated\.tank"):
        hl.plot.apogee_and_tank_mass(other, other)


@pytest.mark.parametrize("name", [name for name in hl.plot.__all__ if name != "Plate"])
def test_a_figure_says_what_it_is_drawn_from(name, stage):
    draw = getattr(hl.plot, name)
    two = name == "apogee_and_tank_mass"
    for wrong in (5, None, [stage], stage.inputs()):
        with pytest.raises(hl.InputError, match=r"is drawn from an? \w+, which .* gives, and not"):
            draw(wrong, wrong) if two else draw(wrong)
