"""`hoopline check`: every mistake of a file, where it stands."""

import json
from dataclasses import asdict
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import REFUSED
from hoopline.cli.terminal import takes_colour
from hoopline.errors import HooplineError


@click.command("check", short_help="Tell every mistake of a file where it stands.")
@options.file("files", count=-1)
@options.as_json
def command(files: tuple[Path, ...], *, as_json: bool) -> None:
    """Read the stages, studies and catalogues in FILES and tell every mistake, without flying them.

    With --json each file stands with the text of its mistakes and with a list of them: file, line,
    column, path, message, help, snippet.
    """
    found = {str(file): _refusal(file) for file in files}
    if as_json:
        rows = [_row(file, error) for file, error in found.items()]
        click.echo(json.dumps(rows, indent=2, ensure_ascii=False))
    else:
        for file, error in found.items():
            click.echo(f"{file}: no mistakes found" if error is None else _text(error))
    if any(found.values()):
        raise SystemExit(REFUSED)


def _refusal(file: Path) -> HooplineError | None:
    from hoopline import _core
    from hoopline.file_names import given_path

    try:
        _core.check_file(given_path("file", file))
    except HooplineError as error:
        return error
    return None


def _text(error: HooplineError) -> str:
    return error.coloured if takes_colour() else str(error)


def _row(file: str, error: HooplineError | None) -> dict[str, object]:
    problems = () if error is None else error.problems
    return {
        "file": file,
        "mistakes": "" if error is None else str(error),
        "problems": [asdict(one) for one in problems],
    }
