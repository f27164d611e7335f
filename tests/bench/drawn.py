"""Figures of the comparison: work against precision, and how the batch scales."""

from __future__ import annotations

from itertools import cycle
from math import ceil, floor, log10
from typing import TYPE_CHECKING, Any

import matplotlib as mpl
from matplotlib.figure import Figure

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from matplotlib.axes import Axes
    from side_by_side import Point

# Okabe and Ito's palette for all kinds of colour vision ("Color Universal Design", 2008; values and
# title from memory), and a line and a marker of its own for every curve: colour is never alone.
COLOURS = ("#000000", "#0072B2", "#D55E00", "#009E73", "#CC79A7", "#56B4E9", "#E69F00", "#999933")
LINES = ("-", "--", "-.", ":", (0, (5, 1)), (0, (3, 1, 1, 1)), (0, (1, 1)), (0, (8, 2)))
MARKERS = ("o", "s", "^", "D", "v", "P", "X", "<")
STYLE: dict[Any, Any] = {
    "font.size": 9,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "grid.color": "#dddddd",
    "grid.linewidth": 0.6,
    "lines.linewidth": 1.4,
    "lines.markersize": 5,
    "legend.frameon": False,
    "svg.fonttype": "none",
    "svg.hashsalt": "side by side",
}


def curves() -> Any:
    """Return the looks of one curve after the other."""
    looks = zip(COLOURS, LINES, MARKERS, strict=True)
    return cycle({"color": c, "linestyle": line, "marker": m} for c, line, m in looks)


def work_precision(points: Sequence[Point], folder: Path) -> None:
    """Draw processor time against the error of the apogee, one curve per method."""
    with mpl.rc_context(STYLE):
        figure = Figure(figsize=(7.2, 4.6), layout="constrained")
        axes = figure.add_subplot()
        looks = curves()
        for method in dict.fromkeys(point.method for point in points):
            own = [point for point in points if point.method == method]
            axes.loglog(
                [point.apogee_error for point in own],
                [point.microseconds for point in own],
                label=method,
                **next(looks),
            )
        axes.invert_xaxis()
        axes.set_xlabel("largest error of the apogee, m (more precise to the right)")
        axes.set_ylabel("processor time per ascent, one thread, µs")
        axes.set_title("Work against precision, vertical ascents of one fleet", loc="left")
        legend_beside(axes)
        save(figure, folder, "work_precision")


def scaling(runs: Sequence[dict[str, Any]], folder: Path) -> None:
    """Draw ascents per second over the size of the batch, and over the threads."""
    with mpl.rc_context(STYLE):
        figure = Figure(figsize=(7.2, 6.4), layout="constrained")
        over_size, over_threads = figure.subplots(2, 1)
        looks = curves()
        kinds = dict.fromkeys((run["grid"], run["threads"]) for run in runs)
        for grid, threads in kinds:
            own = [run for run in runs if (run["grid"], run["threads"]) == (grid, threads)]
            over_size.loglog(
                [run["designs"] for run in own],
                [run["ascents_per_second"] for run in own],
                label=f"{grid} grid, {threads} thread{'s' * (threads > 1)}",
                **next(looks),
            )
        over_size.set_ylim(*decades([run["ascents_per_second"] for run in runs]))
        over_size.set_xlabel("ascents in the batch")
        over_size.set_ylabel("ascents per second (elapsed)")
        over_size.set_title("Size of the batch", loc="left")
        legend_beside(over_size)
        looks = curves()
        threads = sorted({run["threads"] for run in runs})
        for grid in dict.fromkeys(run["grid"] for run in runs):
            best = [
                max(
                    run["ascents_per_second"]
                    for run in runs
                    if (run["grid"], run["threads"]) == (grid, count)
                )
                for count in threads
            ]
            gains = [rate / best[0] for rate in best]
            over_threads.plot(threads, gains, label=f"{grid} grid", **next(looks))
        over_threads.plot(threads, threads, label="ideal", color="#777777", linewidth=1.0)
        over_threads.set_xticks(threads)
        over_threads.set_ylim(bottom=0.0)
        over_threads.set_xlabel("threads")
        over_threads.set_ylabel("best rate over that of one thread")
        over_threads.set_title("Threads", loc="left")
        legend_beside(over_threads)
        save(figure, folder, "scaling")


def memory(runs: Sequence[dict[str, Any]], folder: Path) -> None:
    """Draw the peak of resident memory over the size of the batch."""
    with mpl.rc_context(STYLE):
        figure = Figure(figsize=(7.2, 3.4), layout="constrained")
        axes = figure.add_subplot()
        most = max(run["threads"] for run in runs)
        own = [run for run in runs if run["grid"] == "trade" and run["threads"] == most]
        sizes = [run["designs"] for run in own]
        rows = [8 * len(run["columns"]) * run["designs"] / 2**20 for run in own]
        looks = curves()
        peaks = [run["peak_resident_bytes"] / 2**20 for run in own]
        axes.loglog(sizes, peaks, label="peak", **next(looks))
        axes.loglog(sizes, rows, label="results alone", **next(looks))
        axes.set_xlabel("ascents in the batch")
        axes.set_ylabel("resident memory, MiB")
        axes.set_title(f"Memory, trade grid, {most} threads", loc="left")
        legend_beside(axes)
        save(figure, folder, "memory")


def decades(values: Sequence[float]) -> tuple[float, float]:
    """Return the powers of ten around all values."""
    return 10.0 ** floor(log10(min(values))), 10.0 ** ceil(log10(max(values)))


def legend_beside(axes: Axes) -> None:
    """Put the legend where no curve runs."""
    axes.legend(loc="center left", bbox_to_anchor=(1.0, 0.5), handlelength=3.5)


def save(figure: Figure, folder: Path, name: str) -> None:
    """Write the figure as PNG and as SVG."""
    folder.mkdir(parents=True, exist_ok=True)
    figure.savefig(folder / f"{name}.png", dpi=160)
    figure.savefig(folder / f"{name}.svg", metadata={"Date": None})
