"""`hoopline report`: one page for a design review."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged


@click.command("report")
@options.file()
@click.option(
    "--into",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The page to write; without it, the stage file's name with .html, in this folder.",
)
def command(file: Path, into: Path | None) -> None:
    """Write the report of the stage in FILE: one HTML page without scripts, fit for A4."""
    from hoopline.reporting import report
    from hoopline.stage import Stage

    stage = Stage.load(file)
    click.echo(report(stage, into or Path(file.with_suffix(".html").name)))
    judged(met=stage.assess().met)
