"""Errors of hoopline. All derive from `HooplineError`; each also derives from a built-in one."""

from collections.abc import Iterable

from hoopline.problem import Problem


def with_article(word: str) -> str:
    """Return a word with the article in front that goes with its first letter.

    >>> with_article("length"), with_article("acceleration")
    ('a length', 'an acceleration')
    """
    return f"{'an' if word[:1] in tuple('aeiou') else 'a'} {word}"


def kind_of(value: object) -> str:
    """Return what a value is, for messages that refuse it.

    >>> kind_of(3), kind_of("text")
    ('an int', 'a str')
    """
    return with_article(type(value).__name__)


class HooplineError(Exception):
    """Anything that hoopline refuses or cannot do.

    Attributes
    ----------
    problems
        What is wrong, one `Problem` per mistake, in the order of the file. An error that knows no
        more than its text has one problem with that.
    coloured
        The text with the marks of terminals for colour, where it has any.

    Examples
    --------
    Every mistake of a file with its place:

    >>> import tempfile
    >>> from pathlib import Path
    >>> import hoopline as hl
    >>> text = hl.example("petrel_slim").read_text(encoding="utf-8")
    >>> text = text.replace('outer_diameter = "160 mm"', 'outer_diameter = "160 bar"')
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     file = Path(folder) / "tank.toml"
    ...     _ = file.write_text(text.replace("count = 4", "count = 7"), encoding="utf-8")
    ...     try:
    ...         hl.Stage.load(file)
    ...     except hl.InputError as error:
    ...         found = error.problems
    >>> [(one.path, one.column) for one in found]
    [('tank.outer_diameter', 18), ('fins.count', 9)]
    >>> print(found[1].snippet.splitlines()[1].split(" | ")[1])
    count = 7
    """

    problems: tuple[Problem, ...]
    coloured: str

    def __init__(
        self, message: str = "", problems: Iterable[Problem] = (), coloured: str = ""
    ) -> None:
        super().__init__(message)
        self.problems = tuple(problems) or (Problem.of(message),)
        self.coloured = coloured or message


class InputError(HooplineError, ValueError):
    """A stage, a path or a value is wrong; the message names it and says what would be right."""


class ValidityError(HooplineError, ValueError):
    """A model was asked for something outside the range its source covers."""


class ConvergenceError(HooplineError, ArithmeticError):
    """A solution was not reached."""


class DataError(HooplineError, ValueError):
    """A data file cannot be opened, or a line of it cannot be read."""
