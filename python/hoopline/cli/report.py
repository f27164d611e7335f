"""`hoopline report`: one page for a design review."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show_written


@click.command("report", short_help="Write one page for a design review.")
@options.file()
@click.option(
    "--into",
    type=click.Path(path_type=Path, dir_okay=False),
    help="The page to write; without it, the stage file's name with .html, in this folder.",
)
@options.paths_as_json
def command(file: Path, into: Path | None, *, as_json: bool) -> None:
    """Write the report of the stage in FILE: one HTML page without scripts, fit for A4."""
    from hoopline.reporting import report
    from hoopline.stage import Stage

    stage = Stage.load(file)
    written = report(stage, into or Path(file.with_suffix(".html").name))
    show_written([written], as_json=as_json)
    judged(met=stage.assess().met)
