"""`hoopline demo`: the example studies."""

from pathlib import Path

import click

from hoopline.cli import options


@click.command("demo")
@options.into("hoopline-demo", "what is written")
def command(into: Path) -> None:
    """Assess and sweep the example stages; write figures, texts and a table."""
    from hoopline import demo

    demo.run(into, tell=click.echo)
