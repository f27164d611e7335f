"""The committed stub is the one that maturin writes; it compiles, so that the long run asks."""

import shutil
import subprocess
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_committed_stub_is_the_generated_one(tmp_path):
    maturin = shutil.which("maturin")
    assert maturin is not None
    # The development profile: the one for wheels strips what the generator reads.
    command = [maturin, "generate-stubs", "--features", "stubs", "--profile", "dev"]
    subprocess.run(
        [*command, "--locked", "--out", str(tmp_path)], check=True, cwd=ROOT, capture_output=True
    )
    generated = next(tmp_path.rglob("*.pyi")).read_text(encoding="utf-8")
    committed = (ROOT / "python" / "hoopline" / "_core.pyi").read_text(encoding="utf-8")
    assert committed == generated
