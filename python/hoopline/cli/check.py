"""`hoopline check`: every mistake of a file, where it stands."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import REFUSED
from hoopline.errors import HooplineError


@click.command("check")
@options.file("files", count=-1)
@options.as_json
def command(files: tuple[Path, ...], *, as_json: bool) -> None:
    """Read the stages and studies in FILES and tell every mistake, without flying them."""
    found = {str(file): _mistakes(file) for file in files}
    if as_json:
        rows = [{"file": file, "mistakes": text} for file, text in found.items()]
        click.echo(json.dumps(rows, indent=2, ensure_ascii=False))
    else:
        for file, text in found.items():
            click.echo(text or f"{file}: no mistakes found")
    if any(found.values()):
        raise SystemExit(REFUSED)


def _mistakes(file: Path) -> str:
    from hoopline.stage import Stage
    from hoopline.study import Study, is_study

    try:
        if is_study(file):
            Study.load(file)
        else:
            Stage.load(file)
    except HooplineError as error:
        return str(error)
    return ""
