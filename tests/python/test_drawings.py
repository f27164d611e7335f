"""Drawings are to scale, hold the numbers of the assessment, and nothing in them is cut off."""

import pickle
import re

import pytest

import hoopline as hl
from hoopline.plot import drawing


def texts(plate):
    return [text.get_text() for axes in plate.figure.axes for text in axes.texts]


@pytest.mark.parametrize("draw", [hl.plot.vehicle, hl.plot.tank])
def test_a_millimetre_is_as_long_across_as_along(designs, draw):
    for name, assessment in designs.items():
        figure = draw(assessment).figure
        figure.draw_without_rendering()
        for axes in figure.axes:
            unit = axes.transData.transform([(0.0, 0.0), (1.0, 0.0), (0.0, 1.0)])
            along, across = unit[1][0] - unit[0][0], unit[2][1] - unit[0][1]
            assert along == pytest.approx(across, rel=1e-9), name


def test_the_leader_of_the_girth_seam_crosses_nothing(designs):
    for name, assessment in designs.items():
        enlarged = hl.plot.tank(assessment).figure.axes[-1]
        tank = assessment.layout.tank
        (words,) = [text for text in enlarged.texts if text.get_text().startswith("girth seam")]
        seam = (tank.cylinder[1] * 1e3, tank.inner_diameter * 500.0)
        ends = [
            (line.get_xdata()[-1], line.get_ydata()[-1])
            for line in enlarged.lines
            if (line.get_xdata()[0], line.get_ydata()[0]) == seam
        ]
        (end,) = [end for end in ends if end[0] != seam[0]]  # of the leader, not of the seam
        # Ahead of the seam and inside the bore nothing is drawn.
        assert end[0] < seam[0], name
        assert end[1] < seam[1], name
        box = words.get_window_extent().transformed(enlarged.transData.inverted())
        left, low = enlarged.get_xlim()[0], enlarged.get_ylim()[0]
        assert left < box.x0 < box.x1 < seam[0], name
        assert low < box.y0 < box.y1 < seam[1], name


def test_the_value_of_a_short_dimension_stands_away_from_its_neighbour(designs):
    """The lengths of both closures stand outside the overall length, or between their lines."""
    for name, assessment in designs.items():
        whole, tank = hl.plot.tank(assessment).figure.axes[0], assessment.layout.tank
        first, last = (1e3 * station for station in tank.cylinder)
        lengths = (tank.cylinder[0] - tank.start, tank.end - tank.cylinder[1])
        for length, ahead in zip(lengths, (True, False), strict=True):
            value = f"{length * 1e3:.1f}"
            places = [
                text.get_window_extent().transformed(whole.transData.inverted())
                for text in whole.texts
                if text.get_text() == value
            ]
            assert any(box.x1 <= first if ahead else box.x0 >= last for box in places), name


def test_dimensions_of_the_vehicle_are_the_results(designs):
    for name, assessment in designs.items():
        written = " ".join(texts(hl.plot.vehicle(assessment)))
        for words, path in (
            ("overall length", "airframe.length"),
            ("tank", "geometry.tank_length"),
            ("CG at ignition", "mass.centre_of_gravity"),
            ("CG at burnout", "mass.burnout_centre_of_gravity"),
            ("CP at low speed", "airframe.centre_of_pressure"),
        ):
            assert f"{words} {assessment[path] * 1e3:.0f}" in written, (name, path)
        assert f"static margin {assessment['airframe.static_margin']:.2f} calibres" in written


def test_dimensions_of_the_tank_are_the_results(designs):
    for name, assessment in designs.items():
        written = texts(hl.plot.tank(assessment))
        results = assessment.geometry
        assert f"overall length {results.tank_length * 1e3:.1f}" in written, name
        assert f"{results.cylinder_length * 1e3:.1f}" in written, name
        assert f"\u2300{results.tank_outer_diameter * 1e3:.1f}" in written, name
        assert f"liner: {results.liner_wall * 1e3:.2f}" in written, name
        plies = [float(text.rpartition(" ")[2]) for text in written if " ply, " in text]
        wrap = assessment.results.get("geometry.overwrap_thickness", 0.0)
        assert sum(plies) == pytest.approx(wrap * 1e3, abs=0.006 * max(len(plies), 1)), name


def test_a_closure_thicker_than_the_wall_is_told(designs):
    assert "proud of the cylinder" in hl.plot.tank(designs["torisphere"]).caption
    assert "proud" not in hl.plot.tank(designs["slim"]).caption
    assert "is in no mass" in hl.plot.tank(designs["flat"]).caption


def test_margins_stand_in_order_and_negative_ones_are_hatched(stage):
    assessment = stage.replace({"tank.liner.wall": "2 mm"}).assess()
    plate = hl.plot.margins(assessment)
    bars = plate.figure.axes[0].patches
    assert [bar.get_width() for bar in bars] == [margin.value for margin in assessment.margins]
    negative = [margin.value < 0.0 for margin in assessment.margins]
    assert any(negative)
    assert [bar.get_hatch() is not None for bar in bars] == negative
    assert f"{sum(negative)} of {len(negative)} margins are negative" in plate.caption


def test_inline_drawings_are_the_same_each_time_and_leave_out_the_caption(stage):
    assessment = stage.assess()
    first, second = (hl.plot.tank(assessment) for _ in range(2))
    assert first.drawn() == second.drawn()
    assert first.drawn().startswith("<svg")
    assert "<text" not in first.drawn()
    assert 'id="caption"' not in first.drawn()
    shown = float(re.search(r'height="([\d.]+)pt"', first.drawn())[1])
    assert shown < first.figure.get_size_inches()[1] * 72.0 - 20.0
    assert all(text.get_visible() for text in first.figure.texts)


def test_the_layout_is_frozen_and_survives_a_pickle(stage):
    layout = stage.assess().layout
    assert pickle.loads(pickle.dumps(layout)) == layout
    with pytest.raises(AttributeError):
        layout.tank.wall = 0.0


def test_what_a_stage_does_not_have_is_not_drawn(published):
    assessment = published.assess()
    assert (assessment.layout.vehicle, assessment.layout.tank) == (None, None)
    for draw, message in (
        (hl.plot.vehicle, "no vehicle"), (hl.plot.tank, "no tank"), (hl.plot.margins, "no margins")
    ):  # fmt: skip
        with pytest.raises(hl.InputError, match=message):
            draw(assessment)


@pytest.mark.parametrize(
    ("largest", "length"), [(730.0, 500.0), (4.9, 2.0), (10.0, 10.0), (0.7, 0.5), (0.03, 0.02)]
)
def test_scale_bars_have_round_lengths(largest, length):
    assert drawing.round_length(largest) == pytest.approx(length)


def test_labels_that_would_overlap_take_another_row():
    assert drawing.rows_of([(0, 3), (2, 5), (4, 6), (5.5, 7)]) == [0, 1, 0, 1]
