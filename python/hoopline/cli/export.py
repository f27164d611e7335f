"""`hoopline export`: tables for team mates."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show_written


@click.command("export", short_help="Write CSV tables for team mates.")
@options.file()
@options.into("hoopline-export", "the tables")
@options.paths_as_json
def command(file: Path, into: Path, *, as_json: bool) -> None:
    """Write the stage in FILE as CSV tables with units in every header.

    Mass and centre of gravity, thrust, drag coefficients, history of the ascent, margins,
    requirements, inputs; provenance.txt says what they rest on.
    """
    from hoopline.exporting import export
    from hoopline.stage import Stage

    assessment = Stage.load(file).assess()
    show_written(export(assessment, into), as_json=as_json)
    judged(met=assessment.met)
