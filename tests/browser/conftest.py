"""A browser without a screen, and the reports that it opens."""

import functools
import http.server
import json
import os
import re
import shutil
import subprocess
import threading
import tomllib
from html import unescape
from pathlib import Path

import pytest

import hoopline as hl

os.environ["MPLBACKEND"] = "agg"

PROBE = Path(__file__).with_name("probe.html")


@pytest.fixture(scope="session")
def browser(tmp_path_factory):
    """Return a function that runs the browser and returns what it prints."""
    program = shutil.which("chromium") or shutil.which("chromium-browser")
    if program is None:
        pytest.skip("no chromium on the PATH")
    profile = tmp_path_factory.mktemp("profile")
    # Nothing but this machine has a name, so that no check depends on the network.
    options = [
        "--headless", "--disable-gpu", "--hide-scrollbars", "--no-first-run",
        f"--user-data-dir={profile}", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    ]  # fmt: skip
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        options.append("--no-sandbox")  # the superuser cannot have one

    def run(*more):
        done = subprocess.run(
            [program, *options, *more], capture_output=True, text=True, timeout=120, check=True
        )
        return done.stdout

    return run


def stages():
    """Return stages whose reports differ most."""
    found = {
        name: hl.Stage.load(hl.example(name))
        for name in ("petrel_slim", "petrel_hoop", "petrel_plain", "published/v2_textbook")
    }
    values = tomllib.loads(hl.example("petrel_slim").read_text(encoding="utf-8"))
    first = values["requirement"][0]
    first["id"] = "TANK_STRUCTURE_PROOF_02_REVISION_B"
    first["text"] = "The tank keeps its margins at every load case of the flight. " * 20
    first["evidence"] = "records/2026/" + "hydrostatic_" * 15 + "channel_07.csv"
    values["mass"]["item"][0]["name"] = "payload_with_a_name_of_many_words_joined_together"
    long = hl.Stage(
        {**values, "name": " ".join(["A name of many words"] * 6), "description": "Much. " * 60}
    )
    return {**found, "long": long, "negative": long.replace({"tank.liner.wall": "1.2 mm"})}


@pytest.fixture(scope="session")
def reports(tmp_path_factory):
    """Return the folder of all reports and their assessments by the name of the file."""
    folder = tmp_path_factory.mktemp("reports")
    found = {}
    for name, stage in stages().items():
        file = f"{Path(name).name}.html"
        hl.report(stage, folder / file)
        found[file] = stage.assess()
    shutil.copy(PROBE, folder)
    return folder, found


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_args):
        pass


@pytest.fixture(scope="session")
def measured(browser, reports):
    """Return what the probe finds in a page, shown in frames of the given widths."""
    folder, _ = reports
    handler = functools.partial(_Quiet, directory=folder)
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()

        def measure(file, *widths):
            query = f"page={file}&widths={','.join(map(str, widths))}"
            url = f"http://127.0.0.1:{server.server_port}/probe.html?{query}"
            page = browser("--virtual-time-budget=10000", "--dump-dom", url)
            found = json.loads(unescape(re.search("<pre>(.*?)</pre>", page, re.DOTALL)[1]))
            return dict(zip(widths, found, strict=True))

        yield measure
        server.shutdown()
