import signal
import subprocess
import sys
import time

import pytest

# A background job of a shell starts with the signal ignored, and hands that on.
SCRIPT = """
import signal
import hoopline as hl
signal.signal(signal.SIGINT, signal.default_int_handler)
stage = hl.Stage.load(hl.example("petrel_slim"))
print("started", flush=True)
{}
print("finished", flush=True)
"""
SWEEP = """
hl.sweep(stage, {
    "tank.outer_diameter": hl.linspace("130 mm", "240 mm", 1000),
    "tank.liner.wall": hl.linspace("1 mm", "9 mm", 1000),
}, threads=1)
"""
SEARCH = """
hl.optimise(stage, {
    "tank.outer_diameter": ("130 mm", "240 mm"),
    "tank.liner.wall": ("1 mm", "9 mm"),
}, minimise="tank.mass", scan=1000, threads=1)
"""
SEARCHES = """
hl.optimise(stage, {
    "tank.outer_diameter": ("130 mm", "240 mm"),
    "nose.fineness_ratio": (2.0, 9.0),
    "tank.liner.wall": [k * 1e-5 for k in range(100, 900)],
}, minimise="tank.mass", threads=1)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ")
@pytest.mark.parametrize("call", [SWEEP, SEARCH, SEARCHES])
def test_ctrl_c_stops_a_long_call(call):
    with subprocess.Popen(
        [sys.executable, "-c", SCRIPT.replace("{}", call)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        assert process.stdout.readline() == "started\n"
        time.sleep(0.5)
        assert process.poll() is None
        process.send_signal(signal.SIGINT)
        # The call alone would take minutes; the limit only keeps a failing test from hanging.
        try:
            code = process.wait(timeout=30)
        finally:
            process.kill()
        assert process.stdout.read() == ""
        assert "KeyboardInterrupt" in process.stderr.read()
        assert code in (1, 130, -signal.SIGINT)
