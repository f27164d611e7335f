"""How series are told apart: by colour, line style and marker, so that none is needed alone."""

from dataclasses import dataclass
from typing import Any

# Colours after M. Okabe and K. Ito, "Color Universal Design", 2008: distinct with deficient colour
# vision.
BLUE, VERMILION, GREEN, PURPLE, ORANGE = "#0072B2", "#D55E00", "#009E73", "#CC79A7", "#E69F00"
GREY = "#555555"


@dataclass(frozen=True, slots=True)
class Look:
    """Colour, line style and marker of one series."""

    colour: str
    line: Any
    marker: str


LOOKS = (
    Look(BLUE, "solid", "o"),
    Look(VERMILION, (0, (6, 2)), "s"),
    Look(GREEN, (0, (1, 1.2)), "^"),
    Look(PURPLE, (0, (6, 2, 1, 2)), "D"),
    Look(ORANGE, (0, (3, 1, 1, 1, 1, 1)), "v"),
)


def look(index: int) -> Look:
    """Look of the series at that position; it repeats after five."""
    return LOOKS[index % len(LOOKS)]
