"""`hoopline catalogue`: the rows that names in a file can stand for."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.terminal import show


@click.command("catalogue")
@click.argument("files", metavar="[FILE]...", type=click.Path(path_type=Path), nargs=-1)
@options.as_json
def command(files: tuple[Path, ...], *, as_json: bool) -> None:
    """Print the rows on record: metals, fibres, rule sets, classes of maturity, with their values.

    Each stands with its source, and with the paths at which its name can be written. FILES are
    catalogues, or stages and studies; their rows are printed too.
    """
    from hoopline.catalogue import Catalogue

    rows = Catalogue.load(*files)
    show(rows.to_json() if as_json else str(rows), as_json=as_json)
