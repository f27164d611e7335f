import pickle

import pytest

import hoopline as hl
from hoopline.number import LENGTH, number

CLASSES = [hl.InputError, hl.ValidityError, hl.ConvergenceError, hl.DataError]


@pytest.mark.parametrize("kind", CLASSES)
def test_errors_are_ours_survive_pickling_and_say_what_they_are(kind):
    error = kind("tank.volume is missing")
    copy = pickle.loads(pickle.dumps(error))
    assert type(copy) is kind
    assert str(copy) == "tank.volume is missing"
    assert isinstance(error, hl.HooplineError)
    assert kind.__doc__


def test_errors_are_caught_as_the_built_in_kinds():
    assert issubclass(hl.InputError, ValueError)
    assert issubclass(hl.DataError, ValueError)
    assert issubclass(hl.ValidityError, ValueError)
    assert issubclass(hl.ConvergenceError, ArithmeticError)


@pytest.mark.parametrize(
    "refuse",
    [
        lambda stage, value: stage.replace({"tank.outer_diameter": [value]}),
        lambda stage, value: hl.compare(stage, value),
        lambda stage, value: hl.export(value, "tables"),
        lambda stage, value: hl.Assessment.from_json(value),
        lambda stage, value: hl.example(value),
        lambda stage, value: number("radius", value, LENGTH),
    ],
)
def test_what_is_refused_has_the_article_that_goes_with_it(stage, refuse):
    for value, kind in ((object(), "an object"), (b"1", "a bytes")):
        with pytest.raises(hl.InputError, match=rf"\b{kind}\b"):
            refuse(stage, value)


def test_an_error_raised_by_the_compiled_module_survives_pickling(stage):
    with pytest.raises(hl.InputError) as caught:
        stage.replace({"tank.outer_diameter": "-1 mm"})
    copy = pickle.loads(pickle.dumps(caught.value))
    assert type(copy) is hl.InputError
    assert str(copy) == str(caught.value)
