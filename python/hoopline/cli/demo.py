"""`hoopline demo`: the example studies."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.terminal import show_written


@click.command("demo", short_help="Run the example studies.")
@options.into("hoopline-demo", "what is written")
@options.paths_as_json
def command(into: Path, *, as_json: bool) -> None:
    """Assess and sweep the example stages; write figures, texts and a table."""
    from hoopline import demo

    if as_json:
        demo.run(into, tell=lambda _line: None)
        show_written(sorted(into.iterdir()), as_json=True)
    else:
        demo.run(into, tell=click.echo)
