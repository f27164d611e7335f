"""`hoopline schema`: what a file may hold, for editors and for readers."""

import json

import click

from hoopline.cli.terminal import show


@click.command("schema", short_help="Print what a file may hold.")
@click.argument("prefix", metavar="[PATH]", default="")
@click.option("--list", "listed", is_flag=True, help="Print a table of every path instead.")
@click.option("--results", is_flag=True, help="Print a table of every result instead.")
@click.option("--of", metavar="KIND", default="stage", show_default=True,
              help="Kind of file: stage, study or catalogue.")  # fmt: skip
@click.option("--json", "as_json", is_flag=True, help="Print the table as JSON in SI units.")
def command(prefix: str, *, listed: bool, results: bool, of: str, as_json: bool) -> None:
    """Print the JSON Schema of a file, for editors that complete and check while you write.

    With --list, or a PATH, print a table instead: path, kind, units, limits, meaning. PATH keeps
    those that begin with it, such as tank.liner.
    """
    if prefix or listed or results:
        from hoopline.path_list import paths

        if of != "stage":
            raise click.UsageError("--of goes with the JSON Schema; the table is that of a stage")
        found = paths(prefix, results=results)
        show(found.to_json() if as_json else str(found), as_json=as_json)
        return
    from hoopline.file_schema import json_schema

    show(json.dumps(json_schema(of), indent=2, ensure_ascii=False), as_json=True)
