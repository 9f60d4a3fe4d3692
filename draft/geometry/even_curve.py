"""Curves whose bend grows and falls without a step: along each stretch the curvature is one smooth polynomial.

The spline that `hobby` draws has the right directions at its knots, but its curvature jumps there, and beside a
straight leg it begins at once. Here every stretch is drawn anew with the same ends and directions and with a
curvature that both of its neighbours share. Where nothing lies beside an end, the curvature there is free and comes
out as plain as can be.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np

from draft.base.arrays import Bools, Floats, Ints
from draft.base.record import dataclass
from draft.geometry.cubic import NO_LENGTH, cross, curvature, dot, end_tangent, norm, split, start_tangent, turned
from draft.geometry.drawn_once import DrawnOnce

PARTS = 4
"""Cubics for each stretch: with as many, one that turns by a quarter circle keeps its curvature within a hundredth."""

STEPS = 12  # of Newton; five are usual
CLOSE = 1e-7  # of the chord: what is left when it has arrived
MOST_AT_A_STEP = 0.3  # of the length, and of half a turn
ONE_WAY = 1 / 8  # of the larger angle at its ends, the smaller: with less, it nears an S, which may bend back
LONGEST = 3.0  # chords: a stretch that came out longer has looped
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(5)
_PLACES = ((np.arange(PARTS)[:, None] + (1 + _NODES) / 2) / PARTS).ravel()
_SHARES = np.tile(_WEIGHTS / 2 / PARTS, PARTS)
_ENDS = np.arange(PARTS + 1) / PARTS


def evenly_bent(path: Floats, before: Floats, after: Floats) -> Floats:
    """The curve `(B, S, 4, 2)` drawn anew in `PARTS` cubics for each of its segments: `(B, S * PARTS, 4, 2)`.

    `before` and `after` are the curvatures `(B,)`, 1/mm, of what lies beside its ends; not a number where nothing
    does. A stretch that has no such line, as where it would have to loop, stays as it was.
    """
    return _KEPT(path, before, after)


def _bent(path: Floats, before: Floats, after: Floats) -> Floats:
    starts, ends = curvature(path, 0.0), curvature(path, 1.0)
    inner = [(ends[:, k] + starts[:, k + 1]) / 2 for k in range(path.shape[1] - 1)]
    bends = [before, *inner, after]
    drawn = [_among(path[:, k], bends[k], bends[k + 1]) for k in range(path.shape[1])]
    return np.concatenate(drawn, axis=1)


_KEPT = DrawnOnce(_bent)


def _among(seg: Floats, start: Floats, end: Floats) -> Floats:
    """One segment `(B, 4, 2)` in parts `(B, PARTS, 4, 2)`; each body's ends are held or free.

    Where a curve that turns one way would bend back at a free end, that end is as good as straight instead. The nearer
    its directions come to those of an S, the more of the bend it keeps: a hair's breadth never turns the one into the
    other.
    """
    drawn = _by_what_is_held(seg, start, end)
    way, share = _one_way(seg)
    first, last = curvature(drawn[:, 0], 0.0), curvature(drawn[:, -1], 1.0)
    at_first, at_last = (first * way < 0) & np.isnan(start), (last * way < 0) & np.isnan(end)
    again = at_first | at_last
    if again.any():
        kept = 1.0 - share
        starts, ends = np.where(at_first, kept * first, start), np.where(at_last, kept * last, end)
        drawn[again] = _by_what_is_held(seg[again], starts[again], ends[again])
    return drawn


def _one_way(seg: Floats) -> tuple[Floats, Floats]:
    """To which side segments `(B, 4, 2)` turn, 1 left and -1 right, or 0 for an S; and how far from an S, 0 to 1."""
    chord = seg[:, 3] - seg[:, 0]
    leaving, arriving = _angle(start_tangent(seg), chord), _angle(chord, end_tangent(seg))
    less, more = np.sort(np.abs([leaving, arriving]), axis=0)
    way = np.where(leaving * arriving > 0, np.sign(leaving), 0.0)
    return way, np.clip(less / np.maximum(more, 1e-12) / ONE_WAY, 0.0, 1.0)


def _by_what_is_held(seg: Floats, start: Floats, end: Floats) -> Floats:
    drawn = np.zeros((len(seg), PARTS, 4, 2))
    for held in ((one, other) for one in (True, False) for other in (True, False)):
        these = (np.isfinite(start) == held[0]) & (np.isfinite(end) == held[1])
        if these.any():
            bends = [bend[these] if is_held else None for bend, is_held in zip((start, end), held, strict=True)]
            drawn[these] = _stretch(seg[these], *bends)
    return drawn


def _stretch(seg: Floats, start: Floats | None, end: Floats | None) -> Floats:
    """One segment of bodies that are alike in what is held: `(B, 4, 2)` in parts `(B, PARTS, 4, 2)`."""
    chord, leaves = seg[:, 3] - seg[:, 0], start_tangent(seg)
    turn = _angle(leaves, chord) + _angle(chord, end_tangent(seg))
    shape = _Shape.of(turn, start, end)
    size = np.maximum(norm(chord), NO_LENGTH)
    aim = np.stack([dot(leaves, chord), cross(leaves, chord)], axis=-1)
    lengths, free, arrived = _found(shape, aim, size)
    good = arrived & (norm(chord) > NO_LENGTH) & (lengths < LONGEST * size)
    drawn = _drawn(shape, np.where(good, lengths, size), np.where(good, free, turn), seg[:, 0], leaves)
    return np.where(good[:, None, None, None], drawn, _parted(seg))


@dataclass(frozen=True)
class _Shape:
    """What the curvature is made of, each polynomial as its integral's coefficients, lowest first.

    `held` `(B, 5)` is what the given ends ask for each mm of length; `free` and `rest` `(5,)` are two shapes whose
    weights are sought, of which the second follows from the whole turn `(B,)`.
    """

    held: Floats
    free: Floats
    rest: Floats
    turn: Floats

    @classmethod
    def of(cls, turn: Floats, start: Floats | None, end: Floats | None) -> _Shape:
        degree = 1 + (start is not None) + (end is not None)
        basis = _integrals(degree)
        held = np.zeros((len(turn), 5))
        if start is not None:
            held = held + start[:, None] * basis[0]
        if end is not None:
            held = held + end[:, None] * basis[degree]
        first = 1 if start is not None else 0
        return cls(held, basis[first], basis[first + 1], turn)

    def at(self, rows: Ints) -> _Shape:
        """The same for some of the bodies."""
        return self if len(rows) == len(self.turn) else replace(self, held=self.held[rows], turn=self.turn[rows])

    def heading(self, at: Floats, lengths: Floats, free: Floats) -> tuple[Floats, Floats, Floats]:
        """The turn so far at shares `(N,)` of the way, and how it changes with length and `free`: `(B, N)` each."""
        held, one, rest = (_polynomial(part[..., None, :], at) for part in (self.held, self.free, self.rest))
        whole, a, b = self.held.sum(axis=1), self.free.sum(), self.rest.sum()
        weight = (self.turn - lengths * whole - free * a) / b
        turn = lengths[:, None] * held + free[:, None] * one + weight[:, None] * rest
        by_length = held - (whole / b)[:, None] * rest
        return turn, by_length, np.broadcast_to(one - a / b * rest, turn.shape)


def _polynomial(parts: Floats, at: Floats) -> Floats:
    """The sums of powers with coefficients `(..., 5)` at `at` `(N,)`: `(..., N)`, each body for itself."""
    total = parts[..., 4] * at
    for k in (3, 2, 1):
        total = (total + parts[..., k]) * at
    return np.asarray(total + parts[..., 0])


@cache
def _integrals(degree: int) -> Floats:
    """The integrals from 0 of the Bernstein polynomials of a degree, as coefficients `(degree + 1, 5)`."""
    found = np.zeros((degree + 1, 5))
    for k in range(degree + 1):
        poly = np.polynomial.Polynomial([0, 1]) ** k * np.polynomial.Polynomial([1, -1]) ** (degree - k)
        whole = (poly / poly.integ()(1.0) / (degree + 1)).integ()
        found[k, : len(whole.coef)] = whole.coef
    return found


def _found(shape: _Shape, aim: Floats, size: Floats) -> tuple[Floats, Floats, Bools]:
    """The length and the free weight `(B,)` that bring each stretch to its end `(B, 2)`, and whether they do."""
    lengths = size * (1 + shape.turn**2 / 24)
    free = shape.turn.copy()
    arrived = np.zeros(len(size), dtype=bool)
    left = np.arange(len(size))
    for step in range(STEPS + 1):
        some, near = shape.at(left), size[left]
        off, by_length, by_free = _off(some, aim[left], lengths[left], free[left])
        far = np.abs(off)
        still, arrived[left] = far >= CLOSE * near, far < CLOSE * near
        if step == STEPS or not still.any():
            break
        left, near, off, by_length, by_free = (each[still] for each in (left, near, off, by_length, by_free))
        d = by_length.real * by_free.imag - by_length.imag * by_free.real
        d = np.where(np.abs(d) > 1e-12 * near, d, np.inf)
        longer = -(off.real * by_free.imag - off.imag * by_free.real) / d
        more = -(by_length.real * off.imag - by_length.imag * off.real) / d
        lengths[left] += np.clip(longer, -MOST_AT_A_STEP * near, MOST_AT_A_STEP * near)
        free[left] += np.clip(more, -MOST_AT_A_STEP * np.pi, MOST_AT_A_STEP * np.pi)
    return lengths, free, arrived & (lengths > 0)


def _off(shape: _Shape, aim: Floats, lengths: Floats, free: Floats) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    turn, by_length, by_free = shape.heading(_PLACES, lengths, free)
    ways = np.exp(1j * turn)
    whole = _mean(ways)
    change = lengths * _mean(1j * ways * by_length) + whole, lengths * _mean(1j * ways * by_free)
    return lengths * whole - (aim[:, 0] + 1j * aim[:, 1]), *change


def _mean(values: np.ndarray) -> np.ndarray:
    """The mean of what is known at `_PLACES`, `(B, N)`: `(B,)`, each body for itself."""
    return np.asarray((values * _SHARES).sum(axis=-1))


def _drawn(shape: _Shape, lengths: Floats, free: Floats, start: Floats, leaves: Floats) -> Floats:
    """The stretch as cubics: each as an arc of its length and turn would be."""
    turn = shape.heading(_ENDS, lengths, free)[0]
    ways = np.exp(1j * shape.heading(_PLACES, lengths, free)[0]) * (_SHARES * lengths[:, None])
    steps = ways.reshape(len(ways), PARTS, -1).sum(axis=2)
    gone = np.concatenate([np.zeros((len(steps), 1)), np.cumsum(steps, axis=1)], axis=1)
    frame = np.broadcast_to(leaves[:, None], (*gone.shape, 2))
    places = start[:, None] + _in_frame(gone, frame)
    along = turned(frame, turn)
    bend = np.diff(turn, axis=1)
    reach = lengths[:, None] / PARTS * np.where(np.abs(bend) > 1e-6, 4 / 3 * np.tan(bend / 4) / _or_one(bend), 1 / 3)
    out, back = places[:, :-1] + reach[..., None] * along[:, :-1], places[:, 1:] - reach[..., None] * along[:, 1:]
    return np.stack([places[:, :-1], out, back, places[:, 1:]], axis=2)


def _or_one(angle: Floats) -> Floats:
    return np.where(np.abs(angle) > 1e-6, angle, 1.0)


def _in_frame(gone: np.ndarray, frame: Floats) -> Floats:
    left = np.stack([-frame[..., 1], frame[..., 0]], axis=-1)
    return np.asarray(gone.real[..., None] * frame + gone.imag[..., None] * left)


def _parted(seg: Floats) -> Floats:
    parts, rest = [], seg
    for k in range(PARTS, 1, -1):
        first, rest = split(rest, np.full(len(seg), 1 / k))
        parts.append(first)
    return np.stack([*parts, rest], axis=1)


def _angle(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.arctan2(cross(a, b), dot(a, b)))
