"""The command `hoopline`. Everything heavy is imported inside the command that needs it."""

from pathlib import Path

import click

from hoopline.errors import HooplineError

BAD_INPUT = 2


class Refusal(click.ClickException):
    """An error of ours, printed without a traceback."""

    exit_code = BAD_INPUT


def _version(context: click.Context, _parameter: click.Parameter, asked: bool) -> None:
    if asked and not context.resilient_parsing:
        from hoopline import _core

        click.echo(f"hoopline {_core.version}")
        context.exit()


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.option(
    "--version", is_flag=True, is_eager=True, expose_value=False, callback=_version,
    help="Print the version and stop.",
)  # fmt: skip
def main() -> None:
    """Rocket-stage mass and drag trade studies."""


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print JSON in SI units instead of text.")
def assess(file: Path, *, as_json: bool) -> None:
    """Assess the stage in FILE: pressures, dimensions, masses, margins, drag, ascent."""
    from hoopline.stage import Stage

    try:
        assessment = Stage.load(file).assess()
    except HooplineError as error:
        raise Refusal(str(error)) from error
    click.echo(assessment.to_json() if as_json else str(assessment))


@main.command()
@click.option(
    "--into",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("hoopline-demo"),
    show_default=True,
    help="Folder to write to; it is made if it is not there.",
)
def demo(into: Path) -> None:
    """Assess and sweep the example stages; write figures, texts and a table."""
    from hoopline import demo as example_studies

    try:
        example_studies.run(into, tell=click.echo)
    except (HooplineError, OSError) as error:
        raise Refusal(str(error)) from error
