"""Every text of a figure is on the sheet and none covers another, whatever the design."""

import tomllib

import pytest

import hoopline as hl

LONG = ", ".join(["A name that a team may well give to a stage in its third year"] * 2)


def seen(axis):
    """Return the labels of ticks that lie within the view."""
    low, high = sorted(axis.get_view_interval())
    return [tick.label1 for tick in axis.get_major_ticks() if low <= tick.get_loc() <= high]


def boxes(figure):
    """Return every text that is seen with its box, in pixels."""
    figure.draw_without_rendering()
    found = list(figure.texts)
    for axes in figure.axes:
        ticks = [*seen(axes.xaxis), *seen(axes.yaxis)] if axes.axison else []
        legend = axes.get_legend()
        within = legend.get_texts() if legend else []
        found += [*axes.texts, *ticks, *within, axes.title, axes.xaxis.label, axes.yaxis.label]
    return [(text.get_text(), text.get_window_extent()) for text in found if text.get_text()]


@pytest.fixture(scope="module")
def plates(designs, stage):
    """Return every figure of one design or of a pair, by name."""
    values = tomllib.loads(hl.example("petrel_slim").read_text(encoding="utf-8"))
    found = {}
    for name, assessment in designs.items():
        for draw in (hl.plot.vehicle, hl.plot.tank, hl.plot.margins):
            found[f"{draw.__name__} of {name}"] = draw(assessment)
    long = hl.Stage({**values, "name": LONG})
    pairs = {
        "plain": hl.compare(stage, designs["plain"]),
        "long": hl.compare(long, designs["hoop"]),
        "long and one line": hl.compare(stage, long.replace({"mass.added": "100 kg"})),
        "same": hl.compare(stage, long),
    }
    for name, comparison in pairs.items():
        found[f"waterfall of {name}"] = hl.plot.mass_waterfall(comparison)
    heavy = stage.replace({"motor.mass": "13 kg"})
    for name, followed in {
        "pair": (stage, heavy),
        "lighter": (heavy, stage),
        "five, long": (stage, long, heavy, long, stage),
        "many": (*(stage, heavy) * 13,),
    }.items():
        found[f"trend of {name}"] = hl.plot.mass_trend(hl.mass_trend(*followed))
    walls = {"met and not": ("2.4 mm", "4.4 mm"), "negative": ("1 mm", "2 mm")}
    for name, span in walls.items():
        sweep = hl.sweep(stage, {"tank.liner.wall": hl.linspace(*span, 11)})
        found[f"around, {name}"] = hl.plot.around(sweep)
    dished = {"tank.fore_closure.kind": "ellipsoid_2_1", "tank.outer_diameter": "120 mm"}
    openings = {
        f"tank.overwrap.winding.{end}_polar_opening_radius": size
        for end, size in (("fore", "30 mm"), ("aft", "6 mm"))
    }
    for name, changes in {
        "as it is": {},
        "dished": dished,
        "unlike": {**dished, **openings},
    }.items():
        found[f"winding, {name}"] = hl.plot.winding(stage.replace(changes).winding())
    return found


def test_every_text_lies_within_the_sheet_and_clear_of_its_edge(plates):
    for name, plate in plates.items():
        figure = plate.figure
        edge = 0.03 * figure.dpi
        for text, box in boxes(figure):
            assert box.x0 >= edge, f"{name}: {text!r}"
            assert box.y0 >= edge, f"{name}: {text!r}"
            assert box.x1 <= figure.bbox.x1 - edge, f"{name}: {text!r}"
            assert box.y1 <= figure.bbox.y1 - edge, f"{name}: {text!r}"


def test_no_text_covers_another(plates):
    for name, plate in plates.items():
        written = boxes(plate.figure)
        for place, (text, box) in enumerate(written):
            for other, beside in written[place + 1 :]:
                across = min(box.x1, beside.x1) - max(box.x0, beside.x0)
                along = min(box.y1, beside.y1) - max(box.y0, beside.y0)
                # A box has room for accents; letters touch only where boxes overlap by more.
                assert across < 1.0 or along < 2.0, f"{name}: {text!r} and {other!r}"
