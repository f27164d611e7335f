"""A figure together with the caption that states what it shows."""

import textwrap
from dataclasses import dataclass
from html import escape
from io import StringIO
from pathlib import Path
from typing import TYPE_CHECKING, Any

from hoopline.errors import HooplineError

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

# Searchable text, and the same file from the same numbers.
_SETTINGS: Any = {"svg.fonttype": "none", "svg.hashsalt": "hoopline"}
_CAPTION_WIDTH = 150


@dataclass(frozen=True, slots=True)
class Plate:
    """A figure and its caption, which states the finding.

    Attributes
    ----------
    figure
        The matplotlib figure.
    caption
        The finding, with the number of cases left out.
    """

    figure: "Figure"
    caption: str

    def save(self, folder: Path, stem: str) -> list[Path]:
        """Write `stem.svg` and `stem.png` into a folder; return the paths."""
        from matplotlib import rc_context

        paths = [folder / f"{stem}.svg", folder / f"{stem}.png"]
        with rc_context(_SETTINGS):
            self.figure.savefig(paths[0], metadata={"Date": None, "Description": self.caption})
            self.figure.savefig(paths[1], dpi=150, metadata={"Description": self.caption})
        return paths

    def _repr_html_(self) -> str:
        from matplotlib import rc_context

        text = StringIO()
        with rc_context(_SETTINGS):
            self.figure.savefig(text, format="svg", metadata={"Date": None})
        svg = text.getvalue()
        svg = svg[svg.index("<svg") :].replace("<svg", '<svg role="img"', 1)
        return f'<figure aria-label="{escape(self.caption, quote=True)}">{svg}</figure>'


def blank(columns: int, caption: str) -> "tuple[Figure, list[Axes]]":
    """Return a figure with panels side by side and the caption below."""
    try:
        from matplotlib.figure import Figure
    except ImportError as error:
        raise HooplineError('figures need matplotlib: pip install "hoopline[report]"') from error
    lines = textwrap.wrap(caption, _CAPTION_WIDTH)
    height = 4.6 + 0.2 * len(lines)
    figure = Figure(figsize=(11.0, height))
    bottom = (0.75 + 0.2 * len(lines)) / height
    panels = figure.subplots(1, columns, squeeze=False)[0]
    figure.subplots_adjust(left=0.075, right=0.98, top=0.9, bottom=bottom, wspace=0.22)
    figure.text(0.02, 0.08 / height, "\n".join(lines), fontsize=9, va="bottom", linespacing=1.35)
    for panel in panels:
        panel.grid(visible=True, color="#dddddd", linewidth=0.6)
        panel.set_axisbelow(True)
    return figure, list(panels)
