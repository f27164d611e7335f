"""`hoopline study`: the questions of a study file, answered."""

import json
from pathlib import Path

import click

from hoopline.cli import options
from hoopline.cli.ending import judged
from hoopline.cli.terminal import progress, show


@click.command("study", short_help="Answer the sweeps and searches of a study file.")
@options.file()
@options.as_json
@options.into(None, "each answer as text, sweeps as CSV, all as study.json, besides printing")
def command(file: Path, into: Path | None, *, as_json: bool) -> None:
    """Answer the questions in FILE, a study file: sweeps and searches around a stage."""
    from hoopline.optimum import Optimum
    from hoopline.study import Study
    from hoopline.study_text import content, render, write

    study = Study.load(file)
    answers = []
    for question in study.questions:
        with progress(f"{question.kind}: {question.name}") as tell:
            answers.append((question, study.answer(question, progress=tell)))
    text = (
        json.dumps(content(study, answers), indent=2, ensure_ascii=False)
        if as_json
        else render(study, answers)
    )
    # What took long to compute is printed even where it cannot be kept.
    try:
        if into is not None:
            write(study, answers, into)
    finally:
        show(text, as_json=as_json)
    searches = (answer for _, answer in answers if isinstance(answer, Optimum))
    judged(met=all(search.feasible for search in searches))
