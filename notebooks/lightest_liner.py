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
# # Which is the lightest liner that clears the burst margin?
#
# Burst alone is the wrong question: a wall that survives the burst pressure can still yield at
# proof, in the parent metal or in a weld that welding has softened. So the question is asked three
# times around the same invented vehicle, Petrel slim: for burst alone, for burst and proof, and
# for all that the stage is required to do. What governs changes, and with it the wall.

# %%
import hoopline as hl

stage = hl.Stage.load(hl.example("petrel_slim"))
wall = {"tank.liner.wall": ("0.5 mm", "8 mm")}
margins = [margin.path for margin in stage.assess().margins]
burst = {path: (0, None) for path in margins if path.endswith("_burst")}
questions = {
    "burst alone": burst,
    "burst and proof": dict.fromkeys(margins, (0, None)),
    "margins and requirements": None,  # what holds if nothing else is said
}
found = {
    name: hl.optimise(stage, wall, minimise="tank.mass", subject_to=bounds)
    for name, bounds in questions.items()
}
for name, answer in found.items():
    best = answer.best
    held = ", ".join(bound.text for bound in best.governing)
    print(f"{name}: {best.rounded()['tank.liner.wall']}, {best.goal:.2f} kg; held by {held}")

# %% [markdown]
# The wall for burst alone is thinner than the one the weld needs at proof pressure. Whoever had
# stopped at burst would have built a tank that yields along its girth seam in its first test.

# %%
hl.plot.optimum(found["burst and proof"])

# %%
found["margins and requirements"]

# %% [markdown]
# ## From what can be bought
#
# Nobody sells that wall. Over the walls a shop has (invented), the lightest that clears is one
# step up, and the next thinner one says what it would break.

# %%
stock = {"tank.liner.wall": ["2.5 mm", "3 mm", "3.5 mm", "4 mm"]}
bought = hl.optimise(stage, stock, minimise="tank.mass")
bought

# %% [markdown]
# ## When nothing fits
#
# With a budget of 7 kg for the tank no wall meets both. The search then gives the design that is
# short by the smallest share, and names what excludes what.

# %%
budget = {"margins": (0, None), "tank.mass": (None, "7 kg")}
hopeless = hl.optimise(stage, wall, minimise="tank.mass", subject_to=budget)
print(hopeless)

# %% [markdown]
# ## Checks
#
# A sweep over the same range finds no lighter wall that clears, and the wall as printed still
# clears when it is typed in again.

# %%
grid = hl.sweep(stage, {"tank.liner.wall": hl.linspace("0.5 mm", "8 mm", 1501)})
lightest = grid.smallest("tank.mass", margins_met=True)
answer = found["burst and proof"].best
assert answer.goal <= lightest["tank.mass"] <= answer.goal * 1.001
typed = stage.replace(answer.rounded()).assess()
assert typed.governing.value >= 0.0
assert found["burst alone"].best.goal < answer.goal < bought.best.goal
assert not hopeless.feasible
assert len(hopeless.conflict) == 2
