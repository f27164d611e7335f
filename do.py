"""One door for newcomers: `python3 do.py demo`, `checks` and `test [--long]`.

Fetches the installer uv into `.tools`, makes `.venv`, builds the extension, runs. Standard library
only, so that it starts on a bare machine.
"""

from __future__ import annotations  # an old Python shall reach the message below

import argparse
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
TOOLS = ROOT / ".tools"
VENV = ROOT / ".venv"
STAMP = VENV / "hoopline-stamp"
SCRIPTS = VENV / ("Scripts" if os.name == "nt" else "bin")
UV = "uv==0.13.9"
RUST = (1, 89)
BROWSERS = ("chromium", "chromium-browser")
INSTALLER_SETTINGS = {"UV_PYTHON_DOWNLOADS": "never", "UV_SYSTEM_CERTS": "1"}


def output_of(*command: str) -> str | None:
    """Return what a command prints, or None if it cannot be run."""
    try:
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except OSError:
        return None
    return done.stdout if done.returncode == 0 else None


def uv() -> Path:
    """Return where the installer is, or will be."""
    return TOOLS / "bin" / ("uv.exe" if os.name == "nt" else "uv")


def pip_missing() -> str | None:
    """Say what to do where pip is needed, to fetch the installer, and is not there."""
    if uv().is_file() or output_of(sys.executable, "-m", "pip", "--version") is not None:
        return None
    if sys.prefix != sys.base_prefix:
        return f"{sys.prefix} has no pip; run do.py with the Python outside of it: deactivate first"
    return "pip is missing; install it, on Debian: apt install python3-pip"


def missing(*, installs: bool) -> str | None:
    """Say in one line what this machine lacks, or return None; Rust alone needs no installer."""
    if sys.version_info < (3, 11):  # noqa: UP036
        return f"Python 3.11 or newer is needed; this is {sys.version.split()[0]}"
    if installs and (lack := pip_missing()):
        return lack
    found = re.match(r"cargo (\d+)\.(\d+)", output_of("cargo", "--version") or "")
    if found is None:
        return "cargo is missing; install Rust 1.89 or newer with rustup and put cargo on the PATH"
    if (int(found[1]), int(found[2])) < RUST:
        return f"Rust 1.89 or newer is needed; this is {found[1]}.{found[2]}: rustup update"
    if os.name != "nt" and not any(map(shutil.which, ("cc", "gcc", "clang"))):
        return "a C linker is missing; on Debian: apt install gcc libc6-dev"
    return None


def fingerprint() -> str:
    """Digest of everything that the install depends on."""
    names = ("pyproject.toml", "python-pins.txt", "Cargo.toml", "Cargo.lock")
    sources = sorted(path for path in (ROOT / "src").rglob("*") if path.is_file())
    digest = hashlib.sha256(f"{ROOT} {sys.version}".encode())
    for path in [*(ROOT / name for name in names), *sources]:
        digest.update(f"{path.relative_to(ROOT)}\0".encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()


def install() -> None:
    """Make the environment and build the extension, unless nothing changed since the last time."""
    stamp = fingerprint()
    if STAMP.is_file() and STAMP.read_text() == stamp:
        return
    lack = missing(installs=True)
    if lack:
        sys.exit(f"do.py: {lack}")
    print("installing and building; the first time takes one to three minutes", flush=True)
    environment = {**os.environ, **INSTALLER_SETTINGS}
    pip = (sys.executable, "-m", "pip", "install", "--quiet", "--disable-pip-version-check")
    installer = str(uv())
    pins = str(ROOT / "python-pins.txt")
    steps: list[tuple[str, ...]] = []
    if not uv().is_file():
        steps.append((*pip, "--root-user-action", "ignore", "--target", str(TOOLS), UV))
    if not SCRIPTS.is_dir():
        steps.append(
            (installer, "venv", "--quiet", "--clear", "--python", sys.executable, str(VENV))
        )
    into = ("--quiet", "--python", str(VENV), "--build-constraints", pins)
    steps.append((installer, "pip", "install", *into, "-r", pins, "-e", str(ROOT)))
    for step in steps:
        if subprocess.run(step, cwd=ROOT, env=environment, check=False).returncode:
            sys.exit(f"do.py: this step failed, see above: {' '.join(step)}")
    STAMP.write_text(stamp)


def cargo_steps(*, long: bool) -> list[tuple[str, ...]]:
    """Return the Rust checks; the long run lints the library without the Python bindings too."""
    clippy = ("cargo", "clippy", "--locked")
    strict = ("--", "-D", "warnings")
    steps: list[tuple[str, ...]] = [
        ("cargo", "fmt", "--check"),
        (*clippy, "--all-targets", "--features", "python", *strict),
        ("cargo", "test", "--locked"),
    ]
    if long:
        steps.append((*clippy, "--lib", *strict))
    return steps


def python_steps(*, long: bool) -> list[tuple[str, ...]]:
    """Return the Python checks; the long run adds a scan of the ascent, a browser, the benchmarks.

    What the batch ascent is measured against is installed for the benchmarks alone.
    """
    steps: list[tuple[str, ...]] = [
        ("ruff", "check"),
        ("ruff", "format", "--check"),
        ("mypy",),
        ("pytest", "-q", "-n", "auto"),
    ]
    if long:
        very_many = ("--test", "validation", "--", "--ignored")
        steps.append(("cargo", "test", "--locked", *very_many))
        steps.append(("pytest", "-q", "tests/browser"))
        steps.append(("cargo", "bench", "--locked"))
        pins = ("-r", "tests/bench/python-pins.txt", "-c", "python-pins.txt")
        steps.append((str(uv()), "pip", "install", "--quiet", *pins))
        steps.append(("pytest", "-q", "tests/bench"))
    return steps


def absent(step: tuple[str, ...]) -> bool:
    """Tell whether a step needs an optional tool that is not there: a part of Rust, a browser."""
    if step[-1] == "tests/browser":
        return not any(map(shutil.which, BROWSERS))
    return step[:2] in {("cargo", "fmt"), ("cargo", "clippy")} and (
        output_of(*step[:2], "--version") is None
    )


def test(*, long: bool) -> int:
    """Run every check, one line each, and count them."""
    counts = {"passed": 0, "failed": 0, "skipped": 0}
    path = f"{SCRIPTS}{os.pathsep}{os.environ.get('PATH', '')}"
    environment = {**os.environ, **INSTALLER_SETTINGS, "PATH": path, "VIRTUAL_ENV": str(VENV)}
    for step in [*cargo_steps(long=long), *python_steps(long=long)]:
        start = time.monotonic()
        named = " ".join((Path(step[0]).name, *step[1:]))
        print(f"{named:68}", end=" ", flush=True)
        text = ""
        if absent(step):
            verdict = "skipped"
        else:
            program = shutil.which(step[0], path=path) or step[0]
            done = subprocess.run(
                (program, *step[1:]),
                cwd=ROOT,
                env=environment,
                check=False,
                text=True,
                errors="replace",
                stdout=subprocess.PIPE,
                stderr=subprocess.STDOUT,
            )
            verdict = "failed" if done.returncode else "passed"
            text = done.stdout
        counts[verdict] += 1
        note = text.rstrip().rpartition("\n")[2] if step[0] == "pytest" else ""
        print(f"{verdict:8}{time.monotonic() - start:6.1f} s  {note}".rstrip(), flush=True)
        if verdict == "failed":
            print(text, flush=True)
    print(", ".join(f"{count} {verdict}" for verdict, count in counts.items()))
    return 1 if counts["failed"] else 0


def checks(topic: str) -> int:
    """List every number from outside: expected, got, deviation, what is allowed.

    A topic keeps the rows in whose room, source or case it stands.
    """
    lack = missing(installs=False)
    if lack:
        sys.exit(f"do.py: {lack}")
    print("running the checks; the first time builds them, which takes minutes", flush=True)
    with tempfile.TemporaryDirectory() as folder:
        rows_file = Path(folder) / "rows"
        environment = {**os.environ, "OUTSIDE_CHECKS": str(rows_file)}
        command = ("cargo", "test", "--locked", "--quiet", "--test", "validation")
        done = subprocess.run(
            command, cwd=ROOT, env=environment, check=False, capture_output=True, text=True
        )
        if not rows_file.is_file():
            sys.exit(f"do.py: no check ran:\n{done.stdout}{done.stderr}")
        rows = [line.split("\t") for line in rows_file.read_text(encoding="utf-8").splitlines()]
    kept = [row for row in rows if topic.lower() in " ".join(row[:3]).lower()]
    heading, coarse = None, 0
    # Tests run side by side; sorting gives the same list every time.
    for room, source, case, *numbers in sorted(
        (room, source, case, float(expected), float(got), float(allowed))
        for room, case, source, expected, got, allowed in kept
    ):
        expected, got, allowed = numbers
        if heading != (room, source):
            heading = (room, source)
            print(f"\n{room}: {source}")
        scale = abs(expected) or 1.0
        off, tolerance = 100.0 * (got - expected) / scale, 100.0 * allowed / scale
        coarse += abs(off) > 1.0
        print(f"  {case:58} {expected:>16.9g} {got:>16.9g} {off:>+10.2g} % of {tolerance:.2g} %")
    print(
        f"\n{len(kept)} numbers from outside: expected, got, deviation, deviation allowed; "
        f"{coarse} of them deviate by more than 1 %"
    )
    if done.returncode:
        print(done.stdout + done.stderr)
    return done.returncode


def main() -> int:
    """Install, then run what was asked for."""
    parser = argparse.ArgumentParser(description="Install hoopline into .venv and run it.")
    commands = parser.add_subparsers(dest="command", required=True)
    commands.add_parser("demo", help="assess and sweep the example stages")
    listing = commands.add_parser("checks", help="list every check against the outside world")
    listing.add_argument("topic", nargs="?", default="", help="only rows that name it")
    tests = commands.add_parser("test", help="run every check")
    tests.add_argument(
        "--long", action="store_true", help="add a scan of the ascent, the browser, the benchmarks"
    )
    asked = parser.parse_args()
    if asked.command == "checks":
        return checks(asked.topic)
    install()
    if asked.command == "demo":
        return subprocess.run((SCRIPTS / "hoopline", "demo"), check=False).returncode
    return test(long=asked.long)


if __name__ == "__main__":
    sys.exit(main())
