"""The load history against an integration of the rates by a general-purpose solver, and by hand."""

import math
import pickle

import numpy as np
import pytest
from scipy.integrate import solve_ivp

import hoopline as hl

MPA = 1e6


def given(stage):
    return {row.path: row.value for row in stage.inputs()}


@pytest.fixture(scope="module")
def wrapped():
    """The slim example, autofrettaged, with a metal that hardens."""
    return hl.Stage.load(hl.example("petrel_slim")).replace(
        {
            "tank.autofrettage_pressure": "200 bar gauge",
            "tank.liner.plastic_modulus": "900 MPa",
        }
    )


class Rates:
    """Strains, stresses and plastic strain of liner and fibres against pressure, as rates.

    Newton's method and a return to the yield surface are what the library does; here the rates of
    the theory of flow (Prandtl and Reuss, hardening the same in all directions) are integrated by
    LSODA, which knows nothing of steps back.
    """

    def __init__(self, stage):
        value, geometry = given(stage), stage.assess().geometry
        inner = geometry.liner_inner_diameter / 2
        self.wall = geometry.liner_minimum_wall
        radius = inner + self.wall / 2
        self.loads = np.array([inner**2 / (2 * radius), radius])
        modulus, nu = (
            value[f"tank.liner.metal.{name}"] for name in ("elastic_modulus", "poisson_ratio")
        )
        self.yields = value["tank.liner.metal.yield_strength"]
        self.hardens = value["tank.liner.plastic_modulus"]
        self.elastic = modulus / (1 - nu**2) * np.array([[1, nu], [nu, 1]])
        self.wrap = np.zeros((2, 2))
        for ply in range(8):
            at = f"tank.overwrap.ply[{ply}]"
            if f"{at}.angle" not in value:
                break
            angle = value[f"{at}.angle"]
            helical = stage.assess().choices[f"{at}.kind"] == "helical"
            shares = np.array([math.cos(angle) ** 2 if helical else 0.0, math.sin(angle) ** 2])
            fibre = value["tank.overwrap.fibre.elastic_modulus"] * value[f"{at}.fibre_thickness"]
            self.wrap += fibre * np.outer(shares, shares)

    def excess(self, state):
        axial, hoop, hardened = state[2:5]
        equivalent = math.sqrt(axial**2 - axial * hoop + hoop**2)
        return equivalent - self.yields - self.hardens * hardened

    def rate(self, state, direction, *, flows):
        stiffness, normal = self.elastic, np.zeros(2)
        push = 0.0
        if flows:
            axial, hoop = state[2:4]
            equivalent = math.sqrt(axial**2 - axial * hoop + hoop**2)
            normal = np.array([2 * axial - hoop, 2 * hoop - axial]) / (2 * equivalent)
            along = self.elastic @ normal
            push = normal @ along + self.hardens
            stiffness = self.elastic - np.outer(along, along) / push
        strain = np.linalg.solve(self.wrap + self.wall * stiffness, direction * self.loads)
        hardening = (normal @ self.elastic @ strain) / push if flows else 0.0
        return np.concatenate([strain, stiffness @ strain, [hardening]])

    def lead(self, state, start, end):
        """From one pressure to another; returns the state and where flow began."""
        sign = math.copysign(1.0, end - start)
        settings = {"method": "LSODA", "rtol": 1e-10, "atol": 1e-14}

        def to_yield(_, state):
            return self.excess(state)

        to_yield.terminal, to_yield.direction = True, 1
        span = (0.0, abs(end - start))
        elastic = solve_ivp(
            lambda _, y: self.rate(y, sign, flows=False), span, state, events=to_yield, **settings
        )
        state = elastic.y[:, -1]
        if not elastic.t_events[0].size:
            return state, None
        began = float(elastic.t_events[0][0])
        plastic = solve_ivp(
            lambda _, y: self.rate(y, sign, flows=True), (began, span[1]), state, **settings
        )
        return plastic.y[:, -1], start + sign * began


def test_the_history_agrees_with_rates_integrated_by_another_solver(wrapped):
    loads, rates = wrapped.load_history(), Rates(wrapped)
    state, pressure = np.zeros(5), 0.0
    for number, change in enumerate(loads.changes[:-1]):
        rows = np.flatnonzero(loads.change == number)
        row = {name: values[rows[-1]] for name, values in loads.columns.items()}
        state, began = rates.lead(state, pressure, row["pressure"])
        pressure = row["pressure"]
        got = [
            row[name]
            for name in ("axial_strain", "hoop_strain", "liner_axial_stress", "liner_hoop_stress")
        ]
        assert got[:2] == pytest.approx(state[:2], rel=5e-3, abs=8e-6), change
        assert got[2:] == pytest.approx(state[2:4], rel=2e-3, abs=0.5 * MPA), change
        assert row["liner_plastic_strain"] == pytest.approx(state[4], rel=2e-3, abs=4e-6), change
        assert (change.liner_flow is None) == (began is None)
        if began is not None:
            assert change.liner_flow == pytest.approx(began, rel=1e-6)


def test_a_thin_liner_flows_backwards_when_it_is_emptied(wrapped):
    """Where the rates say so, not at the turn, where it stands at its yield strength too."""
    thin = wrapped.replace(
        {
            "tank.liner.wall": "1 mm",
            "tank.autofrettage_pressure": "150 bar gauge",
            "tank.liner.plastic_modulus": "0 MPa",
        }
    )
    change, rates = thin.load_history().changes[1], Rates(thin)
    state, _ = rates.lead(np.zeros(5), 0.0, 150e5)
    state[2:4] *= 1 - 1e-9  # off the yield surface, where the event would be met at once
    _, began = rates.lead(state, 150e5, 0.0)
    assert change.name == "unloading"
    assert 0 < began < 100e5
    # Half a per cent of the strains at 150 bar moves where they come back to yield by some of that.
    assert change.liner_flow == pytest.approx(began, abs=1e-3 * 150e5)
    assert "flows backwards under its wrap" in " ".join(thin.assess().cautions)


def test_autofrettage_leaves_the_liner_pressed_and_the_proof_without_flow(wrapped):
    loads = wrapped.load_history()
    first, *_ = loads.changes
    assert first.name == "autofrettage"
    assert first.liner_flow is not None
    unloaded = loads.after("unloading")
    assert unloaded["liner_hoop_stress"] < 0.0
    assert unloaded["hoop_strain"] > 0.0
    proof = next(change for change in loads.changes if change.name == "proof")
    assert proof.liner_flow is None


def test_a_bare_tube_collapses_at_the_limit_of_von_mises():
    """Limit pressure of a thin closed tube, (2 / sqrt 3) S t / R at the mean radius: the von Mises
    member of the burst formulas, confirmed in the abstract of ASME Journal of Pressure Vessel
    Technology 145(4), 041303 (2023); here S is the yield strength, for no metal hardens.
    """
    stage = hl.Stage.load(hl.example("petrel_plain"))
    loads, size = stage.load_history(), stage.assess().geometry
    radius = (size.liner_inner_diameter + size.liner_minimum_wall) / 2
    strength = given(stage)["tank.liner.metal.yield_strength"]
    limit = 2 / math.sqrt(3) * strength * size.liner_minimum_wall / radius
    assert loads.ending == "the liner flows without limit"
    assert loads.ending_pressure == pytest.approx(limit, rel=1e-3)


def welded_along():
    """The slim example with a seam along its cylinder as well."""
    stage = hl.Stage.load(hl.example("petrel_slim"))
    return stage.replace({"tank.liner.longitudinal_seam.basis": "weld_zone_strength"})


@pytest.mark.parametrize(("seam", "along"), [("girth", 0), ("longitudinal", 1)])
def test_a_weld_zone_flows_where_its_own_stress_reaches_its_yield(seam, along):
    """In series by hand: the line load of one direction, the wall's strain of the other."""
    stage = welded_along()
    value, rates = given(stage), Rates(stage)
    thickness = rates.wall
    closure = value["tank.fore_closure.thickness"] * (
        1 - value["tank.fore_closure.thickness_under_tolerance"]
    )
    if seam == "girth":
        thickness = min(thickness, closure)
    wall = np.linalg.solve(rates.wrap + rates.wall * rates.elastic, rates.loads)
    stiffness = rates.wrap + thickness * rates.elastic
    other = 1 - along
    zone = np.zeros(2)
    zone[other] = wall[other]
    zone[along] = (rates.loads[along] - stiffness[along, other] * wall[other]) / (
        stiffness[along, along]
    )
    axial, hoop = rates.elastic @ zone
    per_pressure = math.sqrt(axial**2 - axial * hoop + hoop**2)
    expected = value["tank.liner.metal.weld_zone_yield_strength"] / per_pressure
    proof = stage.load_history().changes[0]
    assert getattr(proof, f"{seam}_zone_flow") == pytest.approx(expected, rel=1e-7)


def test_resin_cracks_where_the_strain_across_a_ply_reaches_its_limit():
    stage = hl.Stage.load(hl.example("petrel_slim"))
    assert all(change.first_crack is None for change in stage.load_history().changes)
    cracked = stage.replace({"tank.overwrap.cracking_strain": "0.1 %"})
    rates, angles = Rates(cracked), np.radians([20.0, 88.0])
    axial, hoop = np.linalg.solve(rates.wrap + rates.wall * rates.elastic, rates.loads)
    across = max(axial * np.sin(angles) ** 2 + hoop * np.cos(angles) ** 2)
    first = [change.first_crack for change in cracked.load_history().changes]
    assert first[0] == pytest.approx(0.001 / across, rel=1e-7)
    assert first[1:] == [None] * 3
    assert any("resin of a ply cracks" in text for text in cracked.assess().cautions)


def told(stage, changes):
    return " ".join(stage.replace(changes).assess().cautions)


def test_cautions_tell_what_the_wall_goes_through():
    stage = hl.Stage.load(hl.example("petrel_slim"))
    plain = told(stage, {})
    assert "the girth seam's weld zone flows from 77.2 bar gauge on" in plain
    assert "the wrap carries 28 % of the hoop load" in plain
    assert "no autofrettage" not in plain
    thin = told(stage, {"tank.liner.wall": "1.5 mm"})
    assert "and there is no autofrettage" in thin
    assert "below the required 218.3 bar gauge" in thin
    assert "idles" not in thin
    idle = told(stage, {"tank.autofrettage_pressure": "100 bar gauge"})
    assert "autofrettage at 100 bar gauge does nothing" in idle
    low = {"tank.liner.wall": "1.5 mm", "tank.autofrettage_pressure": "100 bar gauge"}
    assert "flows again in the proof test" in told(stage, low)
    pressed = {"tank.liner.wall": "1.5 mm", "tank.autofrettage_pressure": "180 bar gauge"}
    assert "buckles inwards" in told(stage, pressed)
    sound = {
        "tank.liner.girth_seam.basis": "none",
        "tank.autofrettage_pressure": "200 bar gauge",
        "tank.liner.plastic_modulus": "900 MPa",
    }
    quiet = told(stage, sound)
    assert not any(word in quiet for word in ("flows", "idles", "buckles", "below the required"))


def test_a_margin_after_autofrettage_says_what_it_rests_on(wrapped):
    thin = wrapped.replace(
        {"tank.liner.wall": "1.5 mm", "tank.autofrettage_pressure": "150 bar gauge"}
    )
    assessment = thin.assess()
    for margin, load in (
        ("margins.liner_yield_proof", assessment["pressures.proof"]),
        ("margins.liner_yield_flight", assessment["flight_loads.proof_with_head"]),
    ):
        assert assessment[margin] == pytest.approx(150e5 / load - 1, rel=1e-12)
        assert "autofrettage / " in str(assessment.explain(margin))
    with pytest.raises(hl.InputError, match=r"bursts at 1\d\d\.\d bar gauge"):
        thin.replace({"tank.autofrettage_pressure": "200 bar gauge"}).assess()
    untreated = thin.replace({"tank.autofrettage_pressure": "0 bar gauge"}).assess()
    assert untreated["margins.liner_yield_proof"] < 0
    assert "autofrettage / " not in str(untreated.explain("margins.liner_yield_proof"))


def test_shares_are_drawn_for_wrapped_tanks_only(wrapped):
    loads = wrapped.load_history()
    plate = hl.plot.load_shares(loads)
    share = loads.after("MEOP")["liner_hoop_share"]
    assert f"At MEOP the liner carries {100 * share:.0f} % of the hoop load" in plate.caption
    left, right = plate.figure.axes[:2]
    names = [line.get_label() for line in left.get_lines()]
    assert names[:4] == ["autofrettage", "proof", "MEOP", "to burst"]
    assert left.get_ylim() == right.get_ylim()
    with pytest.raises(hl.InputError, match="no overwrap"):
        hl.plot.load_shares(hl.Stage.load(hl.example("petrel_plain")).load_history())


def test_a_history_says_what_it_lacks(wrapped):
    loads = wrapped.load_history()
    with pytest.raises(hl.InputError, match="did you mean"):
        loads["hoop_strian"]
    with pytest.raises(hl.InputError, match="no change of pressure"):
        loads.after("prof")
    with pytest.raises(hl.InputError, match="minimum"):
        wrapped.load_history(wall="thick")
    with pytest.raises(hl.InputError, match="tank"):
        hl.Stage.load(hl.example("published/v2_textbook")).load_history()
    with pytest.raises(ValueError, match="read-only"):
        loads["pressure"][0] = 1.0
    again = pickle.loads(pickle.dumps(loads))
    assert again.ending == loads.ending
    assert np.array_equal(again["pressure"], loads["pressure"])


def test_the_nominal_wall_strains_less(wrapped):
    least, nominal = (wrapped.load_history(wall=wall) for wall in ("minimum", "nominal"))
    assert nominal.after("proof")["hoop_strain"] < least.after("proof")["hoop_strain"]
