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
# # What does the airframe's diameter do to the apogee?
#
# The question has no answer until it is said what else changes when the diameter does. Here are
# three sets of follow rules around the same invented vehicle, Petrel slim, whose tank is also its
# airframe. All three start from one and the same design; only what follows the diameter differs.
#
# | set | what stays of the tank | of the load | of the thrust |
# |---|---|---|---|
# | same volume | volume; length follows | ullage | level; burn time follows |
# | same length | length; volume follows | ullage | level; burn time follows |
# | same shape | fineness ratio; length and volume follow | ullage | burn time; level follows |

# %%
import numpy as np

import hoopline as hl

stage = hl.Stage.load(hl.example("petrel_slim"))
rules = {
    "same volume": {"follow.tank": "volume", "follow.load": "ullage", "follow.thrust": "level"},
    "same length": {"follow.tank": "length", "follow.load": "ullage", "follow.thrust": "level"},
    "same shape": {"follow.tank": "fineness", "follow.load": "ullage", "follow.thrust": "duration"},
}
stages = {name: stage.replace(choices) for name, choices in rules.items()}
for name, each in stages.items():
    print(f"{name}: {each.assess()['ascent.apogee']:.3f} m")

# %% [markdown]
# Three rules, one design: the apogee at the base diameter is the same. Now the diameter is swept.

# %%
diameters = hl.linspace("130 mm", "220 mm", 46)
sweeps = {name: hl.sweep(each, {"tank.outer_diameter": diameters}) for name, each in stages.items()}
hl.plot.apogee_and_fineness(sweeps)

# %% [markdown]
# ## The difference in one sentence

# %%
base = stage["tank.outer_diameter"]
wide = 0.200


def at(name: str, path: str, diameter: float) -> float:
    """Result of a set of rules at a swept diameter."""
    axis = sweeps[name].axes["tank.outer_diameter"]
    return float(sweeps[name][path][np.argmin(abs(axis - diameter))])


def change(name: str, path: str) -> float:
    """Result at the wide diameter over the one at the base."""
    return at(name, path, wide) / at(name, path, base)


print(
    f"From {base * 1e3:.0f} to {wide * 1e3:.0f} mm the frontal area grows by "
    f"{change('same volume', 'airframe.frontal_area') - 1:.0%}: with the tank's volume kept there "
    f"is no more propellant to pay for it and the apogee falls to "
    f"{change('same volume', 'ascent.apogee'):.0%} of the base; with the length kept the "
    f"propellant grows to {change('same length', 'load.propellant'):.0%} at the same thrust and "
    f"the apogee goes to {change('same length', 'ascent.apogee'):.0%}; with the shape kept the "
    f"propellant grows to {change('same shape', 'load.propellant'):.0%}, the thrust with it, and "
    f"the apogee goes to {change('same shape', 'ascent.apogee'):.0%}."
)

# %% [markdown]
# ## Checks
#
# The three sets agree where they start, and each holds what it says it holds.

# %%
for name in rules:
    assert np.isclose(at(name, "ascent.apogee", base), stage.assess()["ascent.apogee"], rtol=1e-9)
assert np.isclose(change("same volume", "geometry.tank_volume"), 1.0, rtol=1e-12)
assert np.isclose(change("same length", "geometry.tank_length"), 1.0, rtol=1e-12)
assert np.isclose(change("same shape", "geometry.tank_fineness_ratio"), 1.0, rtol=1e-12)
assert np.isclose(change("same length", "thrust.mean"), 1.0, rtol=1e-12)
assert np.isclose(change("same shape", "thrust.burn_time"), 1.0, rtol=1e-12)
assert change("same volume", "ascent.apogee") < 1.0 < change("same shape", "ascent.apogee")
