"""Cloth brought to rest: Newton's steps, each as long as it goes downhill.

What is asked is a `Question`: a form in the way, springs that hold some vertices, friction or none. Its answer is a
least energy, and does not depend on how the cloth came there unless friction is asked for.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.base.record import dataclass
from draft.toile.block_matrix import BlockMatrix
from draft.toile.by_levels import ByLevels
from draft.toile.conjugate_gradients import MOST, WITHIN, Near, solved
from draft.toile.contact import OUTSIDE, STIFFNESS, Friction, Touch, touch
from draft.toile.dressed import FormField
from draft.toile.sewn_cloth import SewnCloth
from draft.toile.vertex_levels import levels_of

LONGEST = 30.0
"""mm that one step may move a vertex: farther, the form might be jumped over."""
_FRICTION_ANEW = 4
_FACTORED_ANEW = 4
"""Steps that a whole garment's factors serve; conjugate gradients make up for what has changed meanwhile."""
_DOWNHILL = 1e-4
_SHORTEST = 1e-3


@dataclass(frozen=True, eq=False)
class Springs:
    """Vertices `(k,)` drawn to places `(k, 3)` by stiffnesses `(k, 3)` N/mm; `from_above` only from higher up."""

    vertices: Ints
    places: Floats
    stiffness: Floats
    from_above: bool = False

    def off(self, x: Floats) -> Floats:
        """How far from their places they pull, `(k, 3)` mm, at positions `(v, 3)`."""
        found = x[self.vertices] - self.places
        return np.maximum(found, 0.0) if self.from_above else found


@dataclass(frozen=True, eq=False)
class Question:
    """What the cloth is to settle under."""

    field: FormField
    springs: Sequence[Springs] = ()
    friction: float = 0.0
    anchor: Floats | None = None
    """Where it lay before it began to slide `(v, 3)`, with friction."""
    weight: float = 1.0
    """Times its own."""
    loads: Floats | None = None
    """Forces on vertices besides, `(v, 3)` N."""
    stiffness: float = STIFFNESS
    outside: float = OUTSIDE


@dataclass(frozen=True, eq=False)
class Rest:
    """Positions `(v, 3)`, how far the last step moved any of them in mm, and how deep each lies, `(v,)` mm."""

    x: Floats
    last_step: float
    depth: Floats
    steps: int


@dataclass(frozen=True)
class Pace:
    """How a solve goes: at most so many steps, until none moves a vertex by more than `until` mm.

    `drag` N/mm3 holds each mm2 back at where the solve began, so that what nothing holds does not run away.
    """

    drag: float
    steps: int
    until: float
    within: float = WITHIN
    most: int = MOST
    by_levels: bool = False
    """Whether each step is as exact as it can be: dearer than one by conjugate gradients alone, and fewer of them."""


def settle(cloth: SewnCloth, x: Floats, question: Question, pace: Pace) -> Rest:
    """Brings the cloth to rest from positions `(v, 3)`."""
    solver = _Solver(cloth, question, x, pace)
    last, touched, taken = np.inf, None, 0
    for taken in range(1, pace.steps + 1):
        x, last, touched = solver.step(x, taken - 1)
        if last < pace.until:
            break
    depth = np.zeros(cloth.count) if touched is None else touched.depth
    return Rest(x, last, depth, taken)


class _Solver:
    def __init__(self, cloth: SewnCloth, question: Question, start: Floats, pace: Pace) -> None:
        self._cloth, self._question, self._start, self._pace = cloth, question, start, pace
        self._drag = pace.drag * cloth.areas
        self._loads = np.zeros(cloth.count)
        parted = None if cloth.mirrored else start[:, 0] < 0
        self._levels = levels_of(cloth.pattern, parted) if pace.by_levels else None
        self._near: Near | None = None

    def step(self, x: Floats, number: int) -> tuple[Floats, float, Touch]:
        """One step: new positions, how far it moved any, and the form as it was felt before."""
        cloth = self._cloth
        if self._question.friction and number % _FRICTION_ANEW == 0:
            felt = touch(x, cloth.areas, self._question.field, self._question.stiffness, self._question.outside, None)
            self._loads = self._question.stiffness * cloth.areas * felt.depth
        energy, gradient, blocks = cloth.membrane.with_blocks(x)
        touched = self._touch(x)
        more, slope, own = self._besides(x)
        gradient = (gradient + touched.gradient + slope) * ~cloth.held
        matrix = BlockMatrix(cloth.pattern, blocks, touched.blocks + own)
        if self._levels is not None and (cloth.mirrored or number % _FACTORED_ANEW == 0):
            self._near = ByLevels(self._levels, matrix, cloth.pattern, cloth.held).solved
        way = solved(matrix, -gradient, cloth.held, self._pace.within, self._pace.most, self._near)
        far = float(np.abs(way).max())
        share = self._downhill(x, way, energy + touched.energy + more, float((gradient * way).sum()), far)
        return x + share * way, far * share, touched

    def _downhill(self, x: Floats, way: Floats, energy: float, slope: float, far: float) -> float:
        share = min(1.0, LONGEST / max(far, 1e-12))
        while share > _SHORTEST:
            there = x + share * way
            found = self._cloth.membrane.energy(there)[0] + self._touch(there).energy + self._besides(there)[0]
            if found <= energy + _DOWNHILL * share * slope + 1e-11:
                break
            share /= 2
        return share

    def _touch(self, x: Floats) -> Touch:
        question, cloth = self._question, self._cloth
        friction = None
        if question.friction and question.anchor is not None:
            friction = Friction(question.friction, question.anchor, self._loads)
        return touch(x, cloth.areas, question.field, question.stiffness, question.outside, friction)

    def _besides(self, x: Floats) -> tuple[float, Floats, Floats]:
        """Weight, bending, springs, drag and the other half: energy, gradient `(v, 3)`, blocks `(v, 3, 3)`."""
        cloth, question = self._cloth, self._question
        bent = cloth.pattern.bent_by(x)
        moved = x - self._start
        energy = float((x * bent).sum()) / 2 + float((self._drag[:, None] * moved * moved).sum()) / 2
        gradient = bent + self._drag[:, None] * moved
        weights = question.weight * cloth.weights
        energy += float((weights * x[:, 2]).sum())
        gradient[:, 2] += weights
        diagonal = np.repeat(self._drag[:, None], 3, axis=1)
        if question.loads is not None:
            energy -= float((question.loads * x).sum())
            gradient -= question.loads
        for springs in question.springs:
            off = springs.off(x)
            energy += float((springs.stiffness * off * off).sum()) / 2
            np.add.at(gradient, springs.vertices, springs.stiffness * off)
            acting = springs.stiffness * (off > 0) if springs.from_above else springs.stiffness
            np.add.at(diagonal, springs.vertices, acting)
        if cloth.mirrored:
            beyond = np.minimum(x[:, 0], 0.0)
            stiff = question.stiffness * cloth.areas
            energy += float((stiff * beyond * beyond).sum()) / 2
            gradient[:, 0] += stiff * beyond
            diagonal[:, 0] += stiff * (beyond < 0)
        own = np.zeros((cloth.count, 3, 3))
        own[:, range(3), range(3)] = diagonal
        return energy, gradient, own
