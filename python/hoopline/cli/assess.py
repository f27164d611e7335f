"""`hoopline assess`: one stage, judged."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show


@click.command("assess")
@options.file()
@options.as_json
def command(file: Path, *, as_json: bool) -> None:
    """Assess the stage in FILE: pressures, dimensions, masses, margins, drag, ascent."""
    from hoopline.stage import Stage

    assessment = Stage.load(file).assess()
    show(assessment.to_json() if as_json else str(assessment), as_json=as_json)
    judged(met=assessment.met)
