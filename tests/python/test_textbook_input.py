"""What textbook functions take, and what they refuse."""

import math
import subprocess
import sys
from decimal import Decimal

import numpy as np
import pytest

import hoopline as hl
from hoopline import textbook as tb
from hoopline.textbook import metal_burst, nitrous_oxide

# A good call of every function: what is bad about one argument at a time follows from it.
CALLS = {
    tb.frontal_area: (0.16,),
    tb.hoop_stress: (6e6, 0.08, 0.003),
    tb.axial_stress: (6e6, 0.08, 0.003),
    tb.hoop_line_load: (6e6, 0.08),
    tb.axial_line_load: (6e6, 0.08, 0.081),
    tb.thick_cylinder_stress: (0.04, 0.06, 0.05, 12e6, 4e6),
    tb.netting_thickness: (18e6, 0.075, 0.26, 2.5e9, 2.5e9),
    tb.bolt_row: (9e6, 0.15, 0.003, 24.0, 0.006, 0.0064, 20.12e-6, 0.015),
    tb.clamped_end_stress: (6e6, 0.08, 0.003, 0.33),
    tb.hemisphere_edge_stress: (6e6, 0.08, 0.003, 0.33),
    tb.offset_factor: (0.001, 0.003),
    tb.geodesic_angle: (0.075, 0.02),
    tb.turning_length: (0.075, 0.5, 0.2),
    tb.needed_slippage: (0.08, 0.08, 0.5, 0.04),
    tb.bands_for_cover: (0.075, 0.26, 0.016),
    tb.isotensoid_depth: (0.075, 0.02),
    tb.elastic_collapse_pressure: (70e9, 0.33, 0.003, 0.077),
    metal_burst.mean_diameter: (0.002, 0.15, 310e6),
    metal_burst.von_mises_limit: (0.002, 0.15, 310e6),
    metal_burst.faupel: (0.074, 0.076, 276e6, 310e6),
    metal_burst.svensson: (0.074, 0.076, 310e6, 0.05),
    metal_burst.zhu_leis: (0.002, 0.15, 310e6, 0.05),
    tb.cylinder_thickness_by_hoop_stress: (6e6, 0.075, 138e6, 0.85),
    tb.cylinder_thickness_by_axial_stress: (6e6, 0.075, 138e6, 0.85),
    tb.sphere_thickness: (6e6, 0.075, 138e6, 0.85),
    tb.ellipsoid_factor: (0.15, 0.0375),
    tb.ellipsoid_thickness: (6e6, 0.15, 1.0, 138e6, 0.85),
    tb.torisphere_factor: (0.15, 0.015),
    tb.torisphere_thickness: (6e6, 0.15, 1.5, 138e6, 0.85),
    tb.flat_head_thickness: (6e6, 0.15, 0.3, 138e6, 0.85),
    tb.transport_cylinder_stress: (20e6, 0.152, 0.142),
    nitrous_oxide.saturation_pressure: (293.15,),
    nitrous_oxide.liquid_density: (293.15,),
    nitrous_oxide.vapour_density: (293.15,),
    nitrous_oxide.pressure: (323.15, 700.0),
    nitrous_oxide.liquid_full_temperature: (740.0,),
    tb.air: (1000.0,),
    tb.turbulent_plate: (1e7,),
    tb.compressibility: (2.0,),
    tb.cut_off_reynolds: (4.0, 30e-6, 2.0),
    tb.van_driest: (2.0, 1e7),
    tb.base_drag: (2.0,),
    tb.fin_wave_drag: (0.05, 2.0),
    tb.drag_free_speed: (2000.0, 130.0, 75.0, 9.8, 15.0),
    tb.drag_free_distance: (2000.0, 130.0, 75.0, 9.8, 15.0),
    tb.drag_free_coast: (100.0, 9.8),
    tb.drag_factor: (1.2, 0.01, 50.0),
    tb.burn_speed: (70.0, 1e-4, 5.0),
    tb.burn_distance: (70.0, 1e-4, 5.0),
    tb.coast_height: (300.0, 1e-4, 9.8),
}
WORDS = {
    tb.closure_depth: ("hemisphere", 0.15),
    tb.closure_volume: ("hemisphere", 0.15),
    tb.closure_area: ("hemisphere", 0.15),
    tb.nose_wave_drag: ("cone", 3.0, 2.0),
}


def arguments():
    return [
        pytest.param(function, place, id=f"{function.__name__}-{place}")
        for function, good in {**CALLS, **WORDS}.items()
        for place in range(len(good))
        if not isinstance(good[place], str)
    ]


def test_every_public_function_is_called():
    public = [getattr(tb, name) for name in tb.__all__]
    public += [value for module in (metal_burst, nitrous_oxide) for value in vars(module).values()]
    own = {
        value
        for value in public
        if callable(value)
        and getattr(value, "__module__", "").startswith("hoopline.textbook")
        and not isinstance(value, type)
        and not value.__name__.startswith("_")
    }
    assert own == {*CALLS, *WORDS}


@pytest.mark.parametrize(("function", "place"), arguments())
@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf, 1e300, -1e300, 10**400])
def test_what_is_not_finite_or_absurd_is_refused_by_name(function, place, bad):
    good = list({**CALLS, **WORDS}[function])
    name = function.__code__.co_varnames[place]
    good[place] = bad
    with pytest.raises(hl.InputError, match=rf"^{name} = .*(outside|finite).* to "):
        function(*good)


@pytest.mark.parametrize(("function", "place"), arguments())
@pytest.mark.parametrize("bad", [None, True, [1.0], 1j, np.array([1.0, 2.0])])
def test_what_is_no_number_is_refused_by_name(function, place, bad):
    good = list({**CALLS, **WORDS}[function])
    name = function.__code__.co_varnames[place]
    good[place] = bad
    with pytest.raises(hl.InputError, match=f"^{name} = .* is a .*; give a number"):
        function(*good)


@pytest.mark.parametrize("function", [*CALLS, *WORDS])
def test_results_are_finite(function):
    result = function(*{**CALLS, **WORDS}[function])
    values = result if isinstance(result, tuple) else (result,)
    assert all(isinstance(value, float) and math.isfinite(value) for value in values)


@pytest.mark.parametrize("value", [0.16, "160 mm", Decimal("0.16"), np.float64(0.16), "16 cm"])
def test_numbers_of_any_kind_and_texts_with_a_unit(value):
    assert tb.frontal_area(value) == pytest.approx(math.pi / 4 * 0.16**2, rel=1e-12)
    assert type(tb.frontal_area(value)) is float


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: tb.frontal_area(-0.16), r"diameter = -160 mm is outside 0\.001 mm to .*in m$"),
        (lambda: tb.frontal_area("160"), "diameter: .* has no unit; write a number in m"),
        (lambda: tb.frontal_area("160 bar"), 'diameter: unit "bar" is not a length'),
        (lambda: tb.hoop_line_load("60 bar", 0.08), "gauge or absolute; this one is gauge"),
        (lambda: tb.burn_speed(70.0, "1 1/m", 5.0), "drag_factor = .* give a number in 1/m"),
        (
            lambda: nitrous_oxide.saturation_pressure("40 degC"),
            r"temperature = 40 degC is outside -90\.82 degC to 36\.371 degC",
        ),
        (
            lambda: nitrous_oxide.liquid_full_temperature(400.0),
            r"density = 400 kg/m3 is outside 452\.93 kg/m3",
        ),
        (
            lambda: nitrous_oxide.liquid_full_temperature(452.931_477_618_786_04),
            "never fills with liquid",
        ),
        (
            lambda: tb.netting_thickness(18e6, 0.075, "60 deg", 25e8, 25e8),
            r"angle = 60 deg is outside 0 deg to 54\.736 deg",
        ),
        (
            lambda: tb.geodesic_angle("75 mm", "80 mm"),
            "radius = 75 mm must be larger than turning_radius = 80 mm",
        ),
        (
            lambda: tb.thick_cylinder_stress(0.06, 0.06, 0.06, 1e6, 0.0),
            "outer_radius = 60 mm must be larger than inner_radius = 60 mm",
        ),
        (
            lambda: tb.thick_cylinder_stress(0.04, 0.06, 0.07, 1e6, 0.0),
            "radius = 70 mm is outside 40 mm to 60 mm",
        ),
        (
            lambda: tb.bolt_row(9e6, 0.15, 0.003, 24.5, 0.006, 0.0064, 2e-5, 0.015),
            r"count = 24\.5 is no whole number",
        ),
        (
            lambda: tb.bolt_row(9e6, 0.15, 0.003, 24, 0.006, 0.0064, 2e-5, 0.0032),
            r"edge_distance = 3\.2 mm must be larger than half of hole_diameter = 3\.2 mm",
        ),
        (
            lambda: tb.bolt_row(9e6, 0.15, 0.003, 76, 0.006, 0.0064, 2e-5, 0.015),
            "the pitch of the holes = 6.32.* mm must be larger than hole_diameter = 6.4 mm",
        ),
        (
            lambda: tb.axial_line_load(6e6, 0.08, 0.075),
            "mean_radius = 75 mm must be larger than inner_radius = 80 mm",
        ),
        (
            lambda: metal_burst.faupel(0.076, 0.074, 276e6, 310e6),
            "outer_radius = 74 mm must be larger than inner_radius = 76 mm",
        ),
        (
            lambda: metal_burst.faupel(0.074, 0.076, 310e6, 276e6),
            "ultimate = 276 MPa is outside 310 MPa to",
        ),
        (
            lambda: tb.drag_free_speed(2000.0, 75.0, 75.0, 9.8, 15.0),
            "lift_off = 75 kg must be larger than burnout = 75 kg",
        ),
        (lambda: tb.closure_depth("ellipsoid", 0.15), 'closure.*did you mean "ellipsoid_2_1"'),
        (lambda: tb.closure_depth("torisphere", 0.15), "needs crown_radius_ratio and knuckle"),
        (
            lambda: tb.closure_depth("hemisphere", 0.15, crown_radius_ratio=1.0),
            'of a torisphere, not of "hemisphere"',
        ),
        (lambda: tb.closure_depth("isotensoid", 0.15), "needs turning_radius_ratio"),
        (
            lambda: tb.closure_depth("hemisphere", 0.15, turning_radius_ratio=0.3),
            'turning_radius_ratio is of an isotensoid, not of "hemisphere"',
        ),
        (
            lambda: tb.closure_area("torisphere", 0.15, offset=0.001),
            'offset is of an isotensoid, not of "torisphere"',
        ),
        (
            lambda: tb.closure_volume("isotensoid", 0.15, turning_radius_ratio=0.75),
            r"turning_radius_ratio = 0\.75 is outside 0\.01 to 0\.7",
        ),
        (lambda: tb.nose_wave_drag("ogive", 3.0, 2.0), 'unknown nose shape "ogive"'),
        (lambda: tb.nose_wave_drag("cone", 3.0, 0.8), r"mach = 0\.8 is outside 1\.2 to 4"),
    ],
)
def test_what_is_wrong_is_said(call, message):
    with pytest.raises(hl.InputError, match=message):
        call()


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: tb.hoop_stress(6e6, 0.08, 0.009), "tenth of radius.*thick_cylinder_stress"),
        (lambda: metal_burst.mean_diameter(0.02, 0.15, 310e6), "tenth of mean_diameter"),
        (
            lambda: tb.cylinder_thickness_by_hoop_stress(60e6, 0.075, 138e6, 1.0),
            r"pressure = 600 bar gauge is above 0\.385 x stress x efficiency = 531\.3 bar gauge",
        ),
        (lambda: tb.sphere_thickness(100e6, 0.075, 138e6, 1.0), r"above 0\.665 x"),
        (lambda: tb.cylinder_thickness_by_axial_stress(180e6, 0.075, 138e6, 1.0), r"above 1\.25 x"),
        # The printed example of page 6 of PVEcalc-3473-1.0 comes to 0.0017 of its crown radius.
        (
            lambda: tb.torisphere_thickness("30 psi gauge", "48 in", 1.771, "18.35 ksi", 0.85),
            r"2\.0769 mm, is below 0\.002 of the crown radius",
        ),
        (
            lambda: tb.ellipsoid_thickness("30 psi gauge", "48 in", 1.0, "18.35 ksi", 0.85),
            "the knuckle may buckle",
        ),
        (
            lambda: nitrous_oxide.pressure("20 degC", 500.0),
            r"between vapour, 157\.99 kg/m3, and liquid, 785\.1 kg/m3, at 20 degC",
        ),
        (lambda: nitrous_oxide.pressure("60 degC", 1100.0), "is above 500 bar absolute"),
        (lambda: tb.isotensoid_depth("75 mm", "65 mm"), "leaves no isotensoid dome"),
        (
            lambda: tb.elastic_collapse_pressure(70e9, 0.33, "9 mm", "80 mm"),
            "the formula is for thin tubes",
        ),
    ],
)
def test_what_a_source_does_not_cover_is_refused(call, message):
    with pytest.raises(hl.ValidityError, match=message):
        call()


def test_it_is_loaded_when_asked_for_and_without_numpy():
    script = (
        "import sys, hoopline as hl\n"
        "assert 'hoopline.textbook' not in sys.modules\n"
        "hl.textbook.frontal_area(0.16)\n"
        "assert 'numpy' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", script], check=True)
