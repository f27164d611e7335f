"""`hoopline compare`: what differs between designs."""

from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import show


@click.command("compare", short_help="Tell what differs between designs.")
@options.file("files", count=-1)
@options.as_json
@click.option("--markdown", is_flag=True, help="Print Markdown instead of text.")
@click.option("--everything", is_flag=True, help="List results too that do not differ as printed.")
@click.option(
    "--trend",
    is_flag=True,
    help="Follow the mass statement of one design through FILES, oldest first, instead.",
)
@options.into(None, "what is printed as .txt, .md and .json, and the mass figure, besides printing")
def command(
    files: tuple[Path, ...],
    *,
    markdown: bool,
    as_json: bool,
    everything: bool,
    trend: bool,
    into: Path | None,
) -> None:
    """Compare the designs in FILES with the first: stage files or saved assessments.

    A saved assessment is what `hoopline assess FILE --json` prints, in a file that ends in .json.
    """
    if as_json and markdown:
        raise click.UsageError("--json and --markdown exclude each other")
    if trend:
        if everything:
            raise click.UsageError("--trend and --everything exclude each other")
        _follow(files, markdown=markdown, as_json=as_json, into=into)
        return
    from hoopline.comparison import compare

    found = compare(*files, everything=everything)
    if into is not None:
        from hoopline.comparison.files import write

        write(found, into)
    text = found.to_json() if as_json else found.markdown().rstrip() if markdown else str(found)
    show(text, as_json=as_json or markdown)
    judged(met=all(side.met for side in found.sides))


def _follow(files: tuple[Path, ...], *, markdown: bool, as_json: bool, into: Path | None) -> None:
    """Print the mass trend; what is judged is the last statement."""
    from hoopline.comparison.trend import mass_trend

    found = mass_trend(*files)
    if into is not None:
        from hoopline.comparison.files import write_trend

        write_trend(found, into)
    text = found.to_json() if as_json else found.markdown().rstrip() if markdown else str(found)
    show(text, as_json=as_json or markdown)
    judged(met=found.statements[-1].met)
