"""Small textbook functions, to check a printed number of an assessment by hand.

They are the formulas that the assessment itself is made of. All numbers are floats in SI, angles
in radians; where a number has a unit, a text such as "160 mm" will do. Results are floats in SI.
Every function refuses what is not finite or out of range with `InputError`, and what its source
does not cover with `ValidityError`; none returns a number that is not finite.

Burst pressures of bare metal stand in `metal_burst`, nitrous oxide in `nitrous_oxide`, everything
else here.

>>> from hoopline import textbook
>>> round(textbook.hoop_stress("60 bar gauge", "78.4 mm", "3.4 mm") / 1e6, 2)  # MPa
138.35
>>> round(textbook.nitrous_oxide.saturation_pressure("20 degC") / 1e5, 2)  # bar absolute
50.53
"""

from hoopline.textbook import metal_burst, nitrous_oxide
from hoopline.textbook.ascent import (
    burn_distance,
    burn_speed,
    coast_height,
    drag_factor,
    drag_free_coast,
    drag_free_distance,
    drag_free_speed,
)
from hoopline.textbook.atmosphere import Air, air
from hoopline.textbook.bolts import BoltRow, bolt_row
from hoopline.textbook.closures import closure_area, closure_depth, closure_volume
from hoopline.textbook.code_formulas import (
    cylinder_thickness_by_axial_stress,
    cylinder_thickness_by_hoop_stress,
    ellipsoid_factor,
    ellipsoid_thickness,
    flat_head_thickness,
    sphere_thickness,
    torisphere_factor,
    torisphere_thickness,
    transport_cylinder_stress,
)
from hoopline.textbook.drag import (
    base_drag,
    compressibility,
    cut_off_reynolds,
    fin_wave_drag,
    frontal_area,
    nose_wave_drag,
    turbulent_plate,
    van_driest,
)
from hoopline.textbook.edges import clamped_end_stress, hemisphere_edge_stress, offset_factor
from hoopline.textbook.netting import NettingThickness, netting_thickness
from hoopline.textbook.shells import (
    axial_line_load,
    axial_stress,
    hoop_line_load,
    hoop_stress,
)
from hoopline.textbook.thick_wall import CylinderStress, thick_cylinder_stress
from hoopline.textbook.winding import (
    bands_for_cover,
    elastic_collapse_pressure,
    geodesic_angle,
    isotensoid_depth,
    needed_slippage,
    turning_length,
)

__all__ = [
    "Air",
    "BoltRow",
    "CylinderStress",
    "NettingThickness",
    "air",
    "axial_line_load",
    "axial_stress",
    "bands_for_cover",
    "base_drag",
    "bolt_row",
    "burn_distance",
    "burn_speed",
    "clamped_end_stress",
    "closure_area",
    "closure_depth",
    "closure_volume",
    "coast_height",
    "compressibility",
    "cut_off_reynolds",
    "cylinder_thickness_by_axial_stress",
    "cylinder_thickness_by_hoop_stress",
    "drag_factor",
    "drag_free_coast",
    "drag_free_distance",
    "drag_free_speed",
    "elastic_collapse_pressure",
    "ellipsoid_factor",
    "ellipsoid_thickness",
    "fin_wave_drag",
    "flat_head_thickness",
    "frontal_area",
    "geodesic_angle",
    "hemisphere_edge_stress",
    "hoop_line_load",
    "hoop_stress",
    "isotensoid_depth",
    "metal_burst",
    "needed_slippage",
    "netting_thickness",
    "nitrous_oxide",
    "nose_wave_drag",
    "offset_factor",
    "sphere_thickness",
    "thick_cylinder_stress",
    "torisphere_factor",
    "torisphere_thickness",
    "transport_cylinder_stress",
    "turbulent_plate",
    "turning_length",
    "van_driest",
]
