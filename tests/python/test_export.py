"""Exported tables: what stands in them, and that somebody else can fly them."""

import csv
import io
import math
import pickle

import numpy as np
import pytest
from command_line import run
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline

import hoopline as hl
from hoopline.comma_separated import guarded, table
from hoopline.exporting import export, tables

EXAMPLES = ["petrel_slim", "petrel_plain", "petrel_hoop", "published/v2_textbook"]


def read(path):
    """Read a CSV file: headers without units, and columns, numbers as floats."""
    rows = list(csv.reader(io.StringIO(path.read_bytes().decode("utf-8"), newline="")))
    return rows[0], rows[1:]


def columns(path):
    headers, rows = read(path)
    found = {}
    for place, header in enumerate(headers):
        cells = [row[place] for row in rows]
        try:
            found[header] = np.array([float(cell) for cell in cells])
        except ValueError:
            found[header] = cells
    return found


@pytest.fixture(scope="module", params=EXAMPLES)
def exported(request, tmp_path_factory):
    design = hl.Stage.load(hl.example(request.param))
    folder = tmp_path_factory.mktemp("export")
    export(design, folder)
    return design, folder


@pytest.fixture(scope="module")
def slim(stage, tmp_path_factory):
    folder = tmp_path_factory.mktemp("slim")
    export(stage, folder)
    return stage, folder


def test_the_last_row_is_the_apogee_and_the_end_of_thrust_the_burnout(exported):
    design, folder = exported
    results = design.assess().results
    flown = columns(folder / "ascent.csv")
    assert flown["altitude [m]"][-1] == results["ascent.apogee"]
    assert flown["time [s]"][-1] == results["ascent.apogee_time"]
    burnout = max(row for row, phase in enumerate(flown["phase"]) if phase == "burn")
    assert flown["altitude [m]"][burnout] == results["ascent.burnout_altitude"]
    assert flown["speed [m/s]"][burnout] == results["ascent.burnout_speed"]
    # The largest may lie between two rows.
    assert 0.999 <= flown["mach"].max() / results["ascent.max_mach"] <= 1.0
    peak = flown["dynamic_pressure [Pa]"].max() / results["ascent.max_dynamic_pressure"]
    assert 0.999 <= peak <= 1.0


def test_numbers_have_every_bit(exported):
    design, folder = exported
    history = design.history()
    flown = columns(folder / "ascent.csv")
    for name, field in history.fields.items():
        np.testing.assert_array_equal(flown[field.header("si")], history[name])
    given = {row.path: row.value for row in design.inputs()}
    headers, rows = read(folder / "inputs.csv")
    assert headers[:2] == ["path", "value [SI]"]
    back = {row[0]: row[1] for row in rows}
    assert all(float(back[path]) == value for path, value in given.items() if path in back)
    assert set(given) <= set(back)


def test_every_header_of_a_number_has_its_unit(exported):
    design, folder = exported
    pure = {"mach", "margin", "power_off", "power_on", "body_friction", "fin_friction", "nose",
            "fins_wave", "base_power_off", "base_power_on", "growth share"}  # fmt: skip
    for one in tables(design.assess()):
        headers, rows = read(folder / one.name)
        assert headers == list(one.columns)
        assert len(set(headers)) == len(headers)
        for place, header in enumerate(headers):
            cells = [row[place] for row in one.rows]
            if any(isinstance(cell, float) for cell in cells):
                assert header.endswith("]") or header in pure, header
        assert all(len(row) == len(headers) for row in rows)


def test_masses_add_up_and_balance_about_their_centre(exported):
    design, folder = exported
    results = design.assess().results
    _, rows = read(folder / "mass_statement.csv")
    for when in ("ignition", "burnout"):
        lines = [row for row in rows if row[1] != "sum" and row[2] in ("dry", f"at {when}")]
        mass = math.fsum(float(row[5]) for row in lines)
        whole = next(row for row in rows if row[0] == f"sum at {when}")
        assert mass == pytest.approx(float(whole[5]), rel=1e-12)
        if whole[6]:
            moment = math.fsum(float(row[5]) * float(row[6]) for row in lines)
            assert moment / mass == pytest.approx(float(whole[6]), rel=1e-9)
    dry = next(row for row in rows if row[0] == "sum without propellant")
    assert float(dry[5]) == results["mass.predicted"]


# The U.S. Standard Atmosphere, 1976, by its layers: base geopotential altitude, km, gradient, K/km,
# from a sea level of 288.15 K and 101325 Pa; gravity, effective earth radius and gas constant
# (8314.32 / 28.9644). Typed from memory, not read in the document. The layers are integrated here,
# nothing is read from the library.
LAYERS = [(0.0, -6.5), (11.0, 0.0), (20.0, 1.0), (32.0, 2.8), (47.0, 0.0)]
GRAVITY, EARTH, GAS = 9.80665, 6_356_766.0, 8314.32 / 28.9644


def air(altitude):
    """Pressure and sound speed of the standard atmosphere up to 51 km."""
    height = EARTH * altitude / (EARTH + altitude)
    temperature, pressure = 288.15, 101_325.0
    for place, (base, gradient) in enumerate(LAYERS):
        ends = LAYERS[place + 1][0] if place + 1 < len(LAYERS) else 51.0
        span = min(height, ends * 1e3) - base * 1e3
        slope = gradient / 1e3
        if slope:
            warm = temperature + slope * span
            pressure *= (warm / temperature) ** (-GRAVITY / (GAS * slope))
            temperature = warm
        else:
            pressure *= math.exp(-GRAVITY * span / (GAS * temperature))
        if height <= ends * 1e3:
            break
    return pressure, math.sqrt(1.4 * GAS * temperature)


def drag_table(folder):
    """Coefficient over Mach number, altitude and share of full thrust."""
    drag = columns(folder / "drag_coefficients.csv")
    altitudes = np.unique(drag["altitude [m]"])
    sheets = []
    for altitude in altitudes:
        rows = drag["altitude [m]"] == altitude
        mach = drag["mach"][rows]
        sheets.append(
            [CubicSpline(mach, drag[name][rows], bc_type="natural")
             for name in ("power_off", "power_on")]
        )  # fmt: skip

    def coefficient(mach, altitude, power):
        upper = int(np.clip(np.searchsorted(altitudes, altitude), 1, len(altitudes) - 1))
        low, high = altitudes[upper - 1], altitudes[upper]
        weight = (altitude - low) / (high - low)
        off, on = (
            (1.0 - weight) * sheets[upper - 1][which](mach) + weight * sheets[upper][which](mach)
            for which in (0, 1)
        )
        return off + (on - off) * power

    return coefficient


@pytest.mark.parametrize(
    ("name", "error"), [*((name, 1e-5) for name in EXAMPLES[:3]), ("smooth", 1e-4)]
)
def test_somebody_else_flies_the_tables_to_the_same_apogee(name, error, tmp_path):
    """SciPy's solve_ivp (DOP853, 1e-9) flies a point mass by the tables and the 1976 atmosphere.

    Path: free flight from the end of the rail in the vertical plane over a round earth. What may
    differ: friction between the altitudes of the table and the smoothing of its splines, and the
    step error of the trade grid; together less than 1e-5 of the apogee (found: 1.5e-6),
    and than 1e-4 for a skin so smooth that friction rests on the altitude (found: 9e-5).
    """
    stage = hl.Stage.load(hl.example("petrel_slim" if name == "smooth" else name))
    if name == "smooth":
        stage = stage.replace({"skin.sand_grain_roughness": "0.1 um"})
    results = stage.assess().results
    export(stage, tmp_path)
    thrust = columns(tmp_path / "thrust.csv")
    coefficient = drag_table(tmp_path)
    flown = columns(tmp_path / "ascent.csv")
    start = max(row for row, phase in enumerate(flown["phase"]) if phase == "rail")
    site = stage["site.altitude"]
    dry = results["mass.lift_off"] - thrust["propellant_left [kg]"][0]
    area = results["airframe.frontal_area"]
    mean, burns = results["thrust.mean"], thrust["time [s]"][-1]
    surface = GRAVITY * (EARTH / (EARTH + site)) ** 2

    def slope(time, state, burning):
        altitude, up, along = state
        pressure, sound = air(site + altitude)
        speed = math.hypot(up, along)
        at = {key: np.interp(time, thrust["time [s]"], thrust[key]) for key in thrust}
        force, power = 0.0, 0.0
        if burning:
            vacuum, sea = at["thrust_in_vacuum [N]"], at["thrust_at_sea_level [N]"]
            force = vacuum - (vacuum - sea) * pressure / 101_325.0
            power = min(at["thrust_at_basis [N]"] / mean, 1.0)
        mach = speed / sound
        drag = 0.7 * pressure * mach**2 * area * coefficient(mach, site + altitude, power)
        pull = (force - drag) / (dry + at["propellant_left [kg]"]) / speed
        radius = EARTH + site + altitude
        gravity = surface * ((EARTH + site) / radius) ** 2
        return [up, pull * up - gravity + along**2 / radius, pull * along - up * along / radius]

    def top(_time, state, _burning):
        return state[1]

    top.terminal, top.direction = True, -1
    speed, angle = flown["speed [m/s]"][start], flown["path_angle [rad]"][start]
    state = [flown["altitude [m]"][start], speed * math.sin(angle), speed * math.cos(angle)]
    settings = {"method": "DOP853", "rtol": 1e-9, "atol": 1e-9}
    begin = flown["time [s]"][start]
    burn = solve_ivp(slope, (begin, burns), state, args=(True,), max_step=0.1, **settings)
    coast = solve_ivp(
        slope, (burns, burns + 600.0), burn.y[:, -1], args=(False,), events=top, **settings
    )
    assert burn.y[0, -1] == pytest.approx(results["ascent.burnout_altitude"], rel=error)
    assert coast.y_events[0][0][0] == pytest.approx(results["ascent.apogee"], rel=error)
    assert coast.t_events[0][0] == pytest.approx(results["ascent.apogee_time"], rel=error)


def test_momentum_balances_over_the_table(stage, tmp_path):
    """Newton's second law, between the rows of ascent.csv alone: the change of upward speed is the
    integral of axial acceleration times the sine of the path less gravity (trapezoids; their error
    on the fine grid is below 0.1 % of the largest speed). The rail's push is left out, so rows
    begin at its end; gravity falls with the square of the radius.
    """
    export(stage.replace({"ascent.grid": "fine"}), tmp_path)
    flown = columns(tmp_path / "ascent.csv")
    rows = [row for row, phase in enumerate(flown["phase"]) if phase != "rail"]
    time, speed, angle, felt, height = (
        flown[name][rows]
        for name in (
            "time [s]", "speed [m/s]", "path_angle [rad]", "axial_acceleration [m/s2]",
            "altitude_above_sea_level [m]",
        )
    )  # fmt: skip
    gravity = GRAVITY * (EARTH / (EARTH + height)) ** 2
    gained = np.trapezoid(felt * np.sin(angle) - gravity, time)
    upward = speed * np.sin(angle)
    assert gained == pytest.approx(upward[-1] - upward[0], abs=0.001 * speed.max())
    forces = (flown["thrust [N]"] - flown["drag [N]"]) / flown["mass [kg]"]
    np.testing.assert_allclose(forces, flown["axial_acceleration [m/s2]"], rtol=1e-12)
    climbed = np.trapezoid(upward, time)
    assert climbed == pytest.approx(height[-1] - height[0], rel=5e-4)


def test_distance_altitude_and_level_agree(slim):
    """Distance along the ground, at the site's level of a round earth, is the integral of the
    forward speed (trapezoids, as above), from the first row on.
    """
    stage, folder = slim
    flown = columns(folder / "ascent.csv")
    site = stage["site.altitude"]
    level = flown["altitude_above_sea_level [m]"]
    np.testing.assert_allclose(level - flown["altitude [m]"], site, rtol=1e-12)
    forward = flown["speed [m/s]"] * np.cos(flown["path_angle [rad]"])
    forward *= (EARTH + site) / (EARTH + level)
    time, covered = flown["time [s]"], flown["downrange [m]"]
    steps = 0.5 * (forward[1:] + forward[:-1]) * np.diff(time)
    np.testing.assert_allclose(np.cumsum(steps), covered[1:] - covered[0], rtol=5e-3, atol=0.02)
    assert steps.sum() == pytest.approx(covered[-1], rel=5e-4)


def test_rows_are_on_the_rail_as_far_as_it_reaches(stage, tmp_path):
    for direction in ("inclined", "vertical"):
        design = stage.replace({"rail.direction": direction})
        export(design, tmp_path / direction)
        flown = columns(tmp_path / direction / "ascent.csv")
        length = stage["rail.length"]
        ahead = np.hypot(flown["altitude [m]"], flown["downrange [m]"])
        rail = np.array([phase == "rail" for phase in flown["phase"]])
        assert rail.sum() > 1
        assert ahead[rail].max() <= length * (1.0 + 1e-6)
        assert ahead[~rail].min() >= length * (1.0 - 1e-6)


def test_thrust_at_any_pressure_lies_on_the_line_that_provenance_names(exported):
    design, folder = exported
    thrust = columns(folder / "thrust.csv")
    vacuum, sea = thrust["thrust_in_vacuum [N]"], thrust["thrust_at_sea_level [N]"]
    assessment = design.assess()
    site = vacuum - (vacuum - sea) * assessment["pressures.site"] / 101_325.0
    np.testing.assert_allclose(thrust["thrust_at_site [N]"], site, rtol=1e-12)
    area = f"{assessment['airframe.frontal_area']!r} m2"
    provenance = (folder / "provenance.txt").read_text(encoding="utf-8")
    assert area in " ".join(provenance.split())


def test_the_history_is_frozen_and_pickles(stage):
    history = stage.history()
    assert len(history) == len(history["time"])
    with pytest.raises(ValueError, match="read-only"):
        history["time"][0] = 1.0
    with pytest.raises(hl.InputError, match='did you mean "altitude"'):
        history["altitud"]
    with pytest.raises(AttributeError):
        history.phase = ()
    back = pickle.loads(pickle.dumps(history))
    assert back == history
    assert not back["time"].flags.writeable
    assert history.units["path_angle"] == "rad"


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_no_text_begins_as_a_formula(start, stage, values, tmp_path):
    assert guarded(f"{start}1") == f"'{start}1"
    assert table(["a"], [[f"{start}cmd"], [-1.5]]).splitlines()[-1] == "-1.5"
    if start in "=+-@":
        values["mass"]["item"][0]["name"] = f"{start}SUM(A1)"
        export(hl.Stage(values), tmp_path)
        _, rows = read(tmp_path / "mass_statement.csv")
        assert f"'{start}SUM(A1)" in [row[0] for row in rows]


def test_files_follow_rfc_4180(slim):
    _, folder = slim
    for path in folder.glob("*.csv"):
        text = path.read_bytes()
        assert text.endswith(b"\r\n")
        assert text.count(b"\n") == text.count(b"\r\n")
        assert not text.startswith(b"\xef\xbb\xbf")
    assert table(["a"], [['say "x", y']]) == 'a\r\n"say ""x"", y"\r\n'


def test_provenance_says_what_a_reader_must_know(exported):
    design, folder = exported
    assessment = design.assess()
    text = (folder / "provenance.txt").read_text(encoding="utf-8")
    flat = " ".join(text.split())
    assert assessment.digest in flat
    assert f"hoopline {assessment.version}" in flat
    assert " ".join(assessment.safety.split()) in flat
    assert all(" ".join(caution.split()) in flat for caution in assessment.cautions)
    for path in folder.glob("*.csv"):
        assert path.name in flat
        assert all(f"{header}:" in flat for header in read(path)[0])


def test_a_design_without_an_ascent_writes_nothing(stage, tmp_path):
    weak = stage.replace({"motor.thrust": "20 N"})
    with pytest.raises(hl.InputError):
        export(weak, tmp_path / "weak")
    assert not (tmp_path / "weak").exists()
    saved = hl.Assessment.from_json(stage.assess().to_json())
    with pytest.raises(hl.InputError, match="load the stage file"):
        export(saved, tmp_path / "saved")
    assert not (tmp_path / "saved").exists()


def test_a_failure_leaves_earlier_files_alone(stage, tmp_path, monkeypatch):
    export(stage, tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    write = type(tmp_path).write_bytes

    def full(path, data):
        if path.name == "margins.csv":
            raise OSError(28, "No space left on device")
        return write(path, data)

    monkeypatch.setattr(type(tmp_path), "write_bytes", full)
    with pytest.raises(hl.DataError, match="no space"):
        export(stage.replace({"rail.length": "10 m"}), tmp_path)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_the_command(stage, tmp_path):
    example = str(hl.example("petrel_slim"))
    into = str(tmp_path / "tables")
    done = run("export", example, "--into", into)
    assert done.exit_code == 0
    assert len(done.stdout.splitlines()) == 9
    assert (
        columns(tmp_path / "tables" / "ascent.csv")["altitude [m]"][-1]
        == (stage.assess()["ascent.apogee"])
    )
    assert run("export", "missing.toml", "--into", into).exit_code == 2
