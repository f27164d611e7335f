"""The programs of the comparison solve the same problem; no speed is asserted."""

from functools import partial
from importlib import import_module

import numpy as np
import pytest
import side_by_side
from peers import own, with_scipy
from peers.fleet import fleet
from side_by_side import GRIDS, REFERENCE, Point, cost_at, table


@pytest.fixture(scope="module")
def designs():
    return fleet(own.ask("problem", 4))


@pytest.fixture(scope="module")
def truth(designs):
    return with_scipy.solve(designs, REFERENCE)


def largest_error(flown, truth):
    return np.abs(flown - truth).max(axis=0)


def test_the_fine_grid_agrees_with_an_adaptive_solver_of_eighth_order(truth):
    """Most of the difference is the library's polynomial for friction, not its steps."""
    burnout, apogee = largest_error(own.solve(len(truth), "fine"), truth)
    assert burnout < 0.01
    assert apogee < 0.1


def test_the_trade_grid_is_coarser_than_the_fine_one_by_little(truth):
    fine, trade = (own.solve(len(truth), grid) for grid in ("fine", "trade"))
    assert 0.0 < largest_error(trade, fine)[1] < 0.2


@pytest.mark.parametrize("name", ["numpy", "numba", "jax"])
def test_fixed_steps_converge_on_the_adaptive_solver(name, designs, truth):
    if name != "numpy":
        pytest.importorskip(name)
    solve = import_module(f"peers.with_{name}").solve
    coarse, fine = (largest_error(solve(designs, grid), truth) for grid in (GRIDS[0], GRIDS[-1]))
    assert (fine < 1e-3).all()
    assert (fine < 0.01 * coarse).all()


@pytest.mark.parametrize("method", ["RK45", "LSODA"])
def test_tolerances_converge_on_the_adaptive_solver(method, designs, truth):
    loose, tight = (
        largest_error(with_scipy.solve(designs, with_scipy.Setting(method, tolerance, True)), truth)
        for tolerance in (1e-6, 1e-10)
    )
    assert (tight < 1e-3).all()
    assert (tight < 0.1 * loose).all()


def test_any_width_and_any_threads_give_the_same_bits():
    fly = partial(own.solve, 77, "trade")
    alone = fly(lanes=1)
    for lanes in (4, 8, 16):
        for threads in (1, 2):
            assert np.array_equal(fly(lanes=lanes, threads=threads), alone)


def test_a_batch_tells_its_memory():
    small, large = (own.ask("run", count, 16, 2, "vertical", "trade") for count in (100, 20_000))
    rows = 8 * len(large["columns"]) * large["designs"]
    assert large["peak_resident_bytes"] - small["peak_resident_bytes"] < 2 * rows + 2**21


def test_cost_at_equal_error_is_straight_in_logarithms():
    points = [Point("a", "", 10.0, 0.0, 1e-1), Point("a", "", 1000.0, 0.0, 1e-3)]
    assert cost_at(points, 1e-2) == pytest.approx(100.0)
    assert cost_at(points, 1.0) == pytest.approx(10.0)
    assert cost_at(points, 1e-4) is None


def test_the_table_compares_with_the_library():
    points = [
        Point(side_by_side.OURS, "x", 2.0, 0.0, 1e-1),
        Point(side_by_side.OURS, "y", 20.0, 0.0, 1e-3),
        Point("other", "z", 500.0, 0.0, 1e-1),
    ]
    assert table(points).splitlines()[3].endswith(" 250")


def test_lanes_take_fewer_instructions_than_one_design_alone():
    alone = own.instructions_per_ascent("trade", 1, "vertical")
    if alone is None:
        pytest.skip("valgrind is not there")
    together = own.instructions_per_ascent("trade", 16, "vertical")
    assert 0 < together < alone


def test_figures_are_drawn(tmp_path):
    drawn = pytest.importorskip("drawn")
    drawn.work_precision([Point("a", "", 10.0, 0.0, 1e-1), Point("b", "", 9.0, 0.0, 1.0)], tmp_path)
    runs = [own.ask("run", 100, 16, threads, "vertical", "trade") for threads in (1, 2)]
    drawn.scaling(runs, tmp_path)
    drawn.memory(runs, tmp_path)
    assert len(list(tmp_path.glob("*.png"))) == len(list(tmp_path.glob("*.svg"))) == 3
