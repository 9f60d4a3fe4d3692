"""The whole garment laid round a body that is pressed flat: front before it, back behind, sleeves folded, bands beyond.

No vertex needs to lie well: what is pulled apart here comes together while the body grows.
"""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.toile.sewn import Sewn
from draft.toile.trunk_laid import TRUNK, LaidFlat

GAP = 6.0
"""mm from the middle at which front and back lie while they are flat."""
_ROUNDED = 15.0  # mm from a sleeve's fold in which it turns from front to back
_OVER = 12.0  # mm by which a sleeve's fold is laid higher than its seam asks, clear of a thin arm
_CENTRED = 100.0  # mm beyond the corner under the arm over which a sleeve comes to lie round it
_BAND = 0.9  # of its width that a band is laid out


def laid_round(sewn: Sewn, flat: LaidFlat, up: float, arm: float, joint: Floats) -> Floats:
    """Positions `(v, 3)` of the vertices that move, the pattern's zero so high; sleeves lie so far below level.

    `joint` `(3,)` is the shoulder's: beyond the corner under the arm a sleeve lies evenly on both sides of the arm.
    """
    places = np.full((len(sewn.rest), 3), np.nan)
    role = np.array(sewn.roles)[sewn.piece_of_vertex]
    trunk = np.isin(role, TRUNK)
    places[trunk, 0], places[trunk, 2] = flat.places[trunk, 0], flat.places[trunk, 1] + up
    places[trunk, 1] = np.where(role[trunk] == "front", -GAP, GAP)
    for number, its in enumerate(sewn.roles):
        if its == "sleeve":
            own = np.flatnonzero(sewn.piece_of_vertex == number)
            turned = _other_half(sewn, places, own)
            places[own] = turned * _sleeve(sewn, turned * places, role == "front", own, arm, joint)
    merged = _between(sewn, places)
    _lay_bands(sewn, merged)
    merged[sewn.merged[sewn.on_middle], 0] = 0.0
    return merged


def _other_half(sewn: Sewn, places: Floats, own: Ints) -> Floats:
    """What turns a sleeve of the right half into one of the left, and back."""
    pairs = np.concatenate([sewn.pairs, sewn.pairs[:, ::-1]])
    beside = places[pairs[np.isin(pairs[:, 0], own), 1], 0]
    return np.array([-1.0 if np.nanmean(beside) < 0 else 1.0, 1.0, 1.0])


def _sleeve(sewn: Sewn, places: Floats, before: Bools, own: Ints, arm: float, joint: Floats) -> Floats:
    """A sleeve folded along its top, its grain along the arm."""
    grain = sewn.grain[np.flatnonzero(sewn.piece_of_triangle == sewn.piece_of_vertex[own[0]])[0]]
    pairs = np.concatenate([sewn.pairs, sewn.pairs[:, ::-1]])
    inner = pairs[np.isin(pairs[:, 0], own) & np.isin(pairs[:, 1], own)]
    outer = pairs[np.isin(pairs[:, 0], own) & ~np.isnan(places[pairs[:, 1], 0])]
    down = -sewn.rest @ grain
    across = sewn.rest @ np.array([grain[1], -grain[0]])
    wide = across[own].max() - across[own].min()
    under = inner[np.abs(across[inner[:, 0]] - across[inner[:, 1]]) > 0.5 * wide]
    middle = float((across[under[:, 0]] + across[under[:, 1]]).mean() / 2)
    front = outer[before[outer[:, 1]], 0]
    sign = -1.0 if not len(front) or across[front].mean() > middle else 1.0
    off = across - middle
    out = np.maximum(np.abs(off) - _dart(down, off, inner), 0.0)
    along = down - down[outer[:, 0]].min()
    way = np.array([np.cos(arm), -np.sin(arm)])
    beside = np.array([-np.sin(arm), -np.cos(arm)])
    found = along[:, None] * way + out[:, None] * beside
    shift = (places[outer[:, 1]][:, [0, 2]] - found[outer[:, 0]]).mean(axis=0) - _OVER * beside
    middle_of_arm = float((joint[[0, 2]] - shift) @ beside)
    found += (_round_arm(along, out, under[:, 0], middle_of_arm))[:, None] * beside
    y = np.where(sign * off > 0, GAP, -GAP) * np.minimum(np.abs(off) / _ROUNDED, 1.0)
    return np.stack([found[own, 0] + shift[0], y[own], found[own, 1] + shift[1]], axis=1)


def _round_arm(along: Floats, out: Floats, under: Ints, middle: float) -> Floats:
    """By how much each place is moved so that the arm, so far from the fold, lies in the middle of the sleeve."""
    order = under[np.argsort(along[under])]
    wide = np.interp(along, along[order], out[order])
    beyond = np.clip((along - along[order[0]]) / _CENTRED, 0.0, 1.0)
    return np.asarray(beyond * beyond * (3 - 2 * beyond) * (middle - wide / 2))


def _dart(down: Floats, off: Floats, inner: Ints) -> Floats:
    """Half the width of the dart over the shoulder of a sleeve that reaches the neck, at each height."""
    narrow = inner[(off[inner[:, 0]] > off[inner[:, 1]])]
    gap = off[narrow[:, 0]] - off[narrow[:, 1]]
    upper = np.median(down[inner[:, 0]]) if len(inner) else 0.0
    dart = narrow[(down[narrow[:, 0]] < upper) & (gap < 0.6 * max(gap.max(initial=0.0), 1.0))]
    if len(dart) < 2:
        return np.zeros_like(off)
    order = np.argsort(down[dart[:, 0]])
    level, half = down[dart[order, 0]], (off[dart[order, 0]] - off[dart[order, 1]]) / 2
    return np.where(down <= level[-1], np.interp(down, level, half), 0.0)


def _between(sewn: Sewn, places: Floats) -> Floats:
    """What is sewn to one another lies halfway; what has no place yet has none."""
    known = ~np.isnan(places[:, 0])
    total, count = np.zeros((sewn.count, 3)), np.zeros(sewn.count)
    np.add.at(total, sewn.merged[known], places[known])
    np.add.at(count, sewn.merged[known], 1.0)
    return np.where(count[:, None] > 0, total / np.maximum(count, 1.0)[:, None], np.nan)


def _lay_bands(sewn: Sewn, merged: Floats) -> None:
    """Bands, beyond the edges that they are sewn to; in place."""
    outward = _outward(sewn, merged)
    for number, its in enumerate(sewn.roles):
        if its != "band":
            continue
        own = np.flatnonzero(sewn.piece_of_vertex == number)
        there = ~np.isnan(merged[sewn.merged[own], 0])
        base, free = own[there], own[~there]
        away = sewn.rest[free][:, None] - sewn.rest[base][None]
        near = np.argmin((away**2).sum(axis=2), axis=1)
        far = np.sqrt((away[np.arange(len(free)), near] ** 2).sum(axis=1))
        foot = sewn.merged[base[near]]
        merged[sewn.merged[free]] = merged[foot] + _BAND * far[:, None] * outward[foot]


def _outward(sewn: Sewn, merged: Floats) -> Floats:
    """At each vertex, the way from the middle of its neighbours to it, without its depth: unit vectors `(v, 3)`."""
    triangles = sewn.merged[sewn.triangles[~_bands(sewn)]]
    middle = merged[triangles].mean(axis=1)
    total, count = np.zeros((sewn.count, 3)), np.zeros(sewn.count)
    for k in range(3):
        np.add.at(total, triangles[:, k], middle)
        np.add.at(count, triangles[:, k], 1.0)
    way = np.nan_to_num(merged - total / np.maximum(count, 1.0)[:, None]) * np.array([1.0, 0.0, 1.0])
    return np.asarray(way / np.maximum(np.linalg.norm(way, axis=1), 1e-9)[:, None])


def _bands(sewn: Sewn) -> Bools:
    return np.asarray(np.array([role == "band" for role in sewn.roles])[sewn.piece_of_triangle])
