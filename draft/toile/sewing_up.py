"""A garment's pieces sewn into one mesh."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

import numpy as np
import shapely

from draft.base.arrays import Floats, Ints
from draft.garment.garment import Garment
from draft.toile.both_halves import all_panels, sides_differ, told_whole
from draft.toile.chosen_panels import Chosen, chosen, without
from draft.toile.closing_laps import close_laps
from draft.toile.dividing import Place, divided
from draft.toile.four_alike import told_apart
from draft.toile.mesher import mesh
from draft.toile.panel import Panel
from draft.toile.roles import check_roles, hems_of, is_parted, no_legs, not_worn, roles_of
from draft.toile.sewn import Role, Sewn


def sew(garment: Garment, body: int, edge_length: float, whole: bool = False) -> Sewn:
    """Half of the garment for one body, its triangles' edges about so long, mm; all of it where its sides differ.

    Raises CannotDress with the reason where it cannot be meshed.
    """
    no_legs(garment, body)
    garment = told_apart(garment)
    both = told_whole(garment, body) if whole or sides_differ(garment, body) else None
    found = chosen(garment, body) if both is None else all_panels(both, body)
    roles = roles_of(found)
    found = without(found, not_worn(found, roles, body))
    close_laps(found, roles, body)
    check_roles(found, roles)
    pairs = divided(found.panels, found.joins, edge_length, found.halved)
    for panel in found.panels.values():
        mesh(panel, edge_length)
    sewn = _together(found, roles, pairs, body, edge_length)
    if both is None:
        return sewn
    sides = tuple(both.sides.get(name, 0) for name in sewn.pieces)
    return replace(sewn, sides=sides, hangs_open=is_parted(found, roles), halved=False)


def _together(
    found: Chosen, roles: Mapping[str, Role], places: list[tuple[Place, Place]], body: int, edge_length: float
) -> Sewn:
    panels = list(found.panels.values())
    first = np.concatenate([[0], np.cumsum([len(panel.rest) for panel in panels])])
    start = {panel.name: int(at) for panel, at in zip(panels, first[:-1], strict=True)}
    pairs = np.array(
        [[start[piece] + int(found.panels[piece].at[line][k]) for piece, line, k in pair] for pair in places],
        dtype=np.intp,
    ).reshape(-1, 2)
    count = int(first[-1])
    middle = np.zeros(count, dtype=bool)
    for panel in panels:
        for edge in panel.middles & set(panel.parts):
            for line in panel.parts[edge]:
                middle[start[panel.name] + panel.at[line]] = True
    sizes = [len(panel.triangles) for panel in panels]
    merged = merge(count, pairs)
    return Sewn(
        rest=np.concatenate([panel.rest for panel in panels]),
        triangles=np.concatenate([panel.triangles + at for panel, at in zip(panels, first, strict=False)]),
        pieces=tuple(panel.name for panel in panels),
        piece_of_vertex=np.repeat(np.arange(len(panels)), np.diff(first)),
        piece_of_triangle=np.repeat(np.arange(len(panels)), sizes),
        pairs=pairs,
        merged=merged,
        on_middle=middle,
        grain=_ways([panel.piece.grain[body] for panel in panels], sizes),
        across=_ways([panel.piece.stretch[body] for panel in panels], sizes),
        layers=np.concatenate([layers_of(panel) for panel in panels]),
        edges=_edges(panels, start),
        roles=tuple(roles[panel.name] for panel in panels),
        hems=hems_of(found, roles, body),
        edge_length=edge_length,
        left_out=found.left_out,
    )


def merge(count: int, pairs: Ints) -> Ints:
    """Which of the vertices that move each one is, once pairs `(p, 2)` of them are sewn to one another."""
    root = np.arange(count)
    while len(pairs):
        least = np.minimum(root[pairs[:, 0]], root[pairs[:, 1]])
        lower = root.copy()
        for k in range(2):
            np.minimum.at(lower, root[pairs[:, k]], least)
            np.minimum.at(lower, pairs[:, k], least)
        lower = lower[lower]
        if (lower == root).all():
            break
        root = lower
    return np.asarray(np.unique(root, return_inverse=True)[1])


def _ways(ways: Iterable[Floats], sizes: Sequence[int]) -> Floats:
    return np.repeat(np.stack([way / np.hypot(*way) for way in ways]), sizes, axis=0)


def layers_of(panel: Panel) -> Floats:
    """The layers of each triangle of a panel `(t,)`: one more beside an edge that is faced."""
    found = np.full(len(panel.triangles), panel.layers)
    middles = panel.rest[panel.triangles].mean(axis=1)
    for name, width in panel.doubled:
        line = shapely.linestrings(panel.lines[name].points)
        found[shapely.distance(line, shapely.points(middles)) < width] += 1.0
    return found


def _edges(panels: Sequence[Panel], start: Mapping[str, int]) -> dict[tuple[str, str], Ints]:
    return {
        (panel.name, edge): start[panel.name] + np.concatenate([panel.at[line] for line in lines])
        for panel in panels
        for edge, lines in panel.parts.items()
    }
