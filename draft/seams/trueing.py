"""Trueing: where a seam ends, the outlines of the two pieces are blended into one smooth line.

The seam itself stays as it is, and so does its last point. Each of the two edges that meet there takes half of the
turn that would leave them in line, over a stretch that the designer gives.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.geometry.cubic import cross, reverse
from draft.geometry.ends import end_directions
from draft.geometry.length import length, point_at, tangent_at
from draft.geometry.part import part
from draft.geometry.spline import hobby
from draft.piece import Edge, Floats, Garment, Join, Piece
from draft.seams.walk import Corner, corners

ENOUGH = 0.02  # degrees: less than the width of a pencil line a metre away


def trued(garment: Garment) -> Garment:
    """The garment with the outlines blended at the ends of every join that asks for it."""
    for join in garment.joins:
        if join.trued_over is not None:
            for at_start in (True, False):
                garment = _true_end(garment, join, at_start)
    return garment


def _true_end(garment: Garment, join: Join, at_start: bool) -> Garment:
    found = [c for c in corners(garment) if c.join is join and c.at_start == at_start]
    if not found or np.all(np.abs(found[0].kink) < ENOUGH):
        return garment
    for which in (0, 1):
        garment = _turn(garment, found[0], which)
    return garment


def _turn(garment: Garment, corner: Corner, which: int) -> Garment:
    """Turn the edge beside one side of the seam by half of the kink."""
    side = (corner.join.first, corner.join.second)[which][0]
    piece = garment.piece(side.piece)
    beside = piece.edge(corner.neighbours[which])
    if beside.on_fold:
        return garment
    seam = piece.edge(side.edge)
    seam_start = corner.at_start != side.reverse
    out, back = end_directions(seam.segments)
    along = out if seam_start else -back
    assert corner.join.trued_over is not None
    path = _blended(beside.segments, seam_start, along, corner.kink / 2, corner.join.trued_over)
    return _with_edge(garment, piece, replace(beside, segments=path))


def _blended(path: Floats, ends_there: bool, along: Floats, degrees: Floats, over: Floats) -> Floats:
    """A path whose last stretch (or first, unless `ends_there`) is redrawn to arrive turned towards the seam."""
    run = path if ends_there else reverse(path)
    whole = length(run)
    start = np.maximum(whole - over, whole / 2)
    arriving = end_directions(run)[1]
    away = -arriving
    turn = np.radians(degrees) * np.where(cross(away, along) < 0, -1.0, 1.0)
    c, s = np.cos(turn), np.sin(turn)
    turned = np.stack([c * away[:, 0] - s * away[:, 1], s * away[:, 0] + c * away[:, 1]], axis=-1)
    knots = np.stack([point_at(run, start), run[:, -1, 3]], axis=1)
    tail = hobby(knots, [tangent_at(run, start), -turned])
    blended = np.concatenate([part(run, np.zeros_like(start), start), tail], axis=1)
    return blended if ends_there else reverse(blended)


def _with_edge(garment: Garment, piece: Piece, edge: Edge) -> Garment:
    edges = tuple(edge if other.name == edge.name else other for other in piece.edges)
    changed = replace(piece, edges=edges)
    return replace(garment, pieces=tuple(changed if p.name == piece.name else p for p in garment.pieces))
