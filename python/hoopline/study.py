"""A study file: a stage and the questions asked about it."""

import json
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Literal

from hoopline import _core
from hoopline.file_names import given_path
from hoopline.optimising import optimise
from hoopline.optimum import Optimum
from hoopline.spacing import linspace
from hoopline.stage import Stage
from hoopline.sweeping import Sweep, sweep

Progress = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a study.

    Attributes
    ----------
    kind
        "sweep" or "optimise".
    name
        Its name, unique among those of its kind.
    vary
        {dotted path: list of values, or (from, to) of a search}.
    results
        Of a sweep: the results its table shows; empty for the usual ones.
    goal, minimise
        Of a search: the result sought, and whether small is good.
    subject_to
        Of a search: {result path: (at least, at most)}; None for margins and requirements.
    scan
        Of a search: points along each range; None for the preset.
    """

    kind: Literal["sweep", "optimise"]
    name: str
    vary: Mapping[str, Any]
    results: tuple[str, ...] = ()
    goal: str = ""
    minimise: bool = True
    subject_to: Mapping[str, tuple[Any, Any]] | None = None
    scan: int | None = None


@dataclass(frozen=True, slots=True)
class Study:
    """A stage and the questions asked about it.

    Attributes
    ----------
    name, description
        As written in the file, possibly empty.
    stage
        The stage.
    questions
        The questions: sweeps, then searches, each in the order of the file.

    Examples
    --------
    >>> import hoopline as hl
    >>> study = hl.Study.load(hl.example("petrel_study"))
    >>> [question.name for question in study.questions]
    ['diameter', 'lightest wall', 'stock wall and dome']
    """

    name: str
    description: str
    stage: Stage
    questions: tuple[Question, ...]

    @classmethod
    def load(cls, path: str | os.PathLike[str]) -> "Study":
        """Read a study file (TOML), and the stage file it names.

        Raises
        ------
        InputError
            Something in either file is wrong; each mistake is told where it stands.
        DataError
            A file cannot be opened or read.
        """
        core, text = _core.read_study(given_path("path", path))
        tree = json.loads(text)
        questions = [_sweep(table) for table in tree.get("sweep", ())]
        questions += [_search(table) for table in tree.get("optimise", ())]
        return cls(
            name=tree.get("name", ""),
            description=tree.get("description", ""),
            stage=Stage._of(core),
            questions=tuple(questions),
        )

    def answer(
        self, question: Question, *, threads: int | None = None, progress: Progress | None = None
    ) -> Sweep | Optimum:
        """Run one question.

        Parameters
        ----------
        question
            One of `questions`.
        threads
            How many threads; all cores by default. The answer does not depend on it.
        progress
            Called now and then with (done, in all).

        Raises
        ------
        InputError
            The question cannot be begun, such as a path that follows from others.
        """
        if question.kind == "sweep":
            return sweep(self.stage, question.vary, threads=threads, progress=progress)
        return optimise(
            self.stage,
            question.vary,
            minimise=question.goal if question.minimise else None,
            maximise=None if question.minimise else question.goal,
            subject_to=question.subject_to,
            scan=question.scan,
            threads=threads,
            progress=progress,
        )


def _sweep(table: Mapping[str, Any]) -> Question:
    return Question(
        kind="sweep",
        name=table["name"],
        vary={row["path"]: _values(row) for row in table["vary"]},
        results=tuple(table.get("results", ())),
    )


def _search(table: Mapping[str, Any]) -> Question:
    bounds = table.get("subject_to")
    sides = ("at_least", "at_most")
    return Question(
        kind="optimise",
        name=table["name"],
        vary={row["path"]: _values(row) for row in table["vary"]},
        goal=table.get("minimise") or table["maximise"],
        minimise="minimise" in table,
        subject_to=None
        if bounds is None
        else {row["response"]: tuple(row.get(side) for side in sides) for row in bounds},
        scan=table.get("scan"),
    )


def _values(row: Mapping[str, Any]) -> list[Any] | tuple[Any, Any]:
    if "values" in row:
        values: list[Any] = row["values"]
        return values
    if "count" in row:
        return linspace(row["from"], row["to"], row["count"])
    return row["from"], row["to"]
