"""Every textbook function against a number printed in a source.

The tolerance is half a unit of the last printed digit unless a line says otherwise.
"""

import math

import pytest

from hoopline import textbook as tb
from hoopline.textbook import metal_burst, nitrous_oxide

INCH = 0.0254
PSI = 0.45359237 * 9.80665 / INCH**2
GRAVITY = 9.80665

# S. P. Carroll, ENG1001 course, "Week 12: Pressure Vessels", September 2021, after J. M. Gere,
# "Mechanics of Materials", chapter 8: (1) a sphere, (2) a hemispherical window on 18 bolts, (3) a
# standpipe. R. C. Hibbeler, "Mechanics of Materials", problem 8-3: a pipe.
SHELLS = {
    "standpipe of 16.31 m, MPa": (
        lambda: tb.hoop_stress(1000 * 9.81 * 16.31, 1.0, 0.005) / 1e6,
        32.0,
        0.02,
    ),
    "pipe, psi": (lambda: tb.hoop_stress("65 psi gauge", "4 in", "0.25 in") / PSI, 1040, 1),
    "sphere of 102 mm, 550 MPa over 3.2": (
        lambda: tb.axial_stress(3.5e6, "10 m", "102 mm") / 1e6,
        550 / 3.2,
        0.7,
    ),
    "pipe, hoop line load over its wall, psi": (
        lambda: tb.hoop_line_load("65 psi gauge", "4 in") / (0.25 * INCH) / PSI,
        1040,
        1,
    ),
    "window, N per bolt": (
        lambda: tb.axial_line_load(0.6e6, "400 mm", "400 mm") * 2 * math.pi * 0.4 / 18,
        16755,
        1,
    ),
}

# S. Timoshenko and S. Woinowsky-Krieger, "Theory of Plates and Shells", 2nd edition, 1959, sections
# 115 and 116 (from memory): a clamped end at nu 0.33, of p R / t; a hemisphere at nu 0.3, of
# p R / (2 t). Offset walls: each takes half of the couple (equilibrium).
EDGES = {
    "clamped end, of p R / t": (
        lambda: tb.clamped_end_stress("1 MPa gauge", "1 m", "1 cm", 0.33) / 100e6,
        2.03,
        0.01,
    ),
    "hemisphere, of p R / (2 t)": (
        lambda: tb.hemisphere_edge_stress("1 MPa gauge", "1 m", "1 cm", 0.3) / 50e6,
        1.293,
        0.001,
    ),
    "walls offset by a quarter": (lambda: tb.offset_factor("1 mm", "4 mm"), 1.75, 1e-12),
}

# Solved problems, expertsmind.com, questions 30129029 and 30129035, and mathhelpforum.com, thread
# 117014 (printed there with a slip in its unit). Equivalent stress: at the bore of a closed
# cylinder under internal pressure alone it is sqrt(3) p b^2 / (b^2 - a^2) (from memory, in texts
# on thick cylinders).
THICK = {
    "hoop at the bore": (
        lambda: tb.thick_cylinder_stress(0.04, 0.06, 0.04, 120e6, 40e6).hoop / 1e6,
        168,
        1,
    ),
    "hoop half way": (
        lambda: tb.thick_cylinder_stress(0.04, 0.06, 0.05, 120e6, 40e6).hoop / 1e6,
        116.16,
        0.01,
    ),
    "radial half way": (
        lambda: tb.thick_cylinder_stress(0.04, 0.06, 0.05, 120e6, 40e6).radial / 1e6,
        -68.16,
        0.01,
    ),
    "hoop, squeezed from outside": (
        lambda: tb.thick_cylinder_stress(0.2, 0.25, 0.2, 25e6, 12.4e6).hoop / 1e6,
        45.0,
        0.1,
    ),
    "axial": (
        lambda: tb.thick_cylinder_stress(0.03, 0.05, 0.04, 20e6, 5e6).axial / 1e6,
        3.44,
        0.01,
    ),
    "equivalent at the bore": (
        lambda: tb.thick_cylinder_stress(0.04, 0.06, 0.04, 20e6, 0.0).equivalent / 1e6,
        math.sqrt(3.0) * 20.0 * 9.0 / 5.0,
        1e-9,
    ),
}

# S. Grove, "Optimum fiber orientation in filament wound structures", Journal of Materials Science
# Letters 18, 1999, page 1203: tan^2 a = 2, where no hoop ply is left. At 15 degrees computed
# twice independently.
NETTING = {
    "hoop fibre at the netting angle, mm": (
        lambda: tb.netting_thickness(18e6, 0.075, math.atan(math.sqrt(2)), 25e8, 25e8).hoop * 1e3,
        0.0,
        1e-9,
    ),
    "helical fibre at 15 degrees, mm": (
        lambda: tb.netting_thickness(18e6, 0.075, "15 deg", 25e8, 25e8).helical * 1e3,
        0.28939,
        1e-5,
    ),
    "hoop fibre at 15 degrees, mm": (
        lambda: tb.netting_thickness(18e6, 0.075, "15 deg", 25e8, 25e8).hoop * 1e3,
        0.52061,
        1e-5,
    ),
}

# Force over area, computed twice independently: bore 150 mm, wall 3 mm, 24 M6 of 20.12 mm2, 15 mm
# to the end of the tube, 9 MPa.
ROW = tb.bolt_row(9e6, "150 mm", "3 mm", 24, "6 mm", "6 mm", "20.12 mm2", "15 mm")
BOLTS = {
    "load of a bolt, N": (lambda: ROW.force, 6627, 1),
    "shear in a bolt, MPa": (lambda: ROW.bolt_shear / 1e6, 329.4, 0.1),
    "bearing on the wall, MPa": (lambda: ROW.bearing / 1e6, 368.2, 0.1),
    "shear-out of the wall, MPa": (lambda: ROW.shear_out / 1e6, 92.0, 0.1),
    "net section of the wall, MPa": (lambda: ROW.net_section / 1e6, 157.5, 0.1),
}

# Isotensoid without an opening: the second lemniscate constant, printed without rounding beside
# V. I. Pulov, V. Kovalchuk, I. M. Mladenov, Mathematics 12(4), 557, 2024. Collapse: W. C. Young,
# "Roark's Formulas for Stress and Strain", table 35, case 19a, as worked on a public sheet. All
# else computed twice independently, by quadrature.
WINDING = {
    "isotensoid, depth over radius": (lambda: tb.isotensoid_depth(1.0, 0.0), 0.5990701173, 2e-10),
    "isotensoid turning at 0.3 R": (lambda: tb.isotensoid_depth(1.0, 0.3), 0.618108, 1e-6),
    "collapse of a long tube, psi": (
        lambda: tb.elastic_collapse_pressure(29e6 * PSI, 0.29, "0.375 in", "6.75 in") / PSI,
        1357,
        1,
    ),
    "geodesic at 45 mm, degrees": (
        lambda: math.degrees(tb.geodesic_angle("45 mm", "20 mm")),
        26.388,
        1e-3,
    ),
    "cylinder that turns 15 degrees, mm": (
        lambda: tb.turning_length("75 mm", "15 deg", 0.2) * 1e3,
        1073.9,
        0.1,
    ),
    "bands for cover": (lambda: tb.bands_for_cover("75 mm", "15 deg", "16 mm"), 29, 1),
    "slip on a hemisphere, (r0 - R sin a) / sqrt(R^2 - r0^2)": (
        lambda: tb.needed_slippage("100 mm", "100 mm", "30 deg", "60 mm"),
        0.125,
        1e-9,
    ),
}

# 6061-T6 tube, MPa: computed twice independently, by two Python scripts, from the forms cited in
# src/vessel/metal_burst.rs.
BURST = {
    "mean diameter": (
        lambda: metal_burst.mean_diameter(0.002, 0.15, 310e6) / 1e6,
        8.267,
        1e-3,
    ),
    "von Mises": (lambda: metal_burst.von_mises_limit(0.002, 0.15, 310e6) / 1e6, 9.546, 1e-3),
    "Faupel": (lambda: metal_burst.faupel(0.074, 0.076, 276e6, 310e6) / 1e6, 9.431, 1e-3),
    "Svensson": (lambda: metal_burst.svensson(0.074, 0.076, 310e6, 0.05) / 1e6, 9.111, 1e-3),
    "Zhu and Leis": (lambda: metal_burst.zhu_leis(0.002, 0.15, 310e6, 0.05) / 1e6, 8.635, 1e-3),
}

# Paget Equipment Co., "Example Vessels - Fixed Tube", 27 February 2006, page 1 (as listed in a
# public note); "Hemispherical Head Design Tool", scribd.com, document 62916131; API 510
# preparatory examination, Dammam, September 2004, scribd.com, document 542968623; Pressure Vessel
# Engineering Ltd., "External Pressure Calculations", PVEcalc-3473-1.0, 2010, page 6 (factor M, as
# listed in a public note); "Mechanical Engineering hand book", page 225 (2:1 ellipsoid as K = 1);
# flat head and transport cylinder (49 CFR 178.46(g)) computed twice independently.
CODE = {
    "cylinder by hoop stress, in": (
        lambda: (
            tb.cylinder_thickness_by_hoop_stress("200 psi gauge", "21.0625 in", "18.8 ksi", 1.0)
            / INCH
            + 0.0625
        ),
        0.2880,
        1e-4,
    ),
    "cylinder by axial stress, in": (
        lambda: (
            tb.cylinder_thickness_by_axial_stress("200 psi gauge", "21.0625 in", "18.8 ksi", 1.0)
            / INCH
            + 0.0625
        ),
        0.1743,
        1e-4,
    ),
    "hemisphere, in": (
        lambda: (
            tb.sphere_thickness("3584.6 psi gauge", "96.418 in", "19.585 ksi", 1) / INCH + 0.157
        ),
        9.145,
        1e-3,
    ),
    "factor of a 2:1 ellipsoid": (lambda: tb.ellipsoid_factor("60 in", "15 in"), 1.0, 1e-12),
    "2:1 ellipsoid, in": (
        lambda: tb.ellipsoid_thickness("332 psi gauge", "60 in", 1.0, "20 ksi", 1.0) / INCH,
        0.4988,
        1e-4,
    ),
    "factor of a torisphere": (lambda: tb.torisphere_factor("48 in", "2.88 in"), 1.771, 1e-3),
    "torisphere, in": (
        lambda: tb.torisphere_thickness("235 psi gauge", "72 in", 1.77, "20 ksi", "100 %") / INCH,
        0.7496,
        1e-4,
    ),
    "flat head, mm": (
        lambda: tb.flat_head_thickness(9e6, 0.14, 0.3, 69e6, 1.0) * 1e3,
        27.69,
        0.01,
    ),
    "transport cylinder, psi": (
        lambda: tb.transport_cylinder_stress("3000 psi gauge", "6 in", "5.6 in") / PSI,
        38369,
        1,
    ),
}

# eng-tips.com, thread 13725; vcalc.com, "Volume of a torispherical head", comment by P. Kemp; A.
# Montemayor, "Vessel Design Tips", revision 2, 2003; area of half an oblate spheroid computed
# twice; isotensoid computed twice independently, by quadrature of its equation.
DISH = {"crown_radius_ratio": 1.0, "knuckle_radius_ratio": 0.1}
CLOSURES = {
    "volume of a hemisphere": (
        lambda: tb.closure_volume("hemisphere", 1.0),
        math.pi / 12,
        1e-12,
    ),
    "volume of a 2:1 ellipsoid": (
        lambda: tb.closure_volume("ellipsoid_2_1", 1.0),
        math.pi / 24,
        1e-12,
    ),
    "depth of a 2:1 ellipsoid": (lambda: tb.closure_depth("ellipsoid_2_1", 1.0), 0.25, 1e-12),
    "depth of a dish, mm": (
        lambda: tb.closure_depth("torisphere", 1.0, **DISH) * 1e3,
        193.774,
        1e-3,
    ),
    "area of a 2:1 ellipsoid": (lambda: tb.closure_area("ellipsoid_2_1", 1.0), 1.083985, 1e-6),
    # The curve's 1.396564 R^3 and 4.785182 R^2, and its cap's 0.001179 and 0.188987.
    "volume of an isotensoid turning at 0.2 R": (
        lambda: tb.closure_volume("isotensoid", 2.0, turning_radius_ratio=0.2),
        1.397743,
        1e-6,
    ),
    "area of an isotensoid turning at 0.2 R": (
        lambda: tb.closure_area("isotensoid", 2.0, turning_radius_ratio=0.2),
        4.974169,
        1e-6,
    ),
    "depth of a flat bulkhead": (lambda: tb.closure_depth("flat_clamped", 1.0), 0.0, 1e-12),
}

# CoolProp 8.0.0, model after Lemmon and Span (2006).
NITROUS_OXIDE = {
    "vapour pressure at 20 degC, MPa": (
        lambda: nitrous_oxide.saturation_pressure("20 degC") / 1e6,
        5.052509,
        1e-6,
    ),
    "liquid at 20 degC": (lambda: nitrous_oxide.liquid_density(293.15), 785.1040, 1e-4),
    "vapour at 20 degC": (lambda: nitrous_oxide.vapour_density(293.15), 157.9856, 1e-4),
    "pressure at 50 degC and 700 kg/m3, MPa": (
        lambda: nitrous_oxide.pressure("50 degC", "700 kg/m3") / 1e6,
        13.6381258196,
        1e-9,
    ),
    "liquid-full temperature at 740 kg/m3": (
        lambda: nitrous_oxide.liquid_full_temperature(740.0),
        298.4603068876,
        1e-7,
    ),
}

# R. L. Carmichael, Public Domain Aeronautical Software, table "Atmosphere to 86 km by 2 km (SI
# units)" of the U.S. Standard Atmosphere 1976, row of 10 km.
AIR = {
    "temperature": (lambda: tb.air("10 km").temperature, 223.25, 0.011),
    "pressure": (lambda: tb.air("10 km").pressure, 2.6500e4, 1.1),
    "density": (lambda: tb.air("10 km").density, 4.1351e-1, 1.1e-5),
    "sound speed": (lambda: tb.air("10 km").sound_speed, 299.53, 0.011),
    "viscosity": (lambda: tb.air("10 km").viscosity, 1.4577e-5, 1.1e-9),
}

# Old Dominion University, open course book "Aircraft Design", chapter "Drag build-up"; hand
# values in a public code's tests, citing D. P. Raymer, "Aircraft Design: A Conceptual Approach",
# equations 12.27 and 12.28; van Driest's second method computed twice independently (two scripts,
# bisection); E. L. Fleeman, "Missile Design and System Engineering", AIAA 2012, chapter 2.4, as
# quoted from his course slides, two figures; C. Airiau et al., exercise book on fundamental
# aerodynamics, exercise 9.2 (number computed twice); "Rocket equations", studylib.net, document
# 6841095: k = 0.5 x 1.22 x 0.75 x area = 0.001139 kg/m for a radius of 0.0281559 m.
DRAG = {
    "plate of 4.3 ft": (
        lambda: tb.turbulent_plate(0.962870 * 102.89 * 4.3 * 0.3048 / 1.73188e-5),
        0.003147,
        1e-6,
    ),
    "plate at Mach 0.3": (
        lambda: tb.turbulent_plate(1e6) * tb.compressibility(0.3),
        0.0044335,
        1e-7,
    ),
    "cut-off over 1e6": (lambda: tb.cut_off_reynolds(1.0, "40.5 um", 0.3) / 1e6, 1.6126, 1e-4),
    "van Driest at Mach 2": (lambda: tb.van_driest(2.0, 1e7), 0.002316, 1e-6),
    # 0.125 is printed as 0.13, and just so.
    "base at Mach 2": (lambda: tb.base_drag(2.0), 0.13, 0.0101),
    "cone of fineness 2.4 at Mach 2": (
        lambda: tb.nose_wave_drag("cone", 2.4, 2.0),
        0.14,
        0.01,
    ),
    "double wedge at Mach 1.4": (
        lambda: tb.fin_wave_drag(math.atan(0.05), 1.4),
        0.0101892,
        1e-7,
    ),
    "frontal area by its drag": (
        lambda: 0.5 * 1.22 * 0.75 * tb.frontal_area(2 * 0.0281559),
        0.001139,
        1e-6,
    ),
}

# ProofWiki, Burnout Height of Upward Rocket under Constant Gravity; University of Southampton
# exercise 7651; Fowles and Cassiday, Analytical Mechanics, section 2.4: numbers computed twice
# independently from their formulas. D. Borden, "Calculations and Tribulations", 6 September 2025
# (coast of 329 m from 80.368 m/s). "Rocket equations", as before: 23.5 N on 0.406 kg with k =
# 0.001139 kg/m end at 130.9117 m/s; the inputs are rounded to four figures, the result holds to
# that.
ASCENT = {
    "drag-free speed": (
        lambda: tb.drag_free_speed(2000.0, 130.0, 75.0, GRAVITY, 15.0),
        952.9929,
        1e-4,
    ),
    "drag-free distance": (
        lambda: tb.drag_free_distance(2000.0, 130.0, 75.0, GRAVITY, 15.0),
        6394.8563,
        1e-4,
    ),
    "drag-free coast": (lambda: tb.drag_free_coast(80.368, GRAVITY), 329, 1),
    "drag factor, 1/km": (
        lambda: tb.drag_factor(1.22, 0.75 * tb.frontal_area(2 * 0.0281559), 0.406) * 1e3,
        0.001139 / 0.406 * 1e3,
        0.003,
    ),
    "burn speed": (lambda: tb.burn_speed(80.0 - GRAVITY, 9.8e-5, 5.0), 332.141649, 1e-6),
    "burn speed at last": (
        lambda: tb.burn_speed(23.5 / 0.406 - 9.81, 0.001139 / 0.406, 1000.0),
        130.9117,
        0.06,
    ),
    "burn distance": (
        lambda: tb.burn_distance(80.0 - GRAVITY, 9.8e-5, 5.0),
        853.364379,
        1e-6,
    ),
    "coast height": (
        lambda: tb.coast_height(332.141649, 9.8e-5, GRAVITY),
        3791.301471,
        1e-5,
    ),
}

PRINTED = [
    pytest.param(*row, id=f"{what}")
    for table in (
        SHELLS,
        EDGES,
        THICK,
        NETTING,
        BOLTS,
        WINDING,
        BURST,
        CODE,
        CLOSURES,
        NITROUS_OXIDE,
        AIR,
        DRAG,
        ASCENT,
    )
    for what, row in table.items()
]


@pytest.mark.parametrize(("function", "printed", "unit"), PRINTED)
def test_printed_numbers(function, printed, unit):
    assert function() == pytest.approx(printed, rel=0, abs=0.5 * unit * (1 + 1e-9))
