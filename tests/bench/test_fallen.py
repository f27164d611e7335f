"""Which designs the trade grid does not serve at once, and how all of them end."""

import pytest
from peers import own

ENDS = {"grounded", "stopped", "lost", "held", "no number", "apogee"}


@pytest.fixture(scope="module", params=["fleet", "wide", "walled"])
def told(request):
    return request.param, own.ask("fallen", request.param, 8000)


def designs_of(kinds):
    return {name: kind["designs"] for name, kind in kinds.items()}


def test_every_design_is_counted_once(told):
    _, courses = told
    for course in courses.values():
        assert sum(course["by_doublings"]) == course["designs"] == 4000
        assert sum(designs_of(course["ends"]).values()) == course["designs"]
        begun = int(course["doublings_for_close_mach_knots"])
        again = sum(course["by_doublings"][begun + 1 :])
        assert again == course["flown_again"]
        assert again == sum(designs_of(course["flown_again_first_because"]).values())


def test_a_design_flown_again_alone_has_the_bits_of_its_block(told):
    for course in told[1].values():
        assert course["other_bits_alone"]["designs"] == 0


def test_no_design_comes_to_no_number_unseen(told):
    for course in told[1].values():
        assert course["ends"]["no number"]["designs"] == 0
        assert course["ends"].keys() == ENDS


def test_the_fleet_is_served_at_once_and_the_wide_set_ends_in_every_way(told):
    vehicles, courses = told
    for course in courses.values():
        ends = designs_of(course["ends"])
        if vehicles == "fleet":
            assert course["flown_again"] < 0.03 * course["designs"]
            assert ends["apogee"] == course["designs"]
        else:
            assert all(ends[end] > 0 for end in ENDS - {"no number"})
            assert course["flown_again"] > 0
            assert course["above_20_km"]["designs"] > 0


def test_close_mach_knots_begin_with_more_steps(told):
    vehicles, courses = told
    for course in courses.values():
        begun = course["doublings_for_close_mach_knots"]
        assert begun == (1 if vehicles == "walled" else 0)
        assert sum(course["by_doublings"][: int(begun)]) == 0
