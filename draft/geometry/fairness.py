"""How fair a line is: its corners, how tightly it turns, and how often it changes the way that it turns."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from draft.geometry.cubic import Bools, Floats, curvature, end_tangent, norm, start_tangent
from draft.geometry.length import segment_lengths

PLACES = 16  # on each segment
SHORT = 0.5  # mm: a segment this short shows no shape of its own
STRAIGHT = 1e-4  # 1/mm: a line that turns less than this (a circle 20 m across) is straight to a sewer


@dataclass(frozen=True)
class Fairness:
    """Of paths `(B, S, 4, 2)`, for each body: the sharpest corner inside, in degrees; the tightest radius, mm; how
    often the curvature changes its sign; and how uneven it is: the root mean square of the change of curvature along
    the path times the path's length (0 for a straight line or an arc), after which two drafts can be compared."""

    corner: Floats
    radius: Floats
    turns: Floats
    unevenness: Floats


def fairness(path: Floats) -> Fairness:
    """Measure how fair paths `(B, S, 4, 2)` are; segments without length are passed over."""
    lengths = segment_lengths(path)
    there = lengths > SHORT
    bent = np.where(there[..., None], combs(path), 0.0)
    return Fairness(_corner(path, there), _radius(bent), _turns(bent), _unevenness(bent, lengths))


def combs(path: Floats) -> Floats:
    """The curvature, 1/mm with its sign, at evenly spaced parameters of each segment: `(B, S, PLACES + 1)`."""
    places = np.linspace(0.0, 1.0, PLACES + 1)
    shape = (*path.shape[:2], PLACES + 1)
    found = curvature(np.broadcast_to(path[:, :, None], (*shape, 4, 2)), np.broadcast_to(places, shape))
    return np.asarray(np.where(np.isfinite(found), found, 0.0))


def _corner(path: Floats, there: Bools) -> Floats:
    """The sharpest turn between one segment and the next that has a length."""
    leaves, arrives = start_tangent(path), end_tangent(path)
    sharpest = np.zeros(len(path))
    last = arrives[:, 0]
    begun = there[:, 0]
    for k in range(1, path.shape[1]):
        turn = np.degrees(np.arccos(np.clip(np.sum(last * leaves[:, k], axis=-1), -1.0, 1.0)))
        known = begun & there[:, k] & (norm(last) > 0.5)
        sharpest = np.where(known, np.maximum(sharpest, turn), sharpest)
        last = np.where(there[:, k, None], arrives[:, k], last)
        begun = begun | there[:, k]
    return sharpest


def _radius(bent: Floats) -> Floats:
    tightest = np.max(np.abs(bent), axis=(1, 2))
    return np.asarray(np.where(tightest > STRAIGHT, 1.0 / np.maximum(tightest, STRAIGHT), np.inf))


def _turns(bent: Floats) -> Floats:
    """How often the line, followed along, turns the other way; straight stretches between do not count."""
    signs = np.where(np.abs(bent) > STRAIGHT, np.sign(bent), 0.0).reshape(len(bent), -1)
    last = signs[:, 0]
    count = np.zeros(len(bent))
    for k in range(1, signs.shape[1]):
        count += signs[:, k] * last < 0
        last = np.where(signs[:, k] != 0, signs[:, k], last)
    return count


def _unevenness(bent: Floats, lengths: Floats) -> Floats:
    step = np.maximum(lengths, SHORT) / PLACES
    change = np.diff(bent, axis=2) / step[..., None]
    whole = np.maximum(lengths.sum(axis=1), SHORT)
    return np.asarray(np.sqrt(np.sum(change**2 * step[..., None], axis=(1, 2)) / whole) * whole**2)
