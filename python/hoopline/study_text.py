"""The answers to a study, as text, as JSON, and as files."""

import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from hoopline import _core, schema
from hoopline.comma_separated import cells, table
from hoopline.folding import folded
from hoopline.optimum import Optimum
from hoopline.optimum_text import without_safety
from hoopline.study import Question, Study
from hoopline.sweeping import Sweep
from hoopline.whole_files import write_whole

Answers = list[tuple[Question, Sweep | Optimum]]

_NO_WORD = re.compile(r"[^a-z0-9]+")
_ROWS = 40

# Most letters of a question's name in the name of a file; the number before tells them apart.
_LONGEST = 60


def render(study: Study, answers: Answers) -> str:
    """Return the answers one below the other, each under its name, and the safety paragraph."""
    name = ": ".join(part for part in (study.name, study.description) if part)
    blocks = [name] if name else []
    blocks += [_answer(question, answer) for question, answer in answers]
    return "\n\n".join([*blocks, folded(_safety())])


def _answer(question: Question, answer: Sweep | Optimum) -> str:
    heading = f"{question.kind}: {question.name}"
    if isinstance(answer, Sweep):
        text = answer.text(question.results, rows=_ROWS)
    else:
        text = without_safety(answer)
    return f"{heading}\n{'=' * len(heading)}\n{text}"


def content(study: Study, answers: Answers) -> dict[str, Any]:
    """Return the answers as plain values, numbers in SI."""
    return {
        "name": study.name,
        "description": study.description,
        "stage": study.stage.name,
        "digest": study.stage.digest,
        "version": _core.version,
        "answers": [
            {"kind": question.kind, "name": question.name, "answer": _plain(answer)}
            for question, answer in answers
        ],
    }


def _plain(answer: Sweep | Optimum) -> Mapping[str, Any]:
    if isinstance(answer, Optimum):
        plain: dict[str, Any] = json.loads(answer.to_json())
        return plain
    columns = {name: cells(column) for name, column in answer.table("si").items()}
    return {"columns": columns, "safety": _safety()}


def _safety() -> str:
    text: str = schema.document()["safety"]
    return text


def write(study: Study, answers: Answers, folder: Path) -> list[Path]:
    """Write each answer as text, sweeps as CSV too, and all of them as JSON; all files or none."""

    def fill(waiting: Path) -> list[str]:
        texts = {"study.json": json.dumps(content(study, answers), indent=2, ensure_ascii=False)}
        for number, (question, answer) in enumerate(answers, start=1):
            word = _NO_WORD.sub("_", question.name.lower()).strip("_")[:_LONGEST].strip("_")
            stem = f"{number:02}_{question.kind}{f'_{word}' if word else ''}"
            texts[f"{stem}.txt"] = f"{_answer(question, answer)}\n\n{_safety()}\n"
            if isinstance(answer, Sweep):
                columns = answer.table("printed")
                rows = zip(*map(cells, columns.values()), strict=True)
                texts[f"{stem}.csv"] = table(list(columns), rows)
        for name, text in texts.items():
            (waiting / name).write_bytes(text.encode())
        return list(texts)

    return write_whole(folder, fill)
