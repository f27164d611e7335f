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
    those that begin with it, such as tank.liner, or else those that hold it in the path or in the
    meaning. With --list, --of study and --of catalogue print the tables of those files.
    """
    if of in {"study", "catalogue"} and listed and not (prefix or results):
        from hoopline.file_table import as_json as in_json
        from hoopline.file_table import as_text, file_table

        names = file_table(of)
        show(in_json(names) if as_json else as_text(names), as_json=as_json)
        return
    if prefix or listed or results:
        from hoopline.path_list import paths
        from hoopline.schema import general

        if of != "stage":
            raise click.UsageError("--of goes with the JSON Schema or --list, without a PATH")
        found = paths(prefix, results=results)
        if not found[0].path.startswith(general(prefix)):
            click.echo(f'no path begins with "{prefix}"; these hold it:', err=True)
        show(found.to_json() if as_json else str(found), as_json=as_json)
        if not as_json:
            _tell_rows(found[0].path if len(found) == 1 else "")
        return
    from hoopline.file_schema import json_schema

    show(json.dumps(json_schema(of), indent=2, ensure_ascii=False), as_json=True)


def _tell_rows(path: str) -> None:
    """Name the shipped rows that can stand at a path."""
    from hoopline.catalogue import Catalogue

    names = Catalogue.load().at(path).names if path else ()
    if names:
        click.echo("On record are " + ", ".join(f'"{name}"' for name in names) + ".")
