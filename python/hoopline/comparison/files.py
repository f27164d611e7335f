"""A comparison as files."""

import os
from pathlib import Path

from hoopline.comparison import Comparison
from hoopline.file_names import given_path
from hoopline.whole_files import write_whole


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

    def fill(waiting: Path) -> list[str]:
        texts = {
            "comparison.txt": f"{comparison}\n",
            "comparison.md": comparison.markdown(),
            "comparison.json": f"{comparison.to_json()}\n",
        }
        for name, text in texts.items():
            (waiting / name).write_text(text, encoding="utf-8", newline="\n")
        figures = [path for stem, plate in plates.items() for path in plate.save(waiting, stem)]
        return [*texts, *(path.name for path in figures)]

    return write_whole(target, fill)
