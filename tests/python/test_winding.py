"""Winding against the geometry of its own points in space, against quadrature, and by hand."""

import math
import pickle

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.interpolate import CubicSpline

import hoopline as hl
from hoopline import textbook as tb

TABLE = "tank.overwrap.winding"


@pytest.fixture(scope="module")
def stage():
    return hl.Stage.load(hl.example("petrel_slim"))


@pytest.fixture(scope="module")
def winding(stage):
    return stage.winding()


@pytest.fixture(scope="module")
def dished(stage):
    """The example on 2:1 ellipsoids, whose bands need friction on both."""
    changes = {
        "tank.fore_closure.kind": "ellipsoid_2_1",
        "tank.aft_closure.kind": "ellipsoid_2_1",
        f"{TABLE}.fore_polar_opening_radius": "30 mm",
        f"{TABLE}.aft_polar_opening_radius": "15 mm",
    }
    return stage.replace(changes).winding()


def test_slip_is_that_of_the_path_in_space(winding, dished):
    """The path as a curve in space: lateral over normal part of its curvature vector.

    Differentiated twice by a spline over its length; nothing of Clairaut or Liouville in it.
    """
    for wound in (winding, dished):
        (helical,) = (ply for ply in wound.plies if ply.path)
        path, end = helical.path, wound.liner.cylinder_length
        for dome in (path["axial_position"] < 0.0, path["axial_position"] > end):
            rows = np.flatnonzero(dome)[3:-3]
            axial, radius, around, length = (
                path[name][rows] for name in ("axial_position", "radius", "azimuth", "path_length")
            )
            axial = axial - (end if axial[0] > 0.0 else 0.0)
            rim, deep = helical["radius"], abs(axial).max()
            depth = rim if wound is winding else rim / 2
            assert deep < depth
            place = np.column_stack((radius * np.cos(around), radius * np.sin(around), axial))
            curve = CubicSpline(length, place)
            tangent, bend = curve(length, 1), curve(length, 2)
            normal = place / np.array([rim**2, rim**2, depth**2])
            normal /= np.linalg.norm(normal, axis=1)[:, None]
            lateral = np.cross(tangent, normal)
            needed = np.abs((bend * lateral).sum(axis=1) / (bend * normal).sum(axis=1))
            inner = slice(5, -5)  # a spline is poor at its ends
            assert needed[inner] == pytest.approx(path["slippage"][rows][inner], abs=2e-3)
            assert np.linalg.norm(tangent, axis=1)[inner] == pytest.approx(1.0, abs=1e-4)


def test_path_on_an_ellipsoid_agrees_with_another_solver():
    """The textbook equation in the axial position, after S. Koussios and L. Zu (from memory).

    For r(z) with A^2 = 1 + r'^2: da/dz = (c (A^2 sin^2 a - r r'' cos^2 a) - r' A^2 sin a) /
    (r A^2 cos a), c = k_g / k_n; integrated by LSODA to just before the turn, where
    it becomes singular. On a dome r' is negative.
    """
    rim, depth = 0.08, 0.05
    for degrees, turning in ((20, 0.035), (35, 0.03)):
        needed = tb.needed_slippage(rim, depth, f"{degrees} deg", turning)

        def rate(z, angle, needed=needed):
            share = 1 - (z / depth) ** 2
            r = rim * math.sqrt(share)
            first = -rim * z / depth**2 / math.sqrt(share)
            second = -rim / depth**2 / share**1.5
            a2 = 1 + first**2
            sin, cos = np.sin(angle), np.cos(angle)
            bend = needed * (a2 * sin**2 - r * second * cos**2)
            return (bend - first * a2 * sin) / (r * a2 * cos)

        def nearly(_, angle):
            return angle[0] - math.radians(89.0)

        nearly.terminal = True
        start = [math.radians(degrees)]
        path = solve_ivp(
            rate, (0.0, 0.999 * depth), start, events=nearly, method="LSODA", rtol=1e-10, atol=1e-12
        )
        z = path.t[-1]
        reached = rim * math.sqrt(1 - (z / depth) ** 2)
        assert reached == pytest.approx(turning, rel=2e-3)
        clairaut = reached * math.sin(path.y[0][-1])
        assert clairaut == pytest.approx(turning, rel=3e-4)


def test_isotensoid_depth_by_quadrature():
    for opening in (0.05, 0.25, 0.5):

        def rise(r, opening=opening):
            sine = r**3 * math.sqrt((1 - opening**2) / (r**2 - opening**2))
            return sine / math.sqrt(1 - sine**2)

        # r = 1 - w^2 takes the singularity at the rim away.
        end = math.sqrt(1 - math.sqrt(1.5) * opening)
        depth, _ = quad(lambda w: rise(1 - w * w) * 2 * w, 1e-9, end, epsabs=1e-12)
        assert tb.isotensoid_depth(1.0, opening) == pytest.approx(depth, abs=1e-7)


def test_build_up_is_the_mean_over_fibres_that_each_keep_their_section(winding):
    """By quadrature over the fibres of a band on a geodesic, away from where they turn."""
    helical = winding.plies[0]
    rim, turning, width = helical["radius"], helical["fore.turning_radius"], 0.009
    flux = rim * helical["stated_fibre_thickness"] / 0.58 * math.cos(helical["angle"])
    rows = np.flatnonzero(helical.build_up["axial_position"] < 0.0)
    for row in rows[:: len(rows) // 9]:
        radius = helical.build_up["radius"][row]
        if radius < turning + width:
            continue
        mean, _ = quad(
            lambda d, radius=radius: 1 / math.sqrt(radius**2 - (turning + d) ** 2),
            -width / 2,
            width / 2,
        )
        # The fore path is within 0.01 of a geodesic.
        assert helical.build_up["thickness"][row] == pytest.approx(flux * mean / width, rel=3e-3)


def test_amounts_by_hand(stage, winding):
    helical, hoop = winding.plies
    value = {row.path: row.value for row in stage.inputs()}
    band = 3 * 800e-6 / value["tank.overwrap.fibre.density"]
    length = stage.assess().geometry.cylinder_length
    # Each circuit crosses the cylinder twice; the domes add what the path says.
    path = helical.path["path_length"][-1]
    circuits = helical["covers"] * helical["circuits_per_cover"]
    assert helical["tow_length"] == pytest.approx(2 * path * circuits * 3, rel=1e-9)
    around = 2 * math.pi * helical["radius"] * math.cos(helical["angle"])
    assert helical["wound_fibre_thickness"] == pytest.approx(2 * circuits * band / around)
    assert helical["overlap"] == pytest.approx(
        helical["circuits_per_cover"] * 0.009 / around - 1, abs=1e-12
    )
    turns = 3 * length / 0.009
    assert hoop["tow_length"] == pytest.approx(turns * 2 * math.pi * hoop["radius"] * 3)
    assert hoop["mandrel_turns"] == pytest.approx(turns)
    totals = winding.totals
    assert totals["fibre_mass"] == pytest.approx(totals["tow_length"] * 800e-6)
    assert totals["resin_mass"] == pytest.approx(
        totals["fibre_mass"] / value["tank.overwrap.fibre.density"] * (0.42 / 0.58) * 1200
    )
    assert totals["winding_time"] == pytest.approx(totals["tow_length"] / 3 / 0.3)
    assert totals["spools"] == 3  # one to a tow
    heavy = stage.replace({f"{TABLE}.spool_mass": "0.2 kg"}).winding()
    assert heavy.totals["spools"] == math.ceil(totals["fibre_mass"] / 0.85 / 0.2)
    assert totals["bead_run_out"] == pytest.approx(0.2e-3 / 0.15)
    assert helical["bridged_length"] == pytest.approx(
        math.sqrt(2 * 0.2e-3 * helical["radius"]) / math.sin(helical["angle"])
    )
    tensioned = stage.replace({"tank.overwrap.winding_stress": "50 MPa"}).winding()
    pressed = sum(
        50e6 * ply["stated_fibre_thickness"] * math.sin(ply["angle"]) ** 2 / ply["radius"]
        for ply in winding.plies
    )
    assert tensioned.totals["tension_pressure"] == pytest.approx(pressed)


def test_a_circuit_closes_after_its_nudge(winding):
    helical = winding.plies[0]
    once = helical["circuit_sweep"]
    assert once == pytest.approx(2 * helical.path["azimuth"][-1], rel=1e-12)
    covered = helical["circuits_per_cover"] * (once + helical["closing_dwell"])
    assert covered == pytest.approx(2 * math.pi * helical["turns_per_cover"], rel=1e-12)


def test_a_changed_angle_closes_the_pattern_instead(stage, winding):
    helical = winding.plies[0]
    angle = helical["angle"] + helical["closing_angle_change"]
    changed = stage.replace({"tank.overwrap.ply[0].angle": angle}).winding().plies[0]
    per_cover = helical["turns_per_cover"] / helical["circuits_per_cover"] * 2 * math.pi
    # To first order in the change.
    before = abs(helical["circuit_sweep"] - per_cover)
    assert abs(changed["circuit_sweep"] - per_cover) < 0.01 * before


def test_a_ply_that_no_friction_turns_has_no_path(stage):
    upright = stage.replace({"tank.overwrap.ply[0].angle": "89.9 deg"})
    wound = upright.winding()
    assert "above 54.7 degrees" in "\n".join(wound.cautions)
    assert "slides" in "\n".join(wound.cautions)
    never = stage.replace({"tank.overwrap.ply[0].angle": "90 deg"}).winding()
    assert "no friction turns the band" in "\n".join(never.cautions)
    nothing = ("tow_length", "wound_fibre_thickness", "fore.slippage", "circuits_per_cover")
    assert [never.plies[0][name] for name in nothing] == [None] * 4
    assert never.totals["fibre_mass"] is None
    assert not never.plies[0].path
    with pytest.raises(hl.InputError, match="no dome to draw"):
        hl.plot.winding(never)


def test_a_winding_says_what_it_lacks(stage, winding):
    with pytest.raises(hl.InputError, match="did you mean"):
        winding["tow_lenght"]
    with pytest.raises(hl.InputError, match="did you mean"):
        winding.plies[0]["cover"]
    with pytest.raises(hl.InputError, match=r"\[tank.overwrap.winding\]"):
        hl.Stage.load(hl.example("petrel_plain")).winding()
    with pytest.raises(hl.InputError, match="no band can turn"):
        stage.replace({f"{TABLE}.fore_polar_opening_radius": "78 mm"})
    with pytest.raises(ValueError, match="read-only"):
        winding.plies[0].path["radius"][0] = 1.0
    again = pickle.loads(pickle.dumps(winding))
    assert str(again) == str(winding)
    assert np.array_equal(again.plies[0].path["radius"], winding.plies[0].path["radius"])
    assert winding.plies[1]["fore.slippage"] is None
    assert not winding.plies[1].path


def test_tex_is_a_gram_to_a_kilometre(stage):
    """ISO 1144, "Textiles - Universal system for designating linear density (Tex System)"."""
    changed = stage.replace({f"{TABLE}.tow_linear_density": "1650 tex"})
    assert changed[f"{TABLE}.tow_linear_density"] == pytest.approx(1.65e-3, rel=1e-12)


def test_the_figure_tells_what_slides(stage, dished):
    holds = hl.plot.winding(stage.winding())
    assert "holds" in holds.caption
    narrow = stage.replace({f"{TABLE}.aft_polar_opening_radius": "5 mm"}).winding()
    assert "slides" in hl.plot.winding(narrow).caption
    assert len(hl.plot.winding(dished).figure.axes) == 6
    hoop_only = stage.replace({"tank.overwrap.ply[0].kind": "hoop"}).winding()
    with pytest.raises(hl.InputError, match="no dome to draw"):
        hl.plot.winding(hoop_only)


def test_a_ply_of_no_thickness_is_told_without_an_infinite_share():
    stage = hl.Stage.load(hl.example("petrel_slim"))
    stage = stage.replace({"tank.overwrap.ply[1].fibre_thickness": "0 mm"})
    told = [text for text in stage.assess().cautions if text.startswith("ply 1")]
    assert any("has no thickness" in text for text in told)
    assert not any("inf" in text for text in told)
