"""Values as a user gives them, turned into the JSON text that the compiled module reads."""

import json
import math
import os
from collections.abc import Mapping
from decimal import Decimal
from numbers import Integral, Real
from typing import Any

from hoopline import schema
from hoopline.errors import InputError, kind_of
from hoopline.file_names import given_path
from hoopline.number import as_float


def to_json(values: Any) -> str:
    """Turn a stage, or changes to one, into JSON.

    Text and SI numbers pass; quantities of a unit package are recognised by their methods
    `to(unit)` and `magnitude`. A number that is not finite is refused with its path.
    """
    return json.dumps(_plain(values, ""), allow_nan=False)


def changes_to_json(changes: Mapping[str, Any]) -> str:
    """Turn {dotted path: value} into JSON."""
    if not isinstance(changes, Mapping):
        raise InputError('changes are a mapping such as {"tank.outer_diameter": "160 mm"}')
    plain = {_name(path, ""): _plain(value, str(path)) for path, value in changes.items()}
    return json.dumps(plain, allow_nan=False)


def plain_value(value: Any, path: str) -> Any:
    """Turn one value of a path into text, a finite number or a list of such."""
    return _plain(value, path)


def _name(key: Any, prefix: str) -> str:
    if not isinstance(key, str):
        raise InputError(f"{prefix or 'the stage'}: {key!r} is not a name; names are text")
    return key


def _plain(value: Any, path: str) -> Any:
    if value is None:
        raise InputError(f"{path or 'the stage'} is None; leave out what is not given")
    if isinstance(value, str | bool):
        return value
    if isinstance(value, Real | Decimal):
        return _number(value, path)
    if isinstance(value, Mapping):
        return {
            _name(key, path): _plain(entry, f"{path}.{key}" if path else key)
            for key, entry in value.items()
        }
    if hasattr(value, "magnitude") and hasattr(value, "to"):
        return _quantity(value, path)
    if isinstance(value, os.PathLike):
        return str(given_path(path or "the stage", value))
    if hasattr(value, "tolist"):
        return _plain(value.tolist(), path)
    if isinstance(value, list | tuple):
        return [_plain(entry, f"{path}[{index}]") for index, entry in enumerate(value)]
    raise InputError(
        f"{path or 'the stage'}: {kind_of(value)} is not readable; give text with a unit "
        "or a number in SI"
    )


def _number(value: Real | Decimal, path: str) -> int | float:
    number = as_float(value)
    if not math.isfinite(number):
        raise InputError(f"{path or 'the value'} is {number}; a finite number is needed")
    return int(value) if isinstance(value, Integral) else number


def _quantity(value: Any, path: str) -> float:
    field = schema.inputs().get(path) or schema.results().get(path)
    if field is None:
        raise schema.unknown_input(path, schema.inputs())
    if field.quantity in {"gauge pressure", "absolute pressure"}:
        basis = field.quantity.removesuffix(" pressure")
        raise InputError(
            f"{path}: a quantity object does not say whether it is gauge or absolute; this one is "
            f'{basis}: write it as text, such as "60 bar {basis}"'
        )
    unit = field.unit.replace("2", "**2").replace("3", "**3").replace(" ", "*")
    try:
        magnitude = value.to(unit).magnitude
    except Exception as error:  # any unit package may be at work here
        raise InputError(f"{path}: {value} is not a {field.quantity}: {error}") from error
    return float(_number(magnitude, path))
