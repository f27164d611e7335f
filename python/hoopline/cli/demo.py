"""`hoopline demo`: the example studies."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.terminal import show


@click.command("demo", short_help="Run the example studies.")
@options.into("hoopline-demo", "what is written")
@click.option("--json", "as_json", is_flag=True, help="Print the paths written as JSON.")
def command(into: Path, *, as_json: bool) -> None:
    """Assess and sweep the example stages; write figures, texts and a table."""
    from hoopline import demo

    if as_json:
        demo.run(into, tell=lambda _line: None)
        written = sorted(str(file) for file in into.iterdir())
        show(json.dumps({"written": written}, indent=2), as_json=True)
    else:
        demo.run(into, tell=click.echo)
