"""A dress form of bodies: rings level by level whose tape reads what was measured, with neck, arms and legs."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN, Wearers
from draft.form.before_and_behind import before_and_behind
from draft.form.between_rows import between_rows, rows_between
from draft.form.measured import Measured, measured
from draft.form.mounds import Bust, bust_of, mound, reach
from draft.form.section import of_aspect, ring, supports, taped, taped_with, with_girth
from draft.form.stature_levels import BALANCE, LEVELS, Heights, heights, rising
from draft.form.tubes import Tube, arms, legs

COUNTS = np.array([6, 9, 9, 9, 6, 6, 4, 4, 3, 3, 3, 2, 3])
"""Rows from each level to the next: a centimetre or two apart."""
ROW = dict(zip(LEVELS, np.concatenate([[0], np.cumsum(COUNTS)]).tolist(), strict=True))
"""The row of each level."""
_SHARPNESS = {"armpit": 2.6, "chest": 2.5, "under_shoulder": 2.3, "shoulder": 2.05}
_DEPTH = {"armpit": 0.95, "chest": 0.85, "under_shoulder": 0.75, "shoulder": 0.62}
"""Of the ribs' depth at the bust."""
_NECK_DEPTH = {"collar": 1.10, "side_neck": 1.08, "throat": 1.06}
"""Of the neck's radius: its foot slants from the nape down to the pit of the throat."""


@dataclass(frozen=True)
class Form:
    """The forms of bodies, mm.

    `rows` are heights above the floor `(bodies, rows)`, rising; `halves` the left half of a ring at each, from the
    middle of the front to that of the back, `(bodies, rows, points, 2)`: x to the side, y to the back.
    """

    names: tuple[str, ...]
    measured: Measured
    rows: Floats
    halves: Floats
    heights: Heights
    bust: Bust
    arm: Tube
    leg: Tube

    @property
    def cautions(self) -> tuple[tuple[str, ...], ...]:
        """For each body what to be careful of, in words."""
        return self.measured.cautions

    def girth(self, level: str) -> Floats:
        """What a tape at one of the levels reads, mm `(bodies,)`."""
        return taped(self.halves[:, ROW[level]])

    def girths(self, body: int) -> Floats:
        """What a tape at each row of one body reads, mm `(rows,)`."""
        return taped(self.halves[body])

    def over_arms(self) -> Floats:
        """What a tape round shoulders and hanging arms reads, mm `(bodies,)`."""
        return taped_with(self.halves[:, ROW["chest"]], self.arm.start[:, :2], self.arm.radii[:, 0])


def form_of(bodies: Bodies, wearers: Wearers = WOMEN) -> Form | None:
    """The forms of bodies, or None where none can be made: children's, or without bust, waist and hip."""
    m = measured(bodies, wearers)
    return None if m is None else formed(bodies.names, m)


def formed(names: tuple[str, ...], m: Measured) -> Form:
    """The forms of bodies of which all measures are there."""
    bust = bust_of(m)
    at = heights(m, bust.forward)
    at = _balanced(m, at, bust)
    rows = rows_between(at.levels, COUNTS)
    halves = _mounded(m, _rings(m, at, bust, rows), at, bust, rows)
    halves = _with_high_bust(m, halves)
    arm = arms(m, _joint(m, halves, at), _middle(halves, "chest"), at)
    leg = legs(m, halves[:, ROW["crotch"], :, 0].max(axis=-1), _middle(halves, "crotch"), at)
    return Form(names, m, rows, halves, at, bust, arm, leg)


# ---- rings ----------------------------------------------------------------------------------------------------------


def _rings(m: Measured, at: Heights, bust: Bust, rows: Floats) -> Floats:
    """The rings of all rows without mounds, each with its back where the back lies."""
    levels = _levels(m, at, bust)
    each = (np.stack([levels[name][k] for name in LEVELS], axis=1) for k in range(3))
    stacked = np.stack([*each, at.back, *before_and_behind(m, levels)])
    breadth, depth, exponent, back, before, behind = between_rows(at.levels, stacked, COUNTS)
    half = ring(breadth, depth, exponent)
    half[..., 1] *= np.where(half[..., 1] < 0, before[..., None], behind[..., None])
    half[..., 1] += (back - depth * behind)[..., None]
    return half


def _levels(m: Measured, at: Heights, bust: Bust) -> dict[str, tuple[Floats, Floats, Floats]]:
    """Breadth and depth, both halves, and exponent at each level."""
    waist = with_girth(m["waist_girth"], m.told("waist_breadth") / 2, m.told("waist_depth") / 2)
    hip = with_girth(m["hip_girth"], m.told("hip_breadth") / 2, m.told("hip_depth") / 2)
    top = with_girth(m["top_hip_girth"], 0.45 * waist[0] + 0.55 * hip[0], 0.55 * waist[1] + 0.45 * hip[1])
    ribs = (bust.breadth, bust.depth, np.full(len(m), bust.exponent))
    under = with_girth(m["under_bust_girth"], 0.7 * ribs[0] + 0.3 * waist[0], 0.7 * ribs[1] + 0.3 * waist[1])
    found = {"crotch": (0.985 * hip[0], 0.9 * hip[1], hip[2]), "hip": hip, "top_hip": top, "waist": waist}
    found |= {"under_bust": _ribs_below(m, bust) if m.of.mounded else under, "bust": ribs}
    return found | _above(m, at, bust)


def _ribs_below(m: Measured, bust: Bust) -> tuple[Floats, Floats, Floats]:
    """The ribs under the mounds: those at the bust, as large as the under-bust girth."""
    return *of_aspect(m["under_bust_girth"], bust.depth / bust.breadth, bust.exponent), np.full(len(m), bust.exponent)


def _above(m: Measured, at: Heights, bust: Bust) -> dict[str, tuple[Floats, Floats, Floats]]:
    """From the armpits over the shoulders up the neck: blocks' breadths, depths by eye."""
    armpit, tip, neck = 0.995 * bust.breadth, at.tip, m["neck_girth"] / (2 * np.pi)
    breadth = {
        "armpit": armpit,
        "chest": (armpit + tip - 36.0) / 2,
        "under_shoulder": tip - 32.0,
        "shoulder": tip - 14.0,
    }
    breadth |= {"collar": (at.neck + tip - 6.0) / 2, "side_neck": at.neck}
    breadth["throat"] = 0.55 * neck + 0.45 * at.neck
    depth = {name: bust.depth * share for name, share in _DEPTH.items()}
    depth |= {name: neck * share for name, share in _NECK_DEPTH.items()}
    found = {name: (breadth[name], depth[name], np.full(len(m), _SHARPNESS.get(name, 2.0))) for name in breadth}
    return found | {"neck": with_girth(m["neck_girth"], neck * 0.97, neck * 1.03)}


def _mounded(m: Measured, half: Floats, at: Heights, bust: Bust, rows: Floats) -> Floats:
    """The rings with the bust's mounds brought forward."""
    if not m.of.mounded:
        return half
    first = ROW["under_bust"]
    front = half[:, first:].copy()
    middle = (front[..., 0, 1] + front[..., -1, 1]) / 2
    depth = (front[..., -1, 1] - front[..., 0, 1]) / 2
    front[..., 1] -= middle[..., None]
    above = reach(rows[:, first:], at.of("bust"), at.of("under_bust"))
    half[:, first:, :, 1] -= bust.forward[:, None, None] * mound(front, bust.point, above, depth)
    return half


def _with_high_bust(m: Measured, half: Floats) -> Floats:
    """The level of the armpits, and ever less of those beside it, made as large as a high bust that was measured."""
    at, low, high = ROW["armpit"], ROW["bust"], ROW["chest"]
    known = m.was_taken("high_bust_girth")
    if not known.any():
        return half
    scale = np.where(known, m["high_bust_girth"] / taped(half[:, at]), 1.0)
    near = np.interp(np.arange(half.shape[1]), [low, at, high], [0.0, 1.0, 0.0])
    middle = (half[:, :, :1, 1] + half[:, :, -1:, 1]) / 2
    by = 1.0 + (scale[:, None] - 1.0) * near
    half[..., 0] *= by[..., None]
    half[..., 1] = middle + (half[..., 1] - middle) * by[..., None]
    return half


# ---- where neck and arms stand --------------------------------------------------------------------------------------


def _balanced(m: Measured, at: Heights, bust: Bust) -> Heights:
    """Side neck and shoulders so much higher or lower that the tape in front, over the bust point, reads what it did.

    An erect body has them higher over its nape, a stooping one lower; only where the front's length was measured.
    """
    known = m.was_taken("front_waist_length")
    if not known.any():
        return at
    neck, point, waist = (LEVELS.index(name) for name in ("side_neck", "bust", "waist"))
    front = at.back[:, point] - m.told("chest_depth")
    side = at.back[:, neck] - _NECK_DEPTH["side_neck"] * m["neck_girth"] / (2 * np.pi)
    out = np.hypot(front - side, at.neck - bust.point)
    upper = np.maximum(m["front_waist_length"] - (at.levels[:, point] - at.levels[:, waist]), 0.0)
    told = at.levels[:, point] + np.sqrt(np.maximum(upper**2 - out**2, 1.0)) - at.levels[:, neck]
    move = np.where(known, np.clip(told, -BALANCE, BALANCE), 0.0)
    shifted = at.levels.copy()
    shifted[:, LEVELS.index("under_shoulder") :] += move[:, None]
    return replace(at, levels=rising(shifted))


def _joint(m: Measured, half: Floats, heights: Heights) -> Floats:
    """How far the arm's joint lies from the middle: as the tape round the shoulders asks, or as breadths tell."""
    upper = m["upper_arm_girth"] / (2 * np.pi)
    told = np.maximum(m.told("shoulder_breadth") / 2 - upper, heights.tip - 0.8 * upper)
    known = m.was_taken("shoulder_girth")
    if not known.any():
        return told
    at, y = half[:, ROW["chest"]], _middle(half, "chest")

    def short(x: Floats) -> Floats:
        return m["shoulder_girth"] - taped_with(at, np.stack([x, y], axis=1), upper)

    x, least = told, supports(at)[:, len(supports(at)[0]) // 2] - upper
    for _ in range(6):
        x = np.maximum(x + short(x) / 4.0, least)
    return np.where(known, x, told)


def _middle(half: Floats, level: str) -> Floats:
    """Halfway from front to back at a level, `(bodies,)`."""
    ends = half[:, ROW[level]]
    return np.asarray((ends[:, 0, 1] + ends[:, -1, 1]) / 2)
