"""Linear elasticity of a body of revolution by finite elements: quadratic quadrilaterals.

The library behind it, scikit-fem, is for general purposes and knows nothing of shells.
"""

import dataclasses
from collections.abc import Callable
from typing import Any

import numpy as np
import skfem
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclasses.dataclass(frozen=True)
class Surface:
    """Stresses along a surface, in order of the places of the facets."""

    along: Array
    axial: Array
    hoop: Array


@dataclasses.dataclass(frozen=True)
class Section:
    """A half section, radius and axial distance, by quadrilaterals.

    `plan` is the mesh before it was mapped, in which facets are told apart; `pressed` are the
    facets under pressure, `mirror` those on a plane of symmetry across the axis, `axis` those on
    the axis, `surfaces` those of which stresses are wanted, with the coordinate that orders them.
    """

    mesh: Any
    plan: Any
    pressed: Array
    mirror: Array
    axis: Array
    surfaces: tuple[tuple[Array, int], ...]


def strip(
    along: Array, across: Array, section: Callable[[Array, Array], tuple[Array, Array]]
) -> Section:
    """A strip along a meridian: its first end is the mirror, its last lies on the axis.

    `section` maps places along and across the strip to radius and axial distance; the strip's first
    side is the inside. Stresses are those of the inside, then of the outside.
    """
    plan = skfem.MeshQuad2.from_mesh(skfem.MeshQuad.init_tensor(along, across))
    mesh = dataclasses.replace(plan, doflocs=np.vstack(section(*plan.doflocs)))
    inside, outside = facets(plan, 1, across[0]), facets(plan, 1, across[-1])
    ends = facets(plan, 0, along[0]), facets(plan, 0, along[-1])
    return Section(mesh, plan, inside, *ends, ((inside, 0), (outside, 0)))


def facets(plan: Any, axis: int, value: float) -> Array:
    """Facets on the rim where a coordinate has a value."""
    on = plan.facets_satisfying(lambda place: np.isclose(place[axis], value), boundaries_only=True)
    return np.asarray(on)


def solve(body: Section, modulus: float, poisson: float) -> tuple[Surface, ...]:
    """Stresses on the body's surfaces under a unit of pressure, along them and around."""
    mesh = body.mesh
    element = skfem.ElementVector(skfem.ElementQuad2())
    basis = skfem.Basis(mesh, element, intorder=5)
    shear = modulus / (2 * (1 + poisson))
    lame = 2 * shear * poisson / (1 - 2 * poisson)

    def strains(field, place):
        slope = field.grad
        return slope[0, 0], slope[1, 1], field[0] / place[0], slope[0, 1] + slope[1, 0]

    @skfem.BilinearForm
    def stiffness(u, v, w):
        of, by = strains(u, w.x), strains(v, w.x)
        direct = sum(a * b for a, b in zip(of[:3], by[:3], strict=True))
        work = lame * sum(of[:3]) * sum(by[:3]) + 2 * shear * direct + shear * of[3] * by[3]
        return w.x[0] * work

    @skfem.LinearForm
    def pressure(v, w):
        return -w.x[0] * (w.n[0] * v[0] + w.n[1] * v[1])

    held = [
        *(basis.get_dofs(body.mirror).all("u^2")),
        *(basis.get_dofs(body.axis).all("u^1")),
    ]
    loads = pressure.assemble(skfem.FacetBasis(mesh, element, facets=body.pressed, intorder=5))
    moved = skfem.solve(*skfem.condense(stiffness.assemble(basis), loads, D=np.unique(held)))

    def surface(on, by):
        # The middle of each facet.
        there = skfem.FacetBasis(mesh, element, facets=on, intorder=1)
        field = there.interpolate(moved)
        radial, axial, hoop, slide = strains(field, np.asarray(there.global_coordinates()))
        mean = lame * (radial + axial + hoop)
        normal = np.asarray(there.normals)
        across_, along_ = -normal[1], normal[0]
        meridian = (
            (mean + 2 * shear * radial) * across_**2
            + (mean + 2 * shear * axial) * along_**2
            + 2 * shear * slide * across_ * along_
        )
        where = body.plan.p[by][body.plan.facets[:, on]].mean(axis=0)
        order = np.argsort(where)
        around = mean + 2 * shear * hoop
        return Surface(where[order], meridian.mean(axis=1)[order], around.mean(axis=1)[order])

    return tuple(surface(*on) for on in body.surfaces)
