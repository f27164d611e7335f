"""What a figure is drawn from, told where something else is handed to it."""

from typing import Any

from hoopline.errors import InputError


def drawn_from(value: Any, kind: type, source: str) -> None:
    """Refuse what a figure is not drawn from; `source` tells where the right thing comes from."""
    if not isinstance(value, kind):
        raise InputError(
            f"this figure is drawn from a {kind.__name__}, which {source} gives, and not from "
            f"{_article(type(value).__name__)}"
        )


def _article(name: str) -> str:
    return f"an {name}" if name[:1] in "AEIOUaeiou" else f"a {name}"
