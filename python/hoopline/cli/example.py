"""`hoopline example`: the packaged examples, to look at and to begin with."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.terminal import show, show_written


@click.command("example")
@click.argument("name", metavar="[NAME]", default="")
@click.option("--into", "into", metavar="FILE", type=click.Path(path_type=Path, dir_okay=False),
              help="File for a copy; one that is there is left as it is.")  # fmt: skip
@options.as_json
def command(name: str, *, into: Path | None, as_json: bool) -> None:
    """List the packaged examples, or print the one of that NAME, or write a copy of it.

    Files that an example names, such as a catalogue, are written beside the copy unless they are
    there.
    """
    from hoopline.packaged import copy_example, example, examples
    from hoopline.text_table import text_table

    if not name:
        if into:
            raise click.UsageError("--into needs the NAME of an example")
        known = examples()
        text = "\n".join(text_table(list(known.items())))
        rows = [{"name": one, "description": what} for one, what in known.items()]
        show(json.dumps(rows, indent=2, ensure_ascii=False) if as_json else text, as_json=as_json)
        return
    if into:
        show_written(copy_example(name, into), as_json=as_json)
        return
    text = example(name).read_text(encoding="utf-8")
    row = json.dumps({"name": name, "text": text}, indent=2, ensure_ascii=False)
    show(row if as_json else text.rstrip(), as_json=as_json)
