"""Long sleeves hang beside the body, as arms do; short ones stand out as they are cut.

A sleeve is turned about the point of the shoulder, its length kept: under the arm it goes from where it is sewn to the
body, without what folds there.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from draft.base.arrays import Floats
from draft.geometry.cubic import line, norm, unit
from draft.paper.flat.similar import Similar

_SHORT, _LONG = 280.0, 430.0
"""Up to so many mm from the shoulder a sleeve stands as it is cut, and from so many on it hangs."""
_HANGS = np.radians(63.0)
"""How far below the level a long sleeve hangs: it still stands clear of the hip."""
_HEAD = 130.0
"""The head of a sleeve rounds the shoulder over so many mm."""
_STANDS_OUT = 11.0
"""How far the head stands out from the shoulder, in mm, where a sleeve is turned by 40 degrees."""
_SOON = 0.3
"""The head leaves the shoulder turned by so much of the whole."""

_Lines = Sequence[tuple[str, Floats]]


def hung_down(lines: _Lines) -> tuple[list[tuple[str, Floats]], Similar]:
    """The lines `(n, 4, 2)` of a sleeve behind its seam, turned about the shoulder; the fold has no name.

    The move is that of what lies below the shoulder.
    """
    at = next((k for k, (name, _) in enumerate(lines) if not name), None)
    if at is None:
        return list(lines), Similar()
    last = at == len(lines) - 1  # else the fold begins at the shoulder, and what comes before it stays
    fold = lines[at][1]
    shoulder, end = (fold[-1, 3], fold[0, 0]) if last else (fold[0, 0], fold[-1, 3])
    turn = _turn(end - shoulder)
    if turn <= 0:
        return list(lines), Similar()
    move = _about(shoulder, end, turn)
    head = _head(shoulder, end, turn, move)
    found = [(name, run if not last and k < at else move.points(run)) for k, (name, run) in enumerate(lines)]
    found[at] = ("", head[::-1, ::-1] if last else head)
    under = 0 if last else len(lines) - 1
    if under != at:
        found[under] = (lines[under][0], _under(lines[under][1], found[under][1], from_start=last))
    return found, move


def _under(cut: Floats, turned: Floats, from_start: bool) -> Floats:
    """The line under the arm, from where it is sewn to the body."""
    return (line(cut[0, 0], turned[-1, 3]) if from_start else line(turned[0, 0], cut[-1, 3]))[None]


def _turn(axis: Floats) -> float:
    """By how much a sleeve is turned downward, in radians."""
    share = float(np.clip((norm(axis) - _SHORT) / (_LONG - _SHORT), 0.0, 1.0))
    return share * float(_HANGS - np.arctan2(-axis[1], abs(axis[0])))


def _about(shoulder: Floats, end: Floats, turn: float) -> Similar:
    """Turned about the shoulder, and a little outward."""
    by = complex(np.exp(-1j * turn))
    axis = complex(*unit(end - shoulder)) * by
    out = axis * 1j * _STANDS_OUT * turn / np.radians(40.0)
    return Similar(by, complex(*shoulder) * (1 - by) + complex(out))


def _head(shoulder: Floats, end: Floats, turn: float, move: Similar) -> Floats:
    """The fold of the sleeve from the shoulder on, a path `(2, 4, 2)`: round the shoulder, then straight."""
    cut, low = unit(end - shoulder), move.points(end)
    axis = unit(low - move.points(shoulder))
    foot = move.points(shoulder) + axis * _HEAD
    soon = complex(*cut) * np.exp(-1j * turn * _SOON)
    reach = float(norm(foot - shoulder)) / 3
    leave = np.array([soon.real, soon.imag])
    return np.stack([np.stack([shoulder, shoulder + reach * leave, foot - reach * axis, foot]), line(foot, low)])
