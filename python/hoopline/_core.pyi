"""
Compiled core of `hoopline`; use the package, not this module.
"""

from _typeshed import Incomplete, SupportsGetItem
from os import PathLike
from typing import Any, Final, SupportsFloat, SupportsIndex, final

__all__ = ["version", "Stage", "air", "axial_line_load", "axial_stress", "bands_for_cover", "base_drag", "bolt_row", "burn_distance", "burn_speed", "burst_by_faupel", "burst_by_mean_diameter", "burst_by_svensson", "burst_by_von_mises_limit", "burst_by_zhu_leis", "check_file", "clamped_end_stress", "closure", "coast_height", "compressibility", "cylinder_thickness_by_axial_stress", "cylinder_thickness_by_hoop_stress", "drag_factor", "drag_free_coast", "drag_free_distance", "drag_free_speed", "elastic_collapse_pressure", "ellipsoid_factor", "ellipsoid_thickness", "fault_word", "fin_wave_drag", "flat_head_thickness", "frontal_area", "geodesic_angle", "hemisphere_edge_stress", "hoop_line_load", "hoop_stress", "isotensoid_area", "isotensoid_depth", "lightest_tank", "log_cut_off_reynolds", "meant", "needed_slippage", "netting_thickness", "nitrous_oxide_liquid_full_temperature", "nitrous_oxide_pressure", "nitrous_oxide_range", "nitrous_oxide_saturation", "nose_wave_drag", "offset_factor", "optimise", "read", "read_study", "reason", "rows_on_record", "schema", "show", "si", "sphere_thickness", "sweep", "thick_cylinder_stress", "torisphere_factor", "torisphere_thickness", "transport_cylinder_stress", "turbulent_plate", "turning_length", "van_driest"]

version: Final[str]
"""
Version of the library.
"""

@final
class Stage:
    """
    A stage as given, resolved and immutable.
    """
    def assess(self, /) -> str:
        """
        The assessment as JSON text.
        """
    def bands(self, /) -> str:
        """
        What the known errors of the drag models mean for the apogee, as JSON text.
        """
    def catalogue(self, /) -> str:
        """
        Every row a name of this stage can stand for, as JSON text.
        """
    @property
    def description(self, /) -> str:
        """
        What the stage is.
        """
    @property
    def digest(self, /) -> str:
        """
        SHA-256 over everything that enters the results.
        """
    def drag_sheet(self, /, altitude: SupportsFloat | SupportsIndex) -> str:
        """
        Drag coefficients over Mach number, as the ascent takes them at an altitude above sea level, m,
        as JSON text.
        """
    def explain(self, /, path: str) -> str:
        """
        Where a result comes from, as JSON text.
        """
    def fittings(self, /) -> str:
        """
        Attachment fittings as JSON text: of each its loads and margins in each case.
        """
    def follow(self, /) -> str:
        """
        The follow rules as JSON text.
        """
    @staticmethod
    def from_json(text: str) -> Stage:
        """
        Reads a stage from nested tables as JSON text; bare numbers count as SI.
        """
    def history(self, /) -> str:
        """
        Every step of the ascent as JSON text: columns with units, and the phase of each row.
        """
    def inputs(self, /) -> str:
        """
        The inputs of this stage as JSON text.
        """
    def junctions(self, /) -> str:
        """
        Stress along the meridian at both junctions of cylinder and closure, at proof pressure, as JSON text.
        """
    def layout(self, /) -> str:
        """
        Outlines of vehicle and tank as JSON text.
        """
    @staticmethod
    def load(path: str | PathLike[str]) -> Stage:
        """
        Loads a stage file.
        """
    def load_history(self, /, nominal: bool) -> str:
        """
        The tank's wall through its pressures as JSON text, of the minimum or the nominal wall.
        """
    @property
    def name(self, /) -> str:
        """
        Name of the stage.
        """
    def replace(self, /, changes: str) -> Stage:
        """
        The stage with inputs replaced; takes a JSON object of dotted paths and values.
        """
    @staticmethod
    def restore(text: str) -> Stage:
        """
        Rebuilds a stage from what `store` wrote.
        """
    def service(self, /) -> str:
        """
        Temperature, cycles and damage of the tank in service as JSON text: values, notes, what is not judged,
        columns of the flight, cautions.
        """
    def source(self, /, path: str) -> str:
        """
        Where an input's value comes from.
        """
    def store(self, /) -> str:
        """
        The stage as text.
        """
    def thrust_sheet(self, /) -> str:
        """
        Thrust and propellant left over time as JSON text.
        """
    def winding(self, /) -> str:
        """
        The overwrap as it is wound as JSON text: rows of plies, totals, paths, build-ups, cautions.
        """

def air(altitude: SupportsFloat | SupportsIndex) -> tuple[float, float, float, float, float]:
    """
    Temperature, K, pressure, Pa, density, kg/m3, sound speed, m/s, and dynamic viscosity, Pa s, of the
    standard atmosphere.
    """

def axial_line_load(pressure: SupportsFloat | SupportsIndex, inner_radius: SupportsFloat | SupportsIndex, mean_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Axial line load of a closed cylinder, N/m.
    """

def axial_stress(pressure: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex) -> float:
    """
    Axial stress of a thin closed cylinder, Pa.
    """

def bands_for_cover(radius: SupportsFloat | SupportsIndex, angle: SupportsFloat | SupportsIndex, band_width: SupportsFloat | SupportsIndex) -> float:
    """
    Bands that cover a cylinder.
    """

def base_drag(mach: SupportsFloat | SupportsIndex) -> float:
    """
    Base drag in the coast.
    """

def bolt_row(pressure: SupportsFloat | SupportsIndex, bore: SupportsFloat | SupportsIndex, wall: SupportsFloat | SupportsIndex, count: SupportsFloat | SupportsIndex, diameter: SupportsFloat | SupportsIndex, hole_diameter: SupportsFloat | SupportsIndex, shear_area: SupportsFloat | SupportsIndex, edge_distance: SupportsFloat | SupportsIndex) -> list[float]:
    """
    Load of a bolt, N, of a row that holds a plug in a bore, and mean stresses in Pa: shear in the bolt, bearing on the
    wall, shear-out of the wall, net section of the wall.
    """

def burn_distance(acceleration: SupportsFloat | SupportsIndex, drag_factor: SupportsFloat | SupportsIndex, time: SupportsFloat | SupportsIndex) -> float:
    """
    Distance of a burn with drag, m.
    """

def burn_speed(acceleration: SupportsFloat | SupportsIndex, drag_factor: SupportsFloat | SupportsIndex, time: SupportsFloat | SupportsIndex) -> float:
    """
    Speed after a burn with drag, m/s.
    """

def burst_by_faupel(inner_radius: SupportsFloat | SupportsIndex, outer_radius: SupportsFloat | SupportsIndex, yields: SupportsFloat | SupportsIndex, ultimate: SupportsFloat | SupportsIndex) -> float:
    """
    Burst pressure by Faupel, Pa.
    """

def burst_by_mean_diameter(wall: SupportsFloat | SupportsIndex, mean_diameter: SupportsFloat | SupportsIndex, ultimate: SupportsFloat | SupportsIndex) -> float:
    """
    Burst pressure by the mean diameter, Pa.
    """

def burst_by_svensson(inner_radius: SupportsFloat | SupportsIndex, outer_radius: SupportsFloat | SupportsIndex, ultimate: SupportsFloat | SupportsIndex, hardening: SupportsFloat | SupportsIndex) -> float:
    """
    Burst pressure by Svensson, Pa.
    """

def burst_by_von_mises_limit(wall: SupportsFloat | SupportsIndex, mean_diameter: SupportsFloat | SupportsIndex, ultimate: SupportsFloat | SupportsIndex) -> float:
    """
    Burst pressure by von Mises' condition, Pa.
    """

def burst_by_zhu_leis(wall: SupportsFloat | SupportsIndex, mean_diameter: SupportsFloat | SupportsIndex, ultimate: SupportsFloat | SupportsIndex, hardening: SupportsFloat | SupportsIndex) -> float:
    """
    Burst pressure by Zhu and Leis, Pa.
    """

def check_file(path: str | PathLike[str]) -> None:
    """
    Reads a stage, study or catalogue file for the mistakes in it.
    """

def clamped_end_stress(pressure: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex, poisson_ratio: SupportsFloat | SupportsIndex) -> float:
    """
    Largest axial stress at a clamped end, Pa.
    """

def closure(kind: str, diameter: SupportsFloat | SupportsIndex, crown_radius_ratio: SupportsFloat | SupportsIndex, knuckle_radius_ratio: SupportsFloat | SupportsIndex, turning_radius_ratio: SupportsFloat | SupportsIndex) -> tuple[float, float, float]:
    """
    Depth, m, volume, m3, and area, m2, of a closure; crown and knuckle only matter to a torisphere, the turning
    radius to an isotensoid.
    """

def coast_height(speed: SupportsFloat | SupportsIndex, drag_factor: SupportsFloat | SupportsIndex, gravity: SupportsFloat | SupportsIndex) -> float:
    """
    Height of a coast with drag, m.
    """

def compressibility(mach: SupportsFloat | SupportsIndex) -> float:
    """
    Compressible over incompressible friction.
    """

def cylinder_thickness_by_axial_stress(pressure: SupportsFloat | SupportsIndex, inside_radius: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of a cylinder by its axial stress, m.
    """

def cylinder_thickness_by_hoop_stress(pressure: SupportsFloat | SupportsIndex, inside_radius: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of a cylinder by its hoop stress, m.
    """

def drag_factor(density: SupportsFloat | SupportsIndex, drag_area: SupportsFloat | SupportsIndex, mass: SupportsFloat | SupportsIndex) -> float:
    """
    Drag over mass and speed squared, 1/m.
    """

def drag_free_coast(speed: SupportsFloat | SupportsIndex, gravity: SupportsFloat | SupportsIndex) -> float:
    """
    Height of a coast without drag, m.
    """

def drag_free_distance(exhaust_speed: SupportsFloat | SupportsIndex, lift_off: SupportsFloat | SupportsIndex, burnout: SupportsFloat | SupportsIndex, gravity: SupportsFloat | SupportsIndex, time: SupportsFloat | SupportsIndex) -> float:
    """
    Distance to burnout without drag, m.
    """

def drag_free_speed(exhaust_speed: SupportsFloat | SupportsIndex, lift_off: SupportsFloat | SupportsIndex, burnout: SupportsFloat | SupportsIndex, gravity: SupportsFloat | SupportsIndex, time: SupportsFloat | SupportsIndex) -> float:
    """
    Burnout speed without drag, m/s.
    """

def elastic_collapse_pressure(elastic_modulus: SupportsFloat | SupportsIndex, poisson_ratio: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex, mean_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Elastic collapse pressure of a long tube, Pa.
    """

def ellipsoid_factor(inside_diameter: SupportsFloat | SupportsIndex, inside_depth: SupportsFloat | SupportsIndex) -> float:
    """
    Factor K of an ellipsoid.
    """

def ellipsoid_thickness(pressure: SupportsFloat | SupportsIndex, inside_diameter: SupportsFloat | SupportsIndex, factor: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of an ellipsoid, m.
    """

def fault_word(code: SupportsIndex) -> str:
    """
    Short name of a fault number; "ok" for zero.
    """

def fin_wave_drag(thickness_ratio: SupportsFloat | SupportsIndex, mach: SupportsFloat | SupportsIndex) -> float:
    """
    Wave drag of a double-wedge fin.
    """

def flat_head_thickness(pressure: SupportsFloat | SupportsIndex, diameter: SupportsFloat | SupportsIndex, attachment: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of a flat head, m.
    """

def frontal_area(diameter: SupportsFloat | SupportsIndex) -> float:
    """
    Frontal area of a body, m2.
    """

def geodesic_angle(radius: SupportsFloat | SupportsIndex, turning_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Winding angle of a geodesic, rad.
    """

def hemisphere_edge_stress(pressure: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex, poisson_ratio: SupportsFloat | SupportsIndex) -> float:
    """
    Largest axial stress beside a hemisphere of equal thickness, Pa.
    """

def hoop_line_load(pressure: SupportsFloat | SupportsIndex, mean_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Hoop line load of a cylinder, N/m.
    """

def hoop_stress(pressure: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex) -> float:
    """
    Hoop stress of a thin closed cylinder, Pa.
    """

def isotensoid_area(diameter: SupportsFloat | SupportsIndex, turning_radius_ratio: SupportsFloat | SupportsIndex, offset: SupportsFloat | SupportsIndex) -> float:
    """
    Area of an isotensoid closure's parallel surface at a distance outside, m2.
    """

def isotensoid_depth(radius: SupportsFloat | SupportsIndex, turning_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Depth of an isotensoid dome, m.
    """

def lightest_tank(stage: Stage, search: str, threads: SupportsIndex | None = None, progress: Any | None = None) -> tuple[str, Incomplete, Incomplete, Incomplete, Incomplete]:
    """
    Finds the lightest tank of a list of options. `search` is JSON text `{"vary": [[path, [value, ...]],
    ...], "subject_to": [[path, at_least, at_most], ...], "keep": count}`; returns JSON text, the three
    numbers of every option's verdict, and the mass of its tank.
    """

def log_cut_off_reynolds(length: SupportsFloat | SupportsIndex, roughness: SupportsFloat | SupportsIndex, mach: SupportsFloat | SupportsIndex) -> float:
    """
    Decimal logarithm of the cut-off Reynolds number.
    """

def meant(given: str, known: SupportsGetItem[int, str], dotted: bool) -> str:
    """
    The question which known name was meant by one that is not known, or an empty text; of dotted
    paths the last name counts.
    """

def needed_slippage(radius: SupportsFloat | SupportsIndex, depth: SupportsFloat | SupportsIndex, angle: SupportsFloat | SupportsIndex, turning_radius: SupportsFloat | SupportsIndex) -> float | None:
    """
    Slippage coefficient that turns a band over a dome, if any does.
    """

def netting_thickness(pressure: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, angle: SupportsFloat | SupportsIndex, helical_stress: SupportsFloat | SupportsIndex, hoop_stress: SupportsFloat | SupportsIndex) -> tuple[float, float]:
    """
    Helical and hoop fibre thickness by netting, m.
    """

def nitrous_oxide_liquid_full_temperature(density: SupportsFloat | SupportsIndex) -> float | None:
    """
    Temperature, K, at which a closed tank of nitrous oxide is full of liquid, if there is one.
    """

def nitrous_oxide_pressure(temperature: SupportsFloat | SupportsIndex, density: SupportsFloat | SupportsIndex) -> float:
    """
    Pressure of nitrous oxide, Pa absolute.
    """

def nitrous_oxide_range() -> list[float]:
    """
    Ends of the nitrous oxide equation of state: temperatures of triple and critical point and the highest,
    K, critical and highest density, kg/m3, highest pressure, Pa absolute.
    """

def nitrous_oxide_saturation(temperature: SupportsFloat | SupportsIndex) -> tuple[float, float, float]:
    """
    Vapour pressure, Pa absolute, and densities of liquid and vapour, kg/m3, of nitrous oxide.
    """

def nose_wave_drag(shape: str, fineness_ratio: SupportsFloat | SupportsIndex, mach: SupportsFloat | SupportsIndex) -> float:
    """
    Wave drag of a nose.
    """

def offset_factor(offset: SupportsFloat | SupportsIndex, thickness: SupportsFloat | SupportsIndex) -> float:
    """
    Surface over mean stress of like walls with offset middles.
    """

def optimise(stage: Stage, problem: str, scan: SupportsIndex | None = None, threads: SupportsIndex | None = None, progress: Any | None = None) -> str:
    """
    Searches the best design. `problem` is JSON text `{"goal": path, "minimise": bool, "vary": [[path,
    [lower, upper] | null, [value, ...] | null], ...], "subject_to": [[path, at_least, at_most], ...] |
    null}`; returns JSON text.
    """

def read(name: str, text: str, quantity: str) -> float:
    """
    A text with a unit in SI; takes the name of what it is, for messages, and the quantity's name of the
    schema.
    """

def read_study(path: str | PathLike[str]) -> tuple[Stage, str]:
    """
    Reads a study file: the stage it is about, and its tables as JSON text.
    """

def reason(code: SupportsIndex, value: SupportsFloat | SupportsIndex) -> str:
    """
    Why a design has no results, as a sentence.
    """

def rows_on_record(path: str | PathLike[str] | None = None) -> str:
    """
    The rows that names can stand for in a file, or without one the shipped ones, as JSON text.
    """

def schema() -> str:
    """
    Every input, result, choice and text, as JSON text.
    """

def show(value: SupportsFloat | SupportsIndex, quantity: str) -> str:
    """
    A value in SI as it is printed, with its unit; takes the quantity's name of the schema.
    """

def si(path: str, text: str) -> float:
    """
    A text with a unit for an input, in SI.
    """

def sphere_thickness(pressure: SupportsFloat | SupportsIndex, inside_radius: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of a sphere, m.
    """

def sweep(stage: Stage, axes: str, threads: SupportsIndex | None = None, progress: Any | None = None) -> tuple[dict, Incomplete, Incomplete]:
    """
    Evaluates a full grid. `axes` is JSON text `[[path, [value, ...]], ...]`; returns result columns
    by path, status numbers and status values.
    """

def thick_cylinder_stress(inner_radius: SupportsFloat | SupportsIndex, outer_radius: SupportsFloat | SupportsIndex, radius: SupportsFloat | SupportsIndex, internal: SupportsFloat | SupportsIndex, external: SupportsFloat | SupportsIndex) -> tuple[float, float, float, float]:
    """
    Hoop, radial, axial and von Mises stress in a thick closed cylinder, Pa.
    """

def torisphere_factor(crown_radius: SupportsFloat | SupportsIndex, knuckle_radius: SupportsFloat | SupportsIndex) -> float:
    """
    Factor M of a torisphere.
    """

def torisphere_thickness(pressure: SupportsFloat | SupportsIndex, crown_radius: SupportsFloat | SupportsIndex, factor: SupportsFloat | SupportsIndex, stress: SupportsFloat | SupportsIndex, efficiency: SupportsFloat | SupportsIndex) -> float:
    """
    Code thickness of a torisphere, m.
    """

def transport_cylinder_stress(pressure: SupportsFloat | SupportsIndex, outside: SupportsFloat | SupportsIndex, inside: SupportsFloat | SupportsIndex) -> float:
    """
    Wall stress of a transport cylinder at its test pressure, Pa.
    """

def turbulent_plate(log_reynolds: SupportsFloat | SupportsIndex) -> float:
    """
    Mean friction of a smooth turbulent plate, from the decimal logarithm of its Reynolds number.
    """

def turning_length(radius: SupportsFloat | SupportsIndex, angle: SupportsFloat | SupportsIndex, slippage_coefficient: SupportsFloat | SupportsIndex) -> float:
    """
    Length of cylinder that turns a band, m.
    """

def van_driest(mach: SupportsFloat | SupportsIndex, log_reynolds: SupportsFloat | SupportsIndex) -> float:
    """
    Friction by van Driest's second method, from the decimal logarithm of the Reynolds number.
    """
