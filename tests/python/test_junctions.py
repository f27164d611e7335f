"""Junctions of cylinder and closure as seen from Python: columns, margins, inputs, figure."""

import pickle

import numpy as np
import pytest

import hoopline as hl


@pytest.fixture(scope="module")
def plain():
    return hl.Stage.load(hl.example("petrel_plain"))


def aft(stage):
    return stage.junctions()[1]


def seam(stage, **given):
    return stage.replace({f"tank.liner.girth_seam.{name}": size for name, size in given.items()})


def test_columns_with_units_from_closure_to_cylinder(plain):
    fore, aft = plain.junctions()
    assert (fore.side, aft.side, aft.closure) == ("fore", "aft", "ellipsoid_2_1")
    assert set(aft) == {"distance"} | {
        f"{at}_{what}_stress"
        for at in ("inner", "outer")
        for what in ("axial", "hoop", "equivalent")
    }
    assert aft.units["distance"] == "m"
    assert aft.units["outer_hoop_stress"] == "Pa"
    assert (np.diff(aft["distance"]) >= 0.0).all()
    assert (aft["distance"] == 0.0).sum() == 2
    assert not aft["distance"].flags.writeable
    assert len(aft) == len(aft["distance"])
    with pytest.raises(hl.InputError, match="inner_axial_stress"):
        aft["inner_axial_stres"]
    again = pickle.loads(pickle.dumps(aft))
    assert again.place == aft.place
    assert (again["distance"] == aft["distance"]).all()
    assert not again["distance"].flags.writeable


def test_far_from_the_edge_is_the_membrane(plain):
    assessment = plain.assess()
    inner = assessment.geometry.liner_inner_diameter / 2
    wall = assessment.geometry.liner_minimum_wall
    junction = aft(plain)
    axial = junction.pressure * inner**2 / (2 * (inner + wall / 2) * wall)
    for at in ("inner", "outer"):
        assert junction[f"{at}_axial_stress"][-1] == pytest.approx(axial, rel=0.03)
        hoop = junction.pressure * inner / wall
        assert junction[f"{at}_hoop_stress"][-1] == pytest.approx(hoop, rel=0.03)


def test_the_margin_is_that_of_twice_the_yield_strength(plain):
    margins = plain.assess().margins
    for junction in plain.junctions():
        computed = 2 * junction.yield_strength / junction.largest - 1
        told = getattr(margins, f"{junction.side}_junction_proof")
        assert told == pytest.approx(computed, rel=1e-12) == junction.margin
        # The weld zone of the seam lies there.
        zone = {row.path: row.value for row in plain.inputs()}
        assert junction.yield_strength == zone["tank.liner.metal.weld_zone_yield_strength"]


def test_lack_of_penetration_thins_the_throat_wherever_the_seam_is_judged(plain):
    perfect, thinned = plain.assess(), seam(plain, lack_of_penetration="1 mm").assess()
    wall = perfect.geometry.liner_minimum_wall
    left = (wall - 1e-3) / wall
    for name in ("girth_seam_proof", "girth_seam_burst"):
        before, after = (1 + getattr(each.margins, name) for each in (perfect, thinned))
        assert after / before == pytest.approx(left, rel=1e-9)
    assert "lack_of_penetration" in str(thinned.explain("margins.girth_seam_proof"))
    assert aft(seam(plain, lack_of_penetration="1 mm")).largest > aft(plain).largest
    with pytest.raises(hl.InputError, match=r"lack_of_penetration = 20.00 mm .* leaves no seam"):
        seam(plain, lack_of_penetration="20 mm").assess()
    history = seam(plain, lack_of_penetration="1 mm").load_history()
    assert history.ending_pressure < plain.load_history().ending_pressure


@pytest.mark.parametrize(("name", "size"), [("misalignment", "1 mm"), ("peaking", "3 deg")])
def test_an_imperfect_seam_is_never_better(plain, name, size):
    assert aft(seam(plain, **{name: size})).largest > aft(plain).largest
    assert aft(seam(plain, **{name: 0.0})).largest == aft(plain).largest


def test_cautions_name_what_flows_and_what_is_assumed(plain):
    cautions = "\n".join(plain.assess().cautions)
    junction = aft(plain)
    assert junction.yield_strength < junction.largest < 2 * junction.yield_strength
    told = f"elastic surface stress {junction.largest / 1e6:.2f} MPa {junction.place}"
    assert told in cautions
    assert "flows once and stays elastic" in cautions
    assert "the girth seam is taken as perfect: no misalignment, peaking, lack of" in cautions
    measured = seam(plain, misalignment="0.5 mm", peaking="1 deg", lack_of_penetration="0.2 mm")
    assert "taken as perfect" not in "\n".join(measured.assess().cautions)
    flat = plain.replace(
        {"tank.aft_closure.kind": "flat_clamped", "tank.aft_closure.thickness": "20 mm"}
    )
    cautions = "\n".join(flat.assess().cautions)
    assert "beyond twice it, so that every test" in cautions
    assert "the aft bulkhead is judged as clamped, but the wall turns with its edge" in cautions
    freed = flat.replace({"tank.aft_closure.kind": "flat_supported"})
    assert "judged as clamped" not in "\n".join(freed.assess().cautions)


def test_what_a_closure_does_to_the_seam(plain):
    """Under one pressure a hemisphere bends the wall least, a flat plate in one piece most."""
    largest = [
        aft(plain.replace({"tank.aft_closure.kind": kind, "tank.aft_closure.thickness": "12 mm"}))
        for kind in ("hemisphere", "ellipsoid_2_1", "flat_clamped")
    ]
    at_edge = [
        np.abs(each["inner_axial_stress"] - each["outer_axial_stress"])[each["distance"] > 0].max()
        for each in largest
    ]
    assert at_edge == sorted(at_edge)


def test_a_stage_without_a_tank_has_none():
    example = next(iter((hl.example("petrel_plain").parent / "published").glob("*.toml")))
    with pytest.raises(hl.InputError, match=r"junctions need a \[tank\]"):
        hl.Stage.load(example).junctions()


def test_the_figure_shows_several_stages_in_one(plain):
    stages = [
        plain.replace({"tank.aft_closure.kind": kind, "tank.aft_closure.thickness": thickness})
        for kind, thickness in (
            ("hemisphere", "6.3 mm"),
            ("ellipsoid_2_1", "6.3 mm"),
            ("flat_clamped", "20 mm"),
        )
    ]
    plate = hl.plot.junctions(*stages)
    left, right = plate.figure.axes
    labels = [text.get_text() for text in left.get_legend().get_texts()]
    assert [label.rpartition(": ")[2] for label in labels] == [
        "hemisphere", "ellipsoid_2_1", "flat_clamped",
    ]  # fmt: skip
    lines = [line for line in right.get_lines() if len(line.get_xdata()) > 2]
    for line, stage in zip(lines, stages, strict=True):
        assert line.get_ydata().max() >= aft(stage).largest / 1e6 * (1 - 1e-2)
        assert f"{aft(stage).largest / 1e6:.0f} MPa {aft(stage).place}" in plate.caption
    assert "Proof pressure 109 bar gauge" in plate.caption
    with pytest.raises(hl.InputError, match="at least one stage"):
        hl.plot.junctions()
    with pytest.raises(hl.InputError, match='neither "fore" nor "aft"'):
        hl.plot.junctions(plain, side="top")
