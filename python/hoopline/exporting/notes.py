"""What stands beside exported tables: where they come from and what to know before using them."""

from collections.abc import Iterable, Iterator, Mapping

from hoopline.assessment import Assessment
from hoopline.folding import folded
from hoopline.text import provenance

_CONVENTIONS = (
    "Files are UTF-8, comma-separated after RFC 4180, one header line. Units are SI and stand in "
    "brackets in the header; [SI] means that the column `unit` of the row has it; a header without "
    "brackets has no unit. Numbers have full double precision; an empty cell means that there is "
    "no such number. Texts that a spreadsheet would take for a formula have an apostrophe in front."
)


def notes(assessment: Assessment, tables: Iterable[tuple[str, str, Mapping[str, str]]]) -> str:
    """Return the text: stage, provenance, conventions, files, cautions, safety."""
    return "\n".join(_lines(assessment, tables)) + "\n"


def _lines(
    assessment: Assessment, tables: Iterable[tuple[str, str, Mapping[str, str]]]
) -> Iterator[str]:
    yield assessment.name
    yield "=" * len(assessment.name)
    if assessment.description:
        yield _wrapped(assessment.description)
    yield ""
    for name, text in provenance(assessment):
        yield _wrapped(f"{name}: {text}", rest="  ")
    yield f"digest in full: {assessment.digest}"
    yield ""
    yield _wrapped(_CONVENTIONS)
    for name, about, columns in tables:
        yield ""
        yield name
        yield _wrapped(about, first="  ", rest="  ")
        for header, doc in columns.items():
            yield _wrapped(f"{header}: {doc}", first="    ", rest="      ")
    yield ""
    if assessment.cautions:
        yield "Cautions"
        for caution in assessment.cautions:
            yield _wrapped(f"- {caution}", first="  ", rest="    ")
        yield ""
    yield _wrapped(assessment.safety)


def _wrapped(text: str, first: str = "", rest: str = "") -> str:
    return folded(text, first, rest, long_words=False)
