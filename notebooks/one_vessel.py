# ---
# jupyter:
#   jupytext:
#     text_representation:
#       extension: .py
#       format_name: percent
#   kernelspec:
#     display_name: Python 3
#     language: python
#     name: python3
# ---

# %% [markdown]
# # What really holds the pressure in this tank?
#
# One invented vessel from end to end: what carries the load, what flows and what stays after the
# proof test, what breaks first and where, what a liner of half the wall would change, how cylinder
# and closure bend each other, how the wrap is wound, and which tank of the stock is the lightest.
#
# Pressure vessels and nitrous oxide can kill. Nothing here replaces local codes, range safety or
# the judgement of a licensed engineer.

# %%
import hoopline as hl

BAR = 1e5
stage = hl.Stage.load(hl.example("petrel_slim"))
as_built = stage.assess()
hl.plot.tank(as_built)

# %% [markdown]
# ## As it stands
#
# All margins are met. The load history tells more than they do: the cautions say that the girth
# seam's weld zone flows in the proof test, and that the wrap idles behind a liner that never yields
# there.

# %%
for caution in as_built.cautions[:2]:
    print("-", caution)

# %%
hl.plot.margins(as_built)

# %% [markdown]
# ## Put the wrap to work
#
# A pressure above the liner's yield, once, before the proof test: the liner flows, the wrap does
# not, and when the pressure is gone the wrap keeps the liner pressed. From then on the fibres carry
# their part. The price stands in the right panel: the weld zone, which shares the wall's hoop
# strain and takes the whole axial line load with a lower yield, strains several times as much as
# its neighbours.

# %%
treated = stage.replace({"tank.autofrettage_pressure": "200 bar gauge"})
loads = treated.load_history()
hl.plot.load_history(loads)

# %%
hl.plot.load_shares(loads)

# %%
idle, working = stage.load_history().after("MEOP"), loads.after("MEOP")
residual = loads.after("unloading")["liner_hoop_stress"]
zone = loads.after("proof")["girth_zone_plastic_strain"]
used = [f"{row['fibre_utilisation']:.0%}" for row in (idle, working)]
print(f"fibres at MEOP: {used[0]} of what they break at before, {used[1]} after")
print(f"left in the emptied liner: {residual / 1e6:.0f} MPa around")
print(f"plastic strain of the weld zone after the proof test: {zone:.2%}")
print(f"at {loads.ending_pressure / BAR:.0f} bar {loads.ending}")

# %% [markdown]
# Whether a weld bears that strain is for a coupon to say. A tank whose weld does not is better off
# as it stood: with an idle wrap.

# %% [markdown]
# ## Half the liner
#
# What everyone wants to try: half the wall, the rest unchanged.

# %%
half = stage.replace({"tank.liner.wall": "1.7 mm", "name": "half the liner"})
thin = half.assess()
for name, design in (("as built", as_built), ("half the liner", thin)):
    print(
        f"{name}: {design['tank.mass']:.2f} kg, apogee {design['ascent.apogee'] / 1e3:.2f} km, "
        f"governed by {design.governing.path}"
    )
hl.compare(stage, half)

# %%
hl.plot.margins(thin)

# %%
for caution in thin.cautions[:3]:
    print("-", caution)

# %% [markdown]
# ## Where the closures meet the wall
#
# A closure and a cylinder grow unlike under pressure and bend each other. Three closures on the
# same hoop-wound tank, each as thick as its own stress asks for: the weld sits at the edge, at
# zero.

# %%
ends = {
    "hemisphere": ("hemisphere", "5.3 mm"),
    "ellipsoid": ("ellipsoid_2_1", "9 mm"),
    "welded plate": ("flat_clamped", "26 mm"),
}
wound = hl.Stage.load(hl.example("petrel_hoop"))
tanks = {
    name: wound.replace(
        {
            "name": name,
            **{f"tank.{end}_closure.kind": kind for end in ("fore", "aft")},
            **{f"tank.{end}_closure.thickness": thickness for end in ("fore", "aft")},
        }
    )
    for name, (kind, thickness) in ends.items()
}
hl.plot.junctions(*tanks.values())

# %% [markdown]
# From which pressure on does the edge flow, up to which does it shake down, and where does the seam
# part? Plain text for a plain question: a leak begins where the first of these is not borne.

# %%
for name, tank in tanks.items():
    judged, (_, aft) = tank.assess(), tank.junctions()
    flows = aft.pressure * aft.yield_strength / aft.largest
    shakes_down = aft.pressure * (1 + aft.margin)
    parts = judged["pressures.burst"] * (1 + judged["margins.girth_seam_burst"])
    closure = judged["pressures.burst"] * (1 + judged["margins.fore_closure_burst"])
    followed = tank.load_history()
    print(
        f"{name}: {judged['tank.mass']:.2f} kg; the edge flows from {flows / BAR:.0f} bar on, in "
        f"every cycle above {shakes_down / BAR:.0f} bar; the seam parts at {parts / BAR:.0f} bar, "
        f"the closure at {closure / BAR:.0f} bar; if the metal does not harden, "
        f"{followed.ending} at {followed.ending_pressure / BAR:.0f} bar; "
        f"proof {judged['pressures.proof'] / BAR:.0f} bar"
    )

# %% [markdown]
# A seam that parts counts with its zone's ultimate strength; a metal that does not harden never
# gets there. The seam's membrane load is the same three times. What differs is the bending beside
# it: least at the hemisphere; at the plate it is beyond twice the yield strength of the weld zone
# already below MEOP, so that the weld flows back and forth with every filling, long before anything
# bursts.

# %% [markdown]
# ## How it is wound
#
# Whether the band stays where it is laid, and how high it piles up beside the openings.

# %%
winding = stage.winding()
hl.plot.winding(winding)

# %% [markdown]
# ## The lightest tank of what there is
#
# Walls a shop has (invented), a weld taken at its zone's strength or at 0.85 of that (a
# double-welded butt joint with spot radiography, ASME BPVC VIII-1, table UW-12), two thicknesses of
# dome: ranked, with the reason for every rejection.

# %%
efficiency = "tank.liner.girth_seam.joint_efficiency"
basis = "tank.liner.girth_seam.basis"
lightest = hl.lightest_tank(
    stage,
    {
        "tank.liner.wall": ["2.5 mm", "3 mm", "3.5 mm", "4 mm"],
        "weld": {
            "as welded": {basis: "weld_zone_strength"},
            "as welded, 0.85": {
                basis: "weld_zone_strength_and_joint_efficiency",
                efficiency: 0.85,
            },
        },
        "domes": {
            thickness: {f"tank.{end}_closure.thickness": thickness for end in ("fore", "aft")}
            for thickness in ("3.5 mm", "4.1 mm")
        },
    },
    keep=3,
)
lightest

# %% [markdown]
# ## Checks
#
# Strains return where they came from once the tank has seen more than the test asks for; the
# wrap works after autofrettage and idles without; half the liner is lighter, flies higher and
# does not hold.

# %%
after_autofrettage = loads.changes[0]
assert after_autofrettage.name == "autofrettage"
assert after_autofrettage.liner_flow is not None
proof = next(change for change in loads.changes if change.name == "proof")
assert proof.liner_flow is None
assert residual < 0.0
assert working["fibre_utilisation"] > 2 * idle["fibre_utilisation"]
assert thin["tank.mass"] < as_built["tank.mass"]
assert thin["ascent.apogee"] > as_built["ascent.apogee"]
assert thin.governing.value < 0.0 < as_built.governing.value
edges = {name: tank.junctions()[1].margin for name, tank in tanks.items()}
assert edges["hemisphere"] > edges["ellipsoid"] > edges["welded plate"]
assert edges["welded plate"] < 0.0
assert lightest.winner is not None
assert lightest.winner.inputs["tank.liner.wall"] == "3.5 mm"
