import pytest
from hypothesis import given
from hypothesis import strategies as st

from hoopline.rounding import rounded, significant

NUMBERS = st.floats(min_value=-1e9, max_value=1e9, allow_nan=False)


@pytest.mark.parametrize(
    ("value", "decimals", "direction", "expected"),
    [
        (0.199, 2, "down", "0.19"),
        (-0.001, 2, "down", "-0.01"),
        (0.2, 2, "down", "0.20"),
        (90.01, 1, "up", "90.1"),
        (-0.001, 2, "up", "0.00"),  # no minus in front of a zero
        (1.1 * 3, 1, "up", "3.3"),  # a last bit of the multiplication is no load
        (float("nan"), 2, "down", "nan"),
    ],
)
def test_printed_numbers_err_towards_caution(value, decimals, direction, expected):
    assert rounded(value, decimals, direction) == expected


def test_significant_digits():
    assert significant(1234.4, 4, "up") == "1235"
    assert significant(0.0012344, 4) == "0.001234"
    assert significant(0.0) == "0"


@given(NUMBERS, st.integers(0, 6))
def test_down_never_exceeds_and_up_never_falls_short(value, decimals):
    slack = abs(value) * 1e-11  # values are taken to 12 significant digits first
    step = 10.0**-decimals
    down, up = float(rounded(value, decimals, "down")), float(rounded(value, decimals, "up"))
    assert value - step - slack <= down <= value + slack
    assert value - slack <= up <= value + step + slack


@given(NUMBERS.filter(lambda value: abs(value) > 1e-9), st.integers(2, 6))
def test_significant_digits_are_as_many_as_asked_for(value, digits):
    assert float(significant(value, digits)) == pytest.approx(
        value, rel=0.51 * 10.0 ** (1 - digits)
    )


def test_the_largest_floats_are_printed_too():
    assert len(rounded(1.7e308, 2, "up")) > 300
    assert significant(-8.9e30, 4).startswith("-89")
