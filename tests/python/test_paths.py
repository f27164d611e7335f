"""Paths that cannot be, names without end, and exports that are stopped or find no room."""

import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest
from command_line import run

import hoopline as hl
from hoopline.comparison.files import write
from hoopline.whole_files import write_whole

NO_PATHS = {
    "None": None,
    "number": 3,
    "bytes": b"tank.toml",
    "list": ["tank.toml"],
    "empty": "",
    "zero byte": "tank\0.toml",
    "half a letter": "tank\ud800.toml",
}


@pytest.mark.parametrize("path", NO_PATHS.values(), ids=NO_PATHS)
def test_what_is_no_path_is_refused_by_its_parameter(stage, tmp_path, monkeypatch, path):
    monkeypatch.chdir(tmp_path)
    found = hl.compare(stage, stage)
    for parameter, call in (
        ("path", lambda: hl.Stage.load(path)),
        ("folder", lambda: hl.export(stage, path)),
        ("folder", lambda: write(found, path)),
    ):
        with pytest.raises(hl.InputError, match=rf"^{parameter} (is|=) .*; "):
            call()
    with pytest.raises(hl.InputError, match=r"^(design (is|=) .*; |compare takes)"):
        hl.compare(stage, path)
    assert not list(tmp_path.iterdir())


def test_a_path_within_a_stage_is_refused_by_its_input(values):
    class Folder:
        def __fspath__(self):
            return b"curve.csv"

    values["motor"]["curve"] = {"file": Folder()}
    with pytest.raises(hl.InputError, match=r"^motor.curve.file = b'curve.csv' is a bytes; "):
        hl.Stage(values)


def test_a_zero_byte_in_an_example_is_refused():
    with pytest.raises(hl.InputError, match=r"^name = .* holds a zero byte"):
        hl.example("petrel\0slim")


ENDLESS = "x" * 100_000


@pytest.mark.parametrize(
    "ask",
    [
        lambda stage: stage.assess().explain(ENDLESS),
        lambda stage: stage._compiled.explain(ENDLESS),
        lambda stage: stage.assess()[ENDLESS],
        lambda stage: stage[ENDLESS],
        lambda stage: stage.history()[ENDLESS],
        lambda stage: stage.replace({ENDLESS: "1 mm"}),
        lambda stage: stage.replace({"tank.outer_diameter": ENDLESS}),
        lambda stage: stage.replace({"tank.outer_diameter": f"1 {ENDLESS}"}),
        lambda stage: stage.replace({"nose.shape": ENDLESS}),
        lambda stage: stage.replace({"tank.liner.metal.name": ENDLESS}),
        lambda stage: hl.example(ENDLESS),
    ],
)
def test_an_endless_name_is_not_repeated(stage, ask):
    with pytest.raises((hl.InputError, KeyError)) as caught:
        ask(stage)
    assert "xxxxx ..." in str(caught.value)
    assert len(str(caught.value)) < 1000


def written(folder):
    return {file.name: file.read_text(encoding="utf-8") for file in folder.iterdir()}


@pytest.mark.parametrize("stop", [KeyboardInterrupt, OSError(5, "Input/output error")])
@pytest.mark.parametrize("after", [0, 1, 3, 7])
def test_an_export_that_stops_while_moving_leaves_the_old_files(
    stage, tmp_path, monkeypatch, stop, after
):
    hl.export(stage, tmp_path)
    (tmp_path / "margins.csv").unlink()
    before = written(tmp_path)
    real = Path.replace
    moved = []

    def replace(self, target):
        if self.parent.name == "new":
            if len(moved) == after:
                raise stop
            moved.append(self.name)
        return real(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises((KeyboardInterrupt, hl.DataError)):
        hl.export(stage.replace({"rail.length": "10 m"}), tmp_path)
    assert len(moved) == after
    assert written(tmp_path) == before


def test_an_export_stopped_while_writing_leaves_nothing(tmp_path):
    (tmp_path / "a.csv").write_text("old")

    def fill(folder):
        (folder / "a.csv").write_text("new")
        raise KeyboardInterrupt

    for folder in (tmp_path, tmp_path / "one" / "two"):
        with pytest.raises(KeyboardInterrupt):
            write_whole(folder, fill)
    assert written(tmp_path) == {"a.csv": "old"}


SCRIPT = """
import signal, sys, time
from pathlib import Path
from hoopline.whole_files import write_whole
signal.signal(signal.SIGINT, signal.default_int_handler)

def fill(folder):
    (folder / "a.csv").write_text("new")
    print("writing", flush=True)
    time.sleep(60)
    return ["a.csv"]

write_whole(Path(sys.argv[1]), fill)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="signals differ")
def test_ctrl_c_within_an_export_leaves_nothing(tmp_path):
    (tmp_path / "a.csv").write_text("old")
    with subprocess.Popen(
        [sys.executable, "-c", SCRIPT, str(tmp_path)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as process:  # fmt: skip
        assert process.stdout.readline() == "writing\n"
        process.send_signal(signal.SIGINT)
        try:
            code = process.wait(timeout=30)
        finally:
            process.kill()
    assert code in (1, 130, -signal.SIGINT)
    assert written(tmp_path) == {"a.csv": "old"}


FULL = """
import resource
from hoopline.cli import main
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, 20_000))
main(prog_name="hoopline")
"""


@pytest.mark.skipif(sys.platform == "win32", reason="limits differ")
def test_a_disk_without_room_is_told_by_file_and_leaves_the_old_files(tmp_path):
    (tmp_path / "margins.csv").write_text("old")
    arguments = ["export", str(hl.example("petrel_slim")), "--into", str(tmp_path)]
    done = subprocess.run(
        [sys.executable, "-c", FULL, *arguments], check=False, capture_output=True, text=True
    )
    assert done.returncode == 2
    assert done.stderr.startswith(f"Error: {tmp_path}: file too large; make room on the disk")
    assert "Traceback" not in done.stderr
    assert written(tmp_path) == {"margins.csv": "old"}


LOCKED = """
import os, sys
from pathlib import Path
import hoopline as hl
stage = hl.Stage.load(hl.example("petrel_slim"))
folder = Path(sys.argv[1])
hl.export(stage, folder / "open")  # so that nothing is left to import
(folder / "locked").mkdir(mode=0o500)
(folder / "closed").mkdir(mode=0o000)
if os.geteuid() == 0:  # to whom every folder is open
    os.setuid(65534)
for into in ("locked", "locked/new", "closed/new"):
    try:
        hl.export(stage, folder / into)
    except hl.DataError as error:
        print(error)
try:
    hl.Stage.load(folder / "open.toml")
except hl.DataError as error:
    print(error)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="permissions differ")
def test_what_may_not_be_written_or_read_is_named():
    with tempfile.TemporaryDirectory(prefix="hoopline-test-") as name:
        folder = Path(name)
        folder.chmod(0o755)
        file = folder / "open.toml"
        file.write_bytes(hl.example("petrel_slim").read_bytes())
        file.chmod(0o000 if os.geteuid() else 0o600)
        done = subprocess.run(
            [sys.executable, "-c", LOCKED, name], check=False, capture_output=True, text=True
        )
        advice = "permission denied; change its permissions or name another folder"
        assert done.stdout.splitlines()[:2] == [
            f"{folder / into}: {advice}" for into in ("locked", "locked/new")
        ]
        assert done.stdout.splitlines()[2] == f"{folder / 'closed' / 'new'}: {advice}"
        assert done.stdout.splitlines()[3] == (
            f"{file}: it may not be read by this user; change its permissions or copy it"
        )
        assert not list((folder / "locked").iterdir())
        (folder / "locked").chmod(0o700)
        (folder / "closed").chmod(0o700)


def test_what_the_system_says_names_the_file_and_what_to_do(stage, tmp_path, monkeypatch):
    def refuse(*_arguments, **_options):
        raise PermissionError(13, "Permission denied", str(tmp_path))

    monkeypatch.setattr("tempfile.mkdtemp", refuse)
    with pytest.raises(hl.DataError) as caught:
        hl.export(stage, tmp_path)
    assert str(caught.value) == (
        f"{tmp_path}: permission denied; change its permissions or name another folder"
    )


def test_a_saved_file_that_cannot_be_read_is_named(stage, tmp_path):
    absent = tmp_path / "absent.json"
    with pytest.raises(hl.DataError) as caught:
        hl.compare(stage, absent)
    assert str(caught.value).startswith(f"{absent}: no such file or directory; check its name")


def test_the_command_names_the_file_of_a_system_error(monkeypatch, tmp_path):
    def refuse(*_arguments, **_options):
        raise PermissionError(13, "Permission denied", str(tmp_path / "petrel.html"))

    monkeypatch.setattr("hoopline.stage.Stage.load", refuse)
    done = run("assess", "petrel.toml")
    assert done.exit_code == 2
    assert done.stderr == (
        f"Error: {tmp_path / 'petrel.html'}: permission denied; change its permissions or name "
        "another folder\n"
    )
