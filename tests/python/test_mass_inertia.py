"""Moments of inertia, each line cut into rings or points and summed again with numpy."""

import math

import numpy as np
import pytest

import hoopline as hl

SLICES = 20_000


def middles(start, end, count=SLICES):
    return start + (end - start) * (np.arange(count) + 0.5) / count


def shell(x, radius, weight):
    """Return rings: place, radius, share of the mass."""
    return x, np.broadcast_to(radius, x.shape), weight / weight.sum()


def tube(length, inner, outer):
    """Cut a hollow cylinder into rings: 400 along the axis and 100 across the wall."""
    x = np.repeat(middles(0.0, length, 400), 100)
    edges = np.linspace(inner, outer, 101)
    radius = np.tile((edges[1:] + edges[:-1]) / 2.0, 400)
    return shell(x, radius, radius if inner < outer else np.ones_like(radius))


def cylinder(length, radius):
    return tube(length, 0.0, radius)


def half_ellipsoid(depth, radius):
    """Cut a thin half of a spheroid into rings by arc length, as a closure at mid-thickness."""
    angle = middles(0.0, math.pi / 2.0)
    arc = np.hypot(radius * np.cos(angle), depth * np.sin(angle))
    return shell(depth * np.cos(angle), radius * np.sin(angle), radius * np.sin(angle) * arc)


def nose(shape, length, radius):
    """Cut a thin nose into rings; the slope is left out, as in its area."""
    x = middles(0.0, length)
    turn = np.arccos(1.0 - 2.0 * x / length)
    karman = np.sqrt((turn - np.sin(2.0 * turn) / 2.0) / math.pi)
    outline = radius * (karman if shape == "von_karman" else x / length)
    return shell(x, outline, outline)


def fins(chord, tip, span, sweep, root):
    """Cut a fin into points on its span and chord, at their distance from the axis."""
    out, along = np.meshgrid(middles(0.0, 1.0, 400), middles(0.0, 1.0, 200))
    local = chord + (tip - chord) * out
    x = sweep * out + along * local
    return shell(x.ravel(), (root + out * span).ravel(), local.ravel())


POINT = np.zeros(1), np.zeros(1), np.ones(1)


def cut(stage, a, line):
    """Return the rings of one line of a mass statement, from inputs and printed dimensions."""
    size, body = a.geometry, a.airframe
    bore, liner = size.liner_inner_diameter / 2.0, size.liner_outer_diameter / 2.0
    outer, skin = body.diameter / 2.0, stage["skin.thickness"]
    case, motor = stage["motor.case_diameter"] / 2.0, stage["motor.length"]
    inside = math.pi * (outer - skin) ** 2
    fin = [size.fin_root_chord * ratio for ratio in (1.0, stage["fins.taper_ratio"])]
    if line.name.endswith("closure"):
        side = line.name.split(" ")[0]
        thickness = stage[f"tank.{side}_closure.thickness"]
        kind = a.choices[f"tank.{side}_closure.kind"]
        if kind.startswith("flat"):
            return cylinder(thickness, bore)
        middle = bore + thickness / 2.0
        return half_ellipsoid(middle if kind == "hemisphere" else middle / 2.0, middle)
    ways = {
        "liner cylinder": lambda: tube(size.cylinder_length, bore, liner),
        "overwrap fibre": lambda: tube(size.cylinder_length, liner, size.tank_outer_diameter / 2),
        "overwrap resin": lambda: tube(size.cylinder_length, liner, size.tank_outer_diameter / 2),
        "nose skin": lambda: nose(a.choices["nose.shape"], size.nose_length, outer),
        "payload bay skin": lambda: tube(
            stage["payload_bay.volume"] / inside, outer - skin, outer
        ),
        "recovery bay skin": lambda: tube(
            stage["recovery_bay.volume"] / inside, outer - skin, outer
        ),
        "skin over the tank": lambda: tube(size.tank_length, outer - skin, outer),
        "skin over the motor": lambda: tube(motor, outer - skin, outer),
        "motor": lambda: tube(motor, case, case),
        "fins": lambda: fins(
            *fin, size.fin_span, size.fin_root_chord * stage["fins.sweep_ratio"],
            body.frontal_diameter / 2.0,
        ),
        "oxidiser, liquid": lambda: cylinder(size.tank_length * (1.0 - a.load.ullage), bore),
        "oxidiser, vapour": lambda: cylinder(size.tank_length * a.load.ullage, bore),
        "oxidiser residual": lambda: cylinder(size.tank_length, bore),
        "fuel": lambda: cylinder(motor, case),
        "fuel residual": lambda: cylinder(motor, case),
    }  # fmt: skip
    return ways.get(line.name, lambda: POINT)()


def summed(stage, a, when):
    """Return pitch and roll inertia about the centre of gravity, ring by ring."""
    mass, moment, square, roll = 0.0, 0.0, 0.0, 0.0
    for line in [*a.mass_lines, *a.propellant_lines[when]]:
        x, radius, share = cut(stage, a, line)
        place = x - (share * x).sum() + line.station
        mass += line.predicted
        moment += line.predicted * (share * place).sum()
        square += line.predicted * (share * (place**2 + radius**2 / 2.0)).sum()
        roll += line.predicted * (share * radius**2).sum()
    return square - moment**2 / mass, roll


CASES = {
    "slim": ("petrel_slim", {}),
    "ellipsoid, cone, skin over the tank": (
        "petrel_slim",
        {
            "tank.fore_closure.kind": "ellipsoid_2_1",
            "nose.shape": "cone",
            "follow.skin": "skin_over_tank",
            "skin.gap": "4 mm",
            "motor.case_diameter": "190 mm",
        },
    ),
    "flat": ("petrel_plain", {"tank.aft_closure.kind": "flat_clamped",
                              "tank.aft_closure.thickness": "25 mm"}),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_inertia_is_the_sum_over_many_slices(case):
    name, changes = CASES[case]
    stage = hl.Stage.load(hl.example(name)).replace(changes)
    a = stage.assess()
    for when, prefix in (("at_ignition", ""), ("at_burnout", "burnout_")):
        pitch, roll = summed(stage, a, when)
        assert a[f"mass.{prefix}pitch_inertia"] == pytest.approx(pitch, rel=1e-6)
        assert a[f"mass.{prefix}roll_inertia"] == pytest.approx(roll, rel=2e-5)


def test_lines_add_up_to_the_vehicle(designs):
    for name, a in designs.items():
        for when, prefix in (("at_ignition", ""), ("at_burnout", "burnout_")):
            lines = [*a.mass_lines, *a.propellant_lines[when]]
            centre = a[f"mass.{prefix}centre_of_gravity"]
            pitch = math.fsum(
                line.own_pitch_inertia + line.predicted * (line.station - centre) ** 2
                for line in lines
            )
            roll = math.fsum(line.own_roll_inertia for line in lines)
            assert a[f"mass.{prefix}pitch_inertia"] == pytest.approx(pitch, rel=1e-12), name
            assert a[f"mass.{prefix}roll_inertia"] == pytest.approx(roll, rel=1e-12), name
            assert 0.0 < roll < pitch


def test_a_mass_added_for_a_what_if_turns_nothing(stage):
    a, b = stage.assess(), stage.replace({"mass.added": "3 kg"}).assess()
    assert b.mass.pitch_inertia == a.mass.pitch_inertia
    assert b.mass.roll_inertia == a.mass.roll_inertia


def test_a_stage_without_a_drawn_body_has_no_inertia(published):
    a = published.assess()
    assert "mass.pitch_inertia" not in a.results
    assert "mass.growth_root_sum_square" in a.results
    assert "Moments of inertia" not in str(a)


def test_root_sum_square_stands_beside_the_sum(stage, designs):
    for a in designs.values():
        growths = [line.growth for line in a.mass_lines]
        assert a.mass.growth_root_sum_square == pytest.approx(math.hypot(*growths), rel=1e-14)
        assert a.mass.predicted == pytest.approx(a.mass.basic + sum(growths), rel=1e-14)
        groups = a.mass_groups
        assert math.hypot(*(g.growth_root_sum_square for g in groups)) == pytest.approx(
            a.mass.growth_root_sum_square, rel=1e-14
        )
        assert all(0.0 <= g.growth_root_sum_square <= g.growth for g in groups)
    text = str(stage.assess())
    assert "lines of one class grow together: that it understates." in " ".join(text.split())


def test_a_requirement_may_limit_an_inertia(values):
    values["requirement"] = [
        {
            "id": "GNC-1", "text": "The roll inertia shall stay below 0.2 kg m2.",
            "response": "mass.roll_inertia", "at_most": "2000 kg cm2", "method": "analysis",
        }
    ]  # fmt: skip
    (line,) = hl.Stage(values).assess().requirements
    assert line.status == "met"
    assert line.at_most == 0.2
