"""A comparison as files."""

import os
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from hoopline.comparison import Comparison
from hoopline.comparison.trend import MassTrend
from hoopline.file_names import given_path
from hoopline.whole_files import write_whole

if TYPE_CHECKING:
    from hoopline.plot.plate import Plate


def write(comparison: Comparison, folder: str | os.PathLike[str]) -> list[Path]:
    """Write text, Markdown, JSON, and a mass figure for each design after the first.

    Parameters
    ----------
    comparison
        What `hl.compare` returned.
    folder
        Made if it is not there; files of an earlier comparison are replaced.

    Returns
    -------
    list of Path
        comparison.txt, comparison.md, comparison.json, mass_waterfall_b.svg and .png, and so on.
    """
    from hoopline.plot.waterfall import mass_waterfall

    target = given_path("folder", folder)
    plates = {
        f"mass_waterfall_{side.letter.lower()}": mass_waterfall(comparison, side.letter)
        for side in comparison.sides[1:]
    }
    return _whole(target, "comparison", comparison, plates)


def write_trend(trend: MassTrend, folder: str | os.PathLike[str]) -> list[Path]:
    """Write a mass trend as text, Markdown, JSON and its figure.

    Parameters
    ----------
    trend
        What `hl.mass_trend` returned.
    folder
        Made if it is not there; files of an earlier trend are replaced.

    Returns
    -------
    list of Path
        mass_trend.txt, mass_trend.md, mass_trend.json, mass_trend.svg and .png.
    """
    from hoopline.plot.trend import mass_trend

    stem = "mass_trend"
    return _whole(given_path("folder", folder), stem, trend, {stem: mass_trend(trend)})


def _whole(
    folder: Path, stem: str, told: Comparison | MassTrend, plates: Mapping[str, "Plate"]
) -> list[Path]:
    """Write what is told as text, Markdown and JSON, and figures by their stems; all or nothing."""

    def fill(waiting: Path) -> list[str]:
        texts = {
            f"{stem}.txt": f"{told}\n",
            f"{stem}.md": told.markdown(),
            f"{stem}.json": f"{told.to_json()}\n",
        }
        for name, text in texts.items():
            (waiting / name).write_text(text, encoding="utf-8", newline="\n")
        figures = [path for stem, plate in plates.items() for path in plate.save(waiting, stem)]
        return [*texts, *(path.name for path in figures)]

    return write_whole(folder, fill)
