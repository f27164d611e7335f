"""Arguments and options that several commands share, so that they read alike."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

Decorator = Callable[[Callable[..., Any]], Callable[..., Any]]

as_json = click.option(
    "--json", "as_json", is_flag=True, help="Print JSON in SI units instead of text."
)
paths_as_json = click.option(
    "--json", "as_json", is_flag=True, help="Print the paths written as JSON."
)


def file(name: str = "file", *, count: int = 1) -> Decorator:
    """Return an argument that is a file; count -1 takes any number of them."""
    path = click.Path(path_type=Path)
    return click.argument(name, type=path, nargs=count, required=True)


def into(default: str | None, what: str) -> Decorator:
    """Return the option that names the folder to write to."""
    return click.option(
        "--into",
        type=click.Path(path_type=Path, file_okay=False),
        default=None if default is None else Path(default),
        show_default=True,
        help=f"Folder for {what}; it is made if it is not there.",
    )
