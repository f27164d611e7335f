"""Errors of hoopline. All derive from `HooplineError`; each also derives from a built-in one."""


class HooplineError(Exception):
    """Anything that hoopline refuses or cannot do."""


class InputError(HooplineError, ValueError):
    """A stage, a path or a value is wrong; the message names it and says what would be right."""


class ValidityError(HooplineError, ValueError):
    """A model was asked for something outside the range its source covers."""


class ConvergenceError(HooplineError, ArithmeticError):
    """A solution was not reached."""


class DataError(HooplineError, ValueError):
    """A data file cannot be opened, or a line of it cannot be read."""
