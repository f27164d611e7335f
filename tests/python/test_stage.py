import copy
import pickle
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest

import hoopline as hl


class Quantity:
    """What a unit package hands over: `to(unit)` and `magnitude`."""

    def __init__(self, magnitude, unit):
        self.magnitude, self.unit = magnitude, unit

    def to(self, unit):
        factors = {("mm", "m"): 1e-3, ("L", "m**3"): 1e-3, ("N", "N"): 1.0}
        if (self.unit, unit) not in factors:
            raise ValueError(f"cannot convert {self.unit} to {unit}")
        return Quantity(self.magnitude * factors[self.unit, unit], unit)


def test_a_mapping_gives_the_stage_of_the_file(stage, values):
    assert hl.Stage(values) == stage
    assert hl.Stage(values).name == stage.name


def test_numbers_count_as_si(stage, values):
    values["tank"]["outer_diameter"] = stage["tank.outer_diameter"]
    values["motor"]["thrust"] = np.float64(stage["motor.thrust"])
    assert hl.Stage(values) == stage


@pytest.mark.parametrize(
    "given",
    [
        "170 mm", 0.17, np.float64(0.17), np.array(0.17), Decimal("0.17"), Fraction(17, 100),
        Quantity(170.0, "mm"),
    ],
)  # fmt: skip
def test_values_of_any_kind(stage, given):
    changed = stage.replace({"tank.outer_diameter": given})
    assert changed["tank.outer_diameter"] == pytest.approx(0.17, rel=1e-15)


def test_quantities_with_powers_in_their_unit(stage):
    changed = stage.replace({"tank.volume": Quantity(25.0, "L")})
    assert changed["tank.volume"] == pytest.approx(0.025, rel=1e-15)


def test_a_quantity_of_another_kind_is_refused(stage):
    with pytest.raises(hl.InputError, match=r"motor\.thrust.*not a force"):
        stage.replace({"motor.thrust": Quantity(3.0, "mm")})


def test_a_pressure_without_basis_is_refused(values):
    values["pressure"] |= {"basis": "stated", "reason": "test", "stated": Quantity(60.0, "bar")}
    with pytest.raises(hl.InputError, match=r"pressure\.stated.*gauge or absolute"):
        hl.Stage(values)


def test_replace_leaves_the_stage_as_it_was(stage):
    before = stage.digest
    changed = stage.replace({"tank.outer_diameter": "150 mm"})
    assert stage.digest == before
    assert changed != stage
    assert changed["tank.outer_diameter"] == 0.15


def test_replacing_nothing_or_the_same_value_gives_the_same_stage(stage):
    assert stage.replace({}) == stage
    assert stage.replace({"tank.outer_diameter": stage["tank.outer_diameter"]}) == stage


def test_replacing_what_follows_names_the_rule(stage):
    with pytest.raises(
        hl.InputError, match=r"tank\.length follows from tank\.volume.*follow\.tank"
    ):
        stage.replace({"tank.length": "1 m"})


def test_a_follow_rule_can_be_changed_without_changing_the_design(stage):
    before, after = stage.assess(), stage.replace({"follow.tank": "length"}).assess()
    for path, value in before.results.items():
        assert after[path] == pytest.approx(value, rel=1e-12, abs=1e-12), path
    assert after.follow["tank"] == "length"


@pytest.mark.parametrize(
    "changes",
    [
        {"follow.fins": "size", "fins.root_chord": "0.2 m"},
        {"fins.root_chord": "0.2 m", "follow.fins": "size"},
        {"tank.length": "1.5 m", "follow.tank": "length"},
        {"motor.stand_pressure": "0.95 bar absolute", "motor.thrust_basis": "stand_pressure"},
    ],
)
def test_a_choice_and_the_input_it_makes_active_in_one_call(stage, changes):
    changed = stage.replace(changes)
    for path in changes:
        if not path.endswith("basis") and not path.startswith("follow."):
            assert isinstance(changed[path], float)
    assert changed != stage


def test_a_stage_does_not_change(stage):
    with pytest.raises(AttributeError, match="replace"):
        stage.name = "other"
    with pytest.raises(AttributeError, match="replace"):
        del stage._compiled


@pytest.mark.parametrize("example", ["petrel_slim", "petrel_plain", "published/v2_textbook"])
def test_pickling_keeps_every_bit(example, tmp_path, monkeypatch):
    stage = hl.Stage.load(hl.example(example))
    text = pickle.dumps(stage)
    monkeypatch.chdir(tmp_path)  # tables named in the file must have been taken along
    copied = pickle.loads(text)
    assert copied == stage
    assert hash(copied) == hash(stage)
    assert copied.name == stage.name
    assert copied.assess().results == stage.assess().results


def test_copies_and_changed_stages_pickle_too(stage):
    changed = stage.replace({"tank.outer_diameter": "0.1 m", "mass.added": 1 / 3})
    assert copy.deepcopy(changed) == changed
    assert pickle.loads(pickle.dumps(changed)) == changed
    assert len({changed, copy.copy(changed), stage}) == 2


def test_a_choice_and_the_input_it_asks_for_pickle_together(stage):
    skin = stage.replace({"follow.skin": "skin_over_tank", "skin.gap": "2 mm"})
    assert pickle.loads(pickle.dumps(skin)) == skin


def test_inputs_tell_value_unit_and_origin(stage):
    rows = {row.path: row for row in stage.inputs()}
    assert rows["tank.outer_diameter"].shown.endswith(" mm")
    assert rows["tank.outer_diameter"].unit == "m"
    assert rows["tank.outer_diameter"].doc
    assert "tank.length" not in rows
    assert len({row.origin for row in rows.values()}) > 1


def test_an_unknown_input_names_the_nearest(stage):
    with pytest.raises(hl.InputError, match=r'tank\.outer_diametr.*"tank\.outer_diameter"'):
        stage["tank.outer_diametr"]
    with pytest.raises(hl.InputError, match="not an active input"):
        stage["tank.length"]


def test_repr_names_the_stage(stage):
    assert stage.name in repr(stage)
    assert stage.digest[:12] in repr(stage)


def test_an_unknown_example_names_the_nearest():
    with pytest.raises(hl.InputError, match='did you mean "petrel_slim"'):
        hl.example("petrel_slin")
