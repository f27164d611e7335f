"""Figures, one module each. They need matplotlib, from the extra `report`."""

from hoopline.plot.around import around
from hoopline.plot.diameter import apogee_and_fineness
from hoopline.plot.junctions import junctions
from hoopline.plot.load_history import load_history
from hoopline.plot.load_shares import load_shares
from hoopline.plot.margins import margins
from hoopline.plot.optimum import optimum
from hoopline.plot.plate import Plate
from hoopline.plot.tank import tank
from hoopline.plot.tank_mass import apogee_and_tank_mass
from hoopline.plot.trend import mass_trend
from hoopline.plot.vehicle import vehicle
from hoopline.plot.waterfall import mass_waterfall
from hoopline.plot.winding import winding

__all__ = [
    "Plate",
    "apogee_and_fineness",
    "apogee_and_tank_mass",
    "around",
    "junctions",
    "load_history",
    "load_shares",
    "margins",
    "mass_trend",
    "mass_waterfall",
    "optimum",
    "tank",
    "vehicle",
    "winding",
]
