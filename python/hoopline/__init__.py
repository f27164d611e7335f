"""Rocket-stage mass and drag trade studies: from the propellant tank to the apogee.

Numbers are SI floats inside; values are given as text with a unit ("160 mm", "60 bar gauge").

>>> import hoopline as hl
>>> stage = hl.Stage.load(hl.example("petrel_slim"))
>>> assessment = stage.assess()
>>> sweep = hl.sweep(stage, {"tank.outer_diameter": hl.linspace("130 mm", "240 mm", 56)})
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

from hoopline.errors import (
    ConvergenceError,
    DataError,
    HooplineError,
    InputError,
    ValidityError,
)
from hoopline.problem import Problem

if TYPE_CHECKING:
    from hoopline import plot, textbook
    from hoopline.assessment import Assessment
    from hoopline.catalogue import Catalogue
    from hoopline.comparison import Comparison, compare
    from hoopline.comparison.trend import MassTrend, mass_trend
    from hoopline.explanation import Explanation
    from hoopline.exporting import export
    from hoopline.file_schema import json_schema
    from hoopline.fittings import Fitting
    from hoopline.history import History
    from hoopline.junctions import Junction
    from hoopline.lightest import lightest_tank
    from hoopline.load_history import LoadHistory
    from hoopline.optimising import optimise
    from hoopline.optimum import Candidate, Optimum
    from hoopline.packaged import example
    from hoopline.path_list import paths
    from hoopline.reporting import report
    from hoopline.requirement import Requirement
    from hoopline.service import Service
    from hoopline.spacing import linspace
    from hoopline.stage import Stage
    from hoopline.study import Study
    from hoopline.sweeping import Sweep, sweep
    from hoopline.tank_options import LightestTank, TankOption
    from hoopline.winding import Winding

    __version__: str

__all__ = [
    "Assessment",
    "Candidate",
    "Catalogue",
    "Comparison",
    "ConvergenceError",
    "DataError",
    "Explanation",
    "Fitting",
    "History",
    "HooplineError",
    "InputError",
    "Junction",
    "LightestTank",
    "LoadHistory",
    "MassTrend",
    "Optimum",
    "Problem",
    "Requirement",
    "Service",
    "Stage",
    "Study",
    "Sweep",
    "TankOption",
    "ValidityError",
    "Winding",
    "__version__",
    "compare",
    "example",
    "export",
    "json_schema",
    "lightest_tank",
    "linspace",
    "mass_trend",
    "optimise",
    "paths",
    "plot",
    "report",
    "sweep",
    "textbook",
]

# Loaded when first asked for, so that importing the package costs almost nothing.
_HOMES = {
    "Assessment": "hoopline.assessment",
    "Candidate": "hoopline.optimum",
    "Catalogue": "hoopline.catalogue",
    "Comparison": "hoopline.comparison",
    "Explanation": "hoopline.explanation",
    "Fitting": "hoopline.fittings",
    "History": "hoopline.history",
    "Junction": "hoopline.junctions",
    "LightestTank": "hoopline.tank_options",
    "LoadHistory": "hoopline.load_history",
    "MassTrend": "hoopline.comparison.trend",
    "Optimum": "hoopline.optimum",
    "Requirement": "hoopline.requirement",
    "Service": "hoopline.service",
    "Stage": "hoopline.stage",
    "Study": "hoopline.study",
    "Sweep": "hoopline.sweeping",
    "TankOption": "hoopline.tank_options",
    "Winding": "hoopline.winding",
    "compare": "hoopline.comparison",
    "example": "hoopline.packaged",
    "export": "hoopline.exporting",
    "json_schema": "hoopline.file_schema",
    "lightest_tank": "hoopline.lightest",
    "linspace": "hoopline.spacing",
    "mass_trend": "hoopline.comparison.trend",
    "optimise": "hoopline.optimising",
    "paths": "hoopline.path_list",
    "report": "hoopline.reporting",
    "sweep": "hoopline.sweeping",
}


def __getattr__(name: str) -> Any:
    if name in {"plot", "textbook"}:
        return import_module(f"hoopline.{name}")
    if name == "__version__":
        return import_module("hoopline._core").version
    if name not in _HOMES:
        raise AttributeError(f"module 'hoopline' has no attribute {name!r}")
    value = getattr(import_module(_HOMES[name]), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted(__all__)
