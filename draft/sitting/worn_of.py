"""A dressed garment and its form as they are looked at: both halves, what is stretched, what stands off, what pulls."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Floats, Ints
from draft.form.field import Field
from draft.form.landmarks import Landmarks
from draft.form.skin import surface_of
from draft.form.standing_off import stands_off
from draft.sitting.as_cut import as_cut
from draft.sitting.strains import Strains, areas, at_points, strains
from draft.sitting.worn import Worn, mirrored
from draft.toile.dressed import Dressed, Settled, State
from draft.toile.sewn import Sewn

_PULLS, _STILL_PULLS, _CREASES = 0.025, 0.012, -0.003
"""Shares of stretch: a stroke is drawn where cloth is stretched so far one way, still is when it is let go, and is
slack across."""
_NARROWS = 0.3
"""Of its stretch by which cloth becomes narrower by itself: no crease yet (a tube that is stretched: 0.2)."""
_ALONG = 0.87  # cosine: within 30 degrees of where it pulled before
_STROKE, _LONGER, _APART = 14.0, 160.0, 32.0
_OVER, _TIGHT_OVER = 25.0, 0.06
"""mm below the shoulder points down to which cloth lies over the shoulders, and the stretch that counts there."""


def worn_of(
    dressed: Dressed, field: Field, bare: Field, marks: Landmarks, doubtful: Floats, state: State = "down"
) -> Worn:
    """How a garment looks in one state; `doubtful` `(v,)` is 1 for each vertex that is not to be trusted."""
    sewn, settled = dressed.sewn, dressed.states[state]
    found = strains_of(sewn, settled)
    skin, naked = surface_of(field), surface_of(bare)
    corners, again = _parted(sewn)
    positions = settled.positions[again]
    single = np.where(as_cut(sewn), np.maximum(found.greatest, 0.0), 0.0)
    stretched = at_points(single, areas(sewn.rest, sewn.triangles), corners, len(again))
    off = np.maximum(stands_off(field, settled.positions, skin), 0.0)[again]
    points, triangles = mirrored(positions, corners) if sewn.halved else (positions, corners)
    doubt = doubtful[again]
    doubt[sewn.count :] = 1.0
    twice = 2 if sewn.halved else 1
    seams, edges = _lines(sewn, settled.positions)
    drags = _drags(sewn, found, dressed, settled.positions, doubtful, marks.levels["shoulder"] - _OVER)
    return Worn(
        points,
        triangles,
        np.tile(stretched, twice),
        np.tile(off, twice),
        np.tile(doubt, twice),
        _both(drags) if sewn.halved else drags,
        tuple(_both_lines(seams) if sewn.halved else seams),
        tuple(_both_lines(edges) if sewn.halved else edges),
        *mirrored(skin.points, skin.triangles),
        *mirrored(naked.points, naked.triangles),
        bare,
        marks.levels,
        dressed.hem[state],
        apart=not sewn.halved,
    )


def _parted(sewn: Sewn) -> tuple[Ints, Ints]:
    """The corners of triangles `(t, 3)`, where bands have points of their own behind the garment's; and which of the
    garment's each point is, `(p,)`.

    Nothing is then carried over from a band, of which nothing is to be trusted, to what it is sewn to, nor back.
    """
    corners, sewing = sewn.merged[sewn.triangles], ~as_cut(sewn)
    own, number = np.unique(corners[sewing], return_inverse=True)
    corners[sewing] = sewn.count + number.reshape(-1, 3)
    return corners, np.concatenate([np.arange(sewn.count), own])


def form_alone(field: Field, bare: Field, marks: Landmarks) -> Worn:
    """A form without any garment."""
    skin, naked = surface_of(field), surface_of(bare)
    none, flat = np.zeros((0, 3)), np.zeros(0)
    return Worn(
        none, np.zeros((0, 3), dtype=np.intp), flat, flat, flat, np.zeros((0, 2, 3)), (), (),
        *mirrored(skin.points, skin.triangles), *mirrored(naked.points, naked.triangles),
        bare, marks.levels,
    )  # fmt: skip


def strains_of(sewn: Sewn, settled: Settled) -> Strains:
    """How the triangles of a settled garment are strained."""
    return strains(sewn.rest, settled.positions, sewn.triangles, sewn.merged[sewn.triangles])


# ---- strokes of tension ---------------------------------------------------------------------------------------------


def _drags(
    sewn: Sewn, down: Strains, dressed: Dressed, positions: Floats, doubtful: Floats, shoulders: float
) -> Floats:
    """Strokes `(k, 2, 3)` where the cloth pulls one way and is slack across, also when it has been let go.

    Above the height of the `shoulders` only where it is tight: no more is known there.
    """
    corners = sewn.merged[sewn.triangles]
    pulls = (down.greatest > _PULLS) & (down.least < _CREASES - _NARROWS * down.greatest) & as_cut(sewn)
    if "held" in dressed.states:
        held = strains_of(sewn, dressed.states["held"])
        alike = np.abs((held.way * down.way).sum(axis=1)) > _ALONG
        pulls &= (held.greatest > _STILL_PULLS) & alike
    pulls &= doubtful[corners].max(axis=1) < 0.5
    middles = positions[corners].mean(axis=1)
    pulls &= (middles[:, 2] < shoulders) | (down.greatest > _TIGHT_OVER)
    chosen = _apart(middles, np.where(pulls, down.greatest, 0.0))
    long = _STROKE + _LONGER * np.minimum(down.greatest[chosen], 0.12)
    reach = long[:, None] * down.way[chosen]
    lifted = middles[chosen] * [1.0, 1.0, 1.0]
    return np.stack([lifted - reach, lifted + reach], axis=1)


def _apart(middles: Floats, weights: Floats) -> Ints:
    """The heaviest ones, none within so many mm of a heavier one."""
    chosen: list[int] = []
    for k in np.argsort(-weights):
        if weights[k] <= 0:
            break
        if not chosen or np.linalg.norm(middles[chosen] - middles[k], axis=1).min() > _APART:
            chosen.append(int(k))
    return np.array(chosen, dtype=np.intp)


def _both(drags: Floats) -> Floats:
    return np.concatenate([drags, drags * [-1.0, 1.0, 1.0]])


# ---- seams and edges ------------------------------------------------------------------------------------------------


def _lines(sewn: Sewn, positions: Floats) -> tuple[list[Floats], list[Floats]]:
    """The lines along which pieces are sewn, and the edges that are finished alone."""
    joined = np.zeros(len(sewn.rest), dtype=bool)
    joined[sewn.pairs.ravel()] = True
    seams: list[Floats] = []
    edges: list[Floats] = []
    known: set[frozenset[int]] = set()
    for vertices in sewn.edges.values():
        if len(vertices) < 2 or _in_the_middle(sewn, vertices):
            continue
        moved = sewn.merged[vertices]
        if frozenset(moved.tolist()) in known:
            continue
        known.add(frozenset(moved.tolist()))
        (seams if joined[vertices].mean() > 0.9 else edges).append(positions[moved])
    return seams, edges


def _in_the_middle(sewn: Sewn, vertices: Ints) -> bool:
    return bool(sewn.on_middle[vertices].all())


def _both_lines(lines: list[Floats]) -> list[Floats]:
    return [*lines, *(line * [-1.0, 1.0, 1.0] for line in lines)]
