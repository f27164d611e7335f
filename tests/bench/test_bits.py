"""The same bits from a program for every processor and from one with all instructions of this one.

Widths of lanes, threads and the order of the designs are tested in `tests/properties/bits.rs` too,
on the build of the tests. A build can go wrong in ways of its own: sums taken in another order, a
product and a sum fused into one operation.
"""

import os
from itertools import product

import pytest
from peers import own

TARGET = os.environ.get("CARGO_TARGET_DIR", str(own.ROOT / "target"))
OWN_INSTRUCTIONS = {
    "RUSTFLAGS": f"{os.environ.get('RUSTFLAGS', '')} -C target-cpu=native".strip(),
    "CARGO_TARGET_DIR": f"{TARGET}/native",
    # Compiled in parts: speed is not the matter here.
    "CARGO_PROFILE_BENCH_CODEGEN_UNITS": "16",
}
WAYS = tuple(product((1, 4, 8, 16), (1, 2)))
"""Lanes and threads."""
CASES = (
    ("fleet", 2000, "trade"),
    ("wide", 2000, "trade"),
    ("wide", 200, "fine"),
    ("walled", 200, "trade"),
)


@pytest.fixture(scope="module")
def builds():
    return {"for every processor": own.program(), "for this processor": own.built(OWN_INSTRUCTIONS)}


@pytest.mark.parametrize("course", ["vertical", "inclined"])
@pytest.mark.parametrize(("vehicles", "designs", "grid"), CASES)
def test_every_build_gives_the_same_bits(builds, vehicles, designs, grid, course):
    wanted, other = None, []
    for (name, build), (lanes, threads) in product(builds.items(), WAYS):
        told = own.ask("digest", vehicles, designs, lanes, threads, course, grid, build=build)
        way = f"{name} ({' '.join(told['instructions'])}), lanes {lanes}, threads {threads}"
        wanted = wanted or (way, told["sha256"])
        differing = [output for output, bits in told["sha256"].items() if bits != wanted[1][output]]
        if differing:
            other.append(f"{way}: {', '.join(differing)}")
    assert not other, "\n".join((f"bits other than {wanted[0]}:", *other))


def test_the_builds_differ_in_their_instructions(builds):
    every, this = (
        own.ask("digest", "fleet", 1, 1, 1, "vertical", "trade", build=build)["instructions"]
        for build in builds.values()
    )
    if every == this:
        pytest.skip("this processor has no vector instructions beyond those of every processor")
    assert set(every) < set(this)


def test_a_digest_sees_the_designs(builds):
    build = builds["for every processor"]
    one, other = (
        own.ask("digest", "fleet", designs, 4, 1, "vertical", "trade", build=build)["sha256"]
        for designs in (16, 17)
    )
    assert one != other
