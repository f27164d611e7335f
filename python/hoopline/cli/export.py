"""`hoopline export`: tables for team mates."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show


@click.command("export", short_help="Write CSV tables for team mates.")
@options.file()
@options.into("hoopline-export", "the tables")
@click.option("--json", "as_json", is_flag=True, help="Print the paths written as JSON.")
def command(file: Path, into: Path, *, as_json: bool) -> None:
    """Write the stage in FILE as CSV tables with units in every header.

    Mass and centre of gravity, thrust, drag coefficients, history of the ascent, margins,
    requirements, inputs; provenance.txt says what they rest on.
    """
    from hoopline.exporting import export
    from hoopline.stage import Stage

    assessment = Stage.load(file).assess()
    paths = [str(path) for path in export(assessment, into)]
    show(json.dumps({"written": paths}, indent=2) if as_json else "\n".join(paths), as_json=as_json)
    judged(met=assessment.met)
