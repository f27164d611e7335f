"""`hoopline assess`: one stage, judged."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show


@click.command("assess", short_help="Judge one stage: pressures, masses, margins, ascent.")
@options.file()
@options.as_json
@click.option(
    "--explain",
    "paths",
    metavar="PATH",
    multiple=True,
    help="Say instead where this result comes from; margins means the one that governs, an id "
    "of a requirement what decides it. May be given several times.",
)
def command(file: Path, paths: tuple[str, ...], *, as_json: bool) -> None:
    """Assess the stage in FILE: pressures, dimensions, masses, margins, drag, ascent."""
    from hoopline.stage import Stage

    assessment = Stage.load(file).assess()
    if paths:
        from hoopline.explanation.text import together

        pages = [assessment.explain(path) for path in paths]
        text = (
            json.dumps([json.loads(page.to_json()) for page in pages], indent=2)
            if as_json
            else together(pages)
        )
    else:
        text = assessment.to_json() if as_json else str(assessment)
    show(text, as_json=as_json)
    judged(met=assessment.met)
