"""Printed numbers of an assessment, each again from the inputs in a few lines.

Formulas are written out or taken from `hl.textbook`. What comes from the assessment itself is named
where it is used: the size of the fins, which are solved for, and the largest acceleration.
"""

import math
from types import SimpleNamespace

import pytest

from hoopline import textbook
from hoopline.textbook import nitrous_oxide

PI = math.pi
GRAVITY = 9.80665


@pytest.fixture(scope="module")
def printed(stage):
    return stage.assess()


@pytest.fixture(scope="module")
def given(stage):
    """Return the inputs, those of a ply as lists."""
    values = SimpleNamespace(**{row.path.replace(".", "_"): row.value for row in stage.inputs()})
    for name in ("angle", "fibre_thickness", "translation_efficiency"):
        path = "tank.overwrap.ply[{}]." + name
        setattr(values, name, [stage[path.format(ply)] for ply in (0, 1)])
    return values


@pytest.fixture(scope="module")
def tank(given):
    """Return the tank's dimensions, m, in the order they follow from outside."""
    wrap = sum(given.fibre_thickness) / given.tank_overwrap_fibre_volume_fraction
    liner = given.tank_outer_diameter - 2.0 * wrap
    bore = liner - 2.0 * given.tank_liner_wall
    cylinder = (given.tank_volume - PI / 6.0 * bore**3) / (PI / 4.0 * bore**2)
    least = given.tank_liner_wall * (1.0 - given.tank_liner_wall_under_tolerance)
    dome = given.tank_fore_closure_thickness
    length = cylinder + bore + 2.0 * dome
    return SimpleNamespace(
        liner=liner, bore=bore, cylinder=cylinder, least=least, dome=dome, length=length
    )


@pytest.fixture(scope="module")
def oxidiser(given):
    """Return the oxidiser on board, kg: liquid and saturated vapour share the tank."""
    liquid = nitrous_oxide.liquid_density(given.propellant_fill_temperature)
    vapour = nitrous_oxide.vapour_density(given.propellant_fill_temperature)
    ullage = given.propellant_ullage
    return given.tank_volume * ((1.0 - ullage) * liquid + ullage * vapour)


@pytest.fixture(scope="module")
def meop(given, oxidiser):
    """Return the gauge pressure of the closed tank at the soak temperature, Pa."""
    density = oxidiser / given.tank_volume
    soak = given.pressure_soak_temperature
    assert nitrous_oxide.liquid_full_temperature(density) < soak  # the liquid fills the tank
    return nitrous_oxide.pressure(soak, density) - textbook.air(given.site_altitude).pressure


@pytest.fixture(scope="module")
def burned(given, oxidiser):
    """Return the propellant burned, kg."""
    oxidiser_burned = oxidiser * (1.0 - given.propellant_oxidiser_residual)
    return oxidiser_burned * (1.0 + 1.0 / given.propellant_oxidiser_to_fuel_ratio)


@pytest.fixture(scope="module")
def body(given, tank, printed):
    """Return the body outside, and one fin on the root chord as printed."""
    diameter = given.tank_outer_diameter
    room = PI / 4.0 * (diameter - 2.0 * given.skin_thickness) ** 2
    bays = (given.payload_bay_volume + given.recovery_bay_volume) / room
    nose = given.nose_fineness_ratio * diameter
    # Von Karman's profile, r(x) / R = sqrt((t - sin(2 t) / 2) / pi) with cos t = 1 - 2 x / l.
    steps = 20_000
    angles = (math.acos(1.0 - 2.0 * (k + 0.5) / steps) for k in range(steps))
    fullness = sum(math.sqrt((t - math.sin(2.0 * t) / 2.0) / PI) for t in angles) / steps
    nose_area = PI * diameter * nose * fullness
    wetted = nose_area + PI * diameter * (bays + tank.length + given.motor_length)
    root = printed.geometry.fin_root_chord
    chord = root * (1.0 + given.fins_taper_ratio) / 2.0
    return SimpleNamespace(
        diameter=diameter,
        length=nose + bays + tank.length + given.motor_length,
        bays=bays,
        nose_area=nose_area,
        wetted=wetted,
        chord=chord,
        fin_area=chord * root * given.fins_span_ratio,
    )


def test_oxidiser(printed, oxidiser):
    assert oxidiser == pytest.approx(printed.load.oxidiser, rel=1e-12)


def test_pressures(printed, meop):
    assert meop == pytest.approx(printed.pressures.meop_closed, rel=1e-12)
    assert 1.5 * meop == pytest.approx(printed.pressures.proof, rel=1e-12)
    assert 3.0 * meop == pytest.approx(printed.pressures.burst, rel=1e-12)


def test_length_of_the_cylinder(printed, tank):
    assert tank.cylinder == pytest.approx(printed.geometry.cylinder_length, rel=1e-12)
    assert tank.length == pytest.approx(printed.geometry.tank_length, rel=1e-12)


def test_masses_of_liner_and_closures(given, printed, tank):
    ring = PI / 4.0 * (tank.liner**2 - tank.bore**2)
    metal = given.tank_liner_metal_density
    assert ring * tank.cylinder * metal == pytest.approx(printed.tank.liner_mass, rel=1e-12)
    # Two domes between spheres; the area at mid-thickness errs by (t / D)^2 / 3.
    domes = PI / 6.0 * ((tank.bore + 2.0 * tank.dome) ** 3 - tank.bore**3) * metal
    assert domes == pytest.approx(printed.tank.closure_mass, rel=3e-4)
    sphere = 2.0 * textbook.closure_area("hemisphere", tank.bore + tank.dome)
    assert sphere * tank.dome * metal == pytest.approx(printed.tank.closure_mass, rel=1e-12)


def test_mass_of_the_fibre(given, printed, tank):
    helical, hoop = given.fibre_thickness
    share = given.tank_overwrap_fibre_volume_fraction
    inner = tank.liner / 2.0 + helical / share / 2.0
    outer = tank.liner / 2.0 + (helical + hoop / 2.0) / share
    # Each fibre that leaves the cylinder takes half a great circle over a dome and comes back.
    strands = 2.0 * PI * inner * helical * math.cos(given.angle[0])
    volume = 2.0 * PI * tank.cylinder * (inner * helical + outer * hoop) + strands * PI * inner
    mass = volume * given.tank_overwrap_fibre_density
    assert mass == pytest.approx(printed.tank.fibre_mass, rel=1e-12)


def test_frontal_area(given, printed):
    nozzle = math.sqrt(4.0 / PI * given.motor_exit_area)
    largest = max(given.tank_outer_diameter, given.motor_case_diameter, nozzle)
    area = PI / 4.0 * largest**2
    assert area == pytest.approx(printed.airframe.frontal_area, rel=1e-12)


def test_impulse_and_burn_time(given, printed, burned):
    impulse = burned * given.motor_specific_impulse * GRAVITY
    assert impulse == pytest.approx(printed.thrust.impulse, rel=1e-12)
    assert impulse / given.motor_thrust == pytest.approx(printed.thrust.burn_time, rel=1e-12)


def test_proof_margin_of_the_girth_seam(given, printed, tank, meop):
    """Liner and plies share strains: `[K] {axial, hoop strain} = {axial, hoop line load}`."""
    proof = 1.5 * meop
    inner, wall = tank.bore / 2.0, tank.least
    mean = inner + wall / 2.0
    axial = textbook.axial_line_load(proof, inner, mean)
    hoop = textbook.hoop_line_load(proof, inner)  # half a ring in equilibrium over the bore
    nu = given.tank_liner_metal_poisson_ratio
    plane = given.tank_liner_metal_elastic_modulus / (1.0 - nu**2)
    fibre = given.tank_overwrap_fibre_elastic_modulus
    helical, around = (fibre * thickness for thickness in given.fibre_thickness)
    cos2 = math.cos(given.angle[0]) ** 2
    sin2 = math.sin(given.angle[0]) ** 2
    a = plane * wall + helical * cos2**2
    b = plane * wall * nu + helical * cos2 * sin2
    c = plane * wall + helical * sin2**2 + around * math.sin(given.angle[1]) ** 4
    strain_axial = (axial * c - hoop * b) / (a * c - b * b)
    strain_hoop = (hoop * a - axial * b) / (a * c - b * b)
    stress = plane * (strain_axial + nu * strain_hoop)
    dome = tank.dome * (1.0 - given.tank_fore_closure_thickness_under_tolerance)
    line_load = stress * wall
    strength = given.tank_liner_metal_weld_zone_yield_strength * min(wall, dome)
    assert strength / line_load - 1.0 == pytest.approx(printed.margins.girth_seam_proof, rel=1e-9)


def test_burst_margin_in_hoop_direction(given, printed, tank, meop):
    """Liner at yield, fibres at delivered strength, as far as the helical ply is balanced."""
    inner, wall = tank.bore / 2.0, tank.least
    mean = inner + wall / 2.0
    delivered = [
        given.tank_overwrap_fibre_strength * share * thickness
        for share, thickness in zip(
            given.translation_efficiency, given.fibre_thickness, strict=True
        )
    ]
    along = delivered[0] * math.cos(given.angle[0]) ** 2
    across = delivered[0] * math.sin(given.angle[0]) ** 2
    rest = given.tank_liner_metal_yield_strength * wall
    rest += delivered[1] * math.sin(given.angle[1]) ** 2
    hoop = textbook.hoop_line_load(1.0, mean)
    axial = textbook.axial_line_load(1.0, inner, mean)
    pressure = (rest + across) / hoop
    balanced = hoop - across / along * axial
    if balanced > 0.0:
        pressure = min(pressure, rest / balanced)
    required = 3.0 * (meop + printed.flight_loads.acceleration_head)
    assert pressure / required - 1.0 == pytest.approx(printed.margins.hoop_burst, rel=1e-9)


def test_acceleration_head(given, printed, tank):
    """Contents at ignition under the largest acceleration, which is taken as printed.

    The larger of liquid under vapour as filled, and of the mean density over the inside length, as
    in a tank soaked full of liquid.
    """
    liquid = given.tank_volume * (1.0 - given.propellant_ullage)
    dome = textbook.closure_volume("hemisphere", tank.bore)
    column = (liquid - dome) / (PI / 4.0 * tank.bore**2) + tank.bore / 2.0
    inside = tank.cylinder + tank.bore
    filled = nitrous_oxide.liquid_density(given.propellant_fill_temperature) * column
    filled += nitrous_oxide.vapour_density(given.propellant_fill_temperature) * (inside - column)
    soaked = printed.load.oxidiser / given.tank_volume * inside
    head = max(filled, soaked) * printed.ascent.max_axial_acceleration
    assert head == pytest.approx(printed.flight_loads.acceleration_head, rel=1e-12)


def test_mass_without_propellant(given, stage, printed, body):
    """Parts of the airframe from their areas; the tank as printed, it is checked above."""
    skin = given.skin_thickness * given.skin_density
    girth = PI * (body.diameter - given.skin_thickness)
    fins = 4.0 * body.fin_area * given.fins_thickness * given.fins_density
    airframe = skin * (body.nose_area + girth * (body.bays + given.motor_length)) + fins
    items = [
        stage[f"mass.item[{k}].mass"] * (1.0 + stage[f"mass.item[{k}].growth_allowance"])
        for k in range(4)
    ]
    predicted = sum(items) + given.motor_mass * (1.0 + given.mass_growth_motor)
    predicted += printed.tank.mass * (1.0 + given.mass_growth_tank)
    predicted += airframe * (1.0 + given.mass_growth_airframe)
    assert predicted == pytest.approx(printed.mass.predicted, rel=1e-6)


def friction(given, body, mach, altitude):
    """Return the friction of body and fins on the frontal area, without form factors."""
    air = textbook.air(altitude)
    per_metre = air.density * max(mach, 0.1) * air.sound_speed / air.viscosity
    total = [0.0, 0.0]
    for k, length in enumerate((body.length, body.chord)):
        rough = textbook.cut_off_reynolds(length, given.skin_sand_grain_roughness, mach)
        plate = textbook.turbulent_plate(min(per_metre * length, rough))
        wetted = (body.wetted, 8.0 * body.fin_area)[k]
        total[k] = plate * textbook.compressibility(mach) * wetted
    return [part / textbook.frontal_area(body.diameter) for part in total]


def test_drag_coefficient_at_mach_2(given, printed, body):
    area = textbook.frontal_area(body.diameter)
    fins = textbook.fin_wave_drag(given.fins_thickness / body.chord, 2.0) * 4.0 * body.fin_area
    terms = [
        *friction(given, body, 2.0, given.site_altitude),
        textbook.nose_wave_drag("von_karman", given.nose_fineness_ratio, 2.0),
        fins / area,
        textbook.base_drag(2.0),
    ]
    # The ascent's tables of friction err by up to 3e-6 of it.
    assert sum(terms) == pytest.approx(printed.drag.supersonic, rel=2e-6)


def test_speed_at_the_end_of_the_rail(given, printed, body):
    """Thrust, weight and drag in steps of a tenth of a millisecond, from the mass as printed.

    Air and gravity are those at the middle of the rail.
    """
    area = textbook.frontal_area(body.diameter)
    middle = given.site_altitude + given.rail_length / 2.0
    air = textbook.air(middle)
    thrust = given.motor_thrust + (101_325.0 - air.pressure) * given.motor_exit_area
    flow = given.motor_thrust / (given.motor_specific_impulse * GRAVITY)
    pull = GRAVITY * (1.0 - 2.0 * middle / 6_356_766.0) * math.sin(given.rail_elevation)
    fineness = body.length / body.diameter
    on_body, on_fins = friction(given, body, 0.1, given.site_altitude)
    skin = on_body * (1.0 + 60.0 / fineness**3 + fineness / 400.0)
    skin += on_fins * (1.0 + 2.0 * given.fins_thickness / body.chord)
    base = textbook.base_drag(0.05) * (1.0 - given.motor_exit_area / area)
    speed, distance, mass, step = 0.0, 0.0, printed.mass.lift_off, 1e-4
    while distance < given.rail_length:
        drag = 0.5 * air.density * speed**2 * (skin + base) * area
        gained = ((thrust - drag) / mass - pull) * step
        distance += (speed + gained / 2.0) * step
        speed += gained
        mass -= flow * step
    # Back from the last step to the end of the rail: v dv = a ds.
    speed -= gained / step * (distance - given.rail_length) / speed
    assert speed == pytest.approx(printed.ascent.rail_exit_speed, rel=1e-5)
