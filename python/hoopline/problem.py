"""One mistake in a stage file or a value: where it stands, what is wrong, what would be right."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake, as `InputError.problems` holds it for editors and notebooks.

    Attributes
    ----------
    file
        The file it stands in; None for what did not come from a file.
    line, column
        Where in the file, both counted from 1, columns in letters; None without a file.
    path
        Dotted path of the input it is about; empty where it is about none.
    message
        What is wrong.
    help
        What would be right; possibly empty.
    snippet
        The line of the file with what is meant marked below, as text; empty without a file.

    Examples
    --------
    >>> import hoopline as hl
    >>> stage = hl.Stage.load(hl.example("petrel_slim"))
    >>> try:
    ...     stage.replace({"tank.outer_diameter": "160 bar"})
    ... except hl.InputError as error:
    ...     (problem,) = error.problems
    >>> problem.path, problem.message
    ('tank.outer_diameter', 'tank.outer_diameter: unit "bar" is not a length')
    >>> problem.help
    'write a number in m, km, cm, um, in, ft, mm'
    """

    file: str | None
    line: int | None
    column: int | None
    path: str
    message: str
    help: str
    snippet: str

    @classmethod
    def of(cls, text: str) -> "Problem":
        """Return the problem of an error that knows no more than its text."""
        return cls(None, None, None, "", text, "", "")
