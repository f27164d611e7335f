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
# proof test, what breaks first and where, and what a liner of half the wall would change.
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
