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
_SETTINGS: Any = {
    "svg.fonttype": "none", "svg.hashsalt": "hoopline", "text.parse_math": False,
}  # fmt: skip
# Width of a figure that fills a page, inches: A4 between margins of 15 mm; own choice.
PAGE_WIDTH = 7.08
_CAPTION_WIDTH = 150
_CAPTION = "caption"


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

    def __post_init__(self) -> None:
        """Take every text as it stands: a name with two dollar signs is no formula."""
        from matplotlib.text import Text

        for text in self.figure.findobj(Text):
            text.set_parse_math(False)

    def save(self, folder: Path, stem: str) -> list[Path]:
        """Write `stem.svg` and `stem.png` into a folder; return the paths."""
        from matplotlib import rc_context

        paths = [folder / f"{stem}.svg", folder / f"{stem}.png"]
        with rc_context(_SETTINGS):
            self.figure.savefig(paths[0], metadata={"Date": None, "Description": self.caption})
            self.figure.savefig(paths[1], dpi=150, metadata={"Description": self.caption})
        return paths

    def drawn(self) -> str:
        """Return the figure as SVG text without its caption, letters as outlines.

        It looks the same wherever it is shown, and the same figure gives the same text.
        """
        from matplotlib import rc_context
        from matplotlib.transforms import Bbox

        captions = [text for text in self.figure.texts if text.get_gid() == _CAPTION]
        width, height = self.figure.get_size_inches()
        bottom = 0.0
        for text in captions:
            bottom = text.get_window_extent().y1 / self.figure.dpi
            text.set_visible(False)
        page = StringIO()
        with rc_context({**_SETTINGS, "svg.fonttype": "path"}):
            self.figure.savefig(
                page, format="svg", metadata={"Date": None},
                bbox_inches=Bbox([[0.0, bottom], [width, height]]),
            )  # fmt: skip
        for text in captions:
            text.set_visible(True)
        svg = page.getvalue()
        return svg[svg.index("<svg") :]

    def _repr_html_(self) -> str:
        from matplotlib import rc_context

        text = StringIO()
        with rc_context(_SETTINGS):
            self.figure.savefig(text, format="svg", metadata={"Date": None})
        svg = text.getvalue()
        fitted = '<svg role="img" style="max-width: 100%; height: auto"'
        svg = svg[svg.index("<svg") :].replace("<svg", fitted, 1)
        return f'<figure aria-label="{escape(self.caption, quote=True)}">{svg}</figure>'


def sheet(width: float, height: float, caption: str) -> "tuple[Figure, float]":
    """Return a blank figure with the caption below, and the height in inches that it takes.

    Parameters
    ----------
    width, height
        Size in inches, the caption's height not counted.
    caption
        The finding.
    """
    try:
        from matplotlib.figure import Figure
    except ImportError as error:
        raise HooplineError('figures need matplotlib: pip install "hoopline[report]"') from error
    lines = textwrap.wrap(caption, round(_CAPTION_WIDTH * width / 11.0))
    taken = 0.2 * len(lines) + 0.15
    total = height + taken
    figure = Figure(figsize=(width, total))
    figure.text(
        0.02, 0.08 / total, "\n".join(lines), fontsize=9, va="bottom", linespacing=1.35,
        gid=_CAPTION,
    )  # fmt: skip
    return figure, taken


def blank(columns: int, caption: str) -> "tuple[Figure, list[Axes]]":
    """Return a figure with panels side by side and the caption below."""
    figure, taken = sheet(11.0, 4.45, caption)
    bottom = (0.6 + taken) / (4.45 + taken)
    panels = figure.subplots(1, columns, squeeze=False)[0]
    figure.subplots_adjust(left=0.075, right=0.98, top=0.9, bottom=bottom, wspace=0.22)
    for panel in panels:
        panel.grid(visible=True, color="#dddddd", linewidth=0.6)
        panel.set_axisbelow(True)
    return figure, list(panels)
