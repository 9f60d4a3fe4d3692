"""A dressed garment read: its levels, its hem, how far it rides, and where it stands off farthest."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.form.dress_form import Form
from draft.form.field import Field
from draft.form.going_down import girths_at
from draft.form.landmarks import Landmarks
from draft.sitting.called_of import called_of
from draft.sitting.reading import CLOSE, UNEQUAL, HemRead, LevelRead, Where
from draft.sitting.round_arms import round_arm
from draft.sitting.sleeves_read import upper_arm
from draft.sitting.strains import areas
from draft.sitting.trunk_levels import Trunk, on_trunk
from draft.toile.dressed import Dressed, State

_LEVELS: tuple[tuple[Where, str], ...] = (("bust", "bust"), ("waist", "waist"), ("top hip", "top_hip"), ("hip", "hip"))
_ABOVE_HEM, _BELOW_TOP = 15.0, 4.0
_FROM_ANOTHER = 32.0
_MUCH_ROOM, _PULLED = 60.0, 0.03
"""mm round the body within which nothing is tight, and the stretch up to which cloth that gives nothing is pulled."""
_ASLANT, _STROKES = 0.25, 12
"""The share of its length that a stroke rises or falls at least, and how many on both sides a fitter would speak of."""
_MOST_OFF = 0.9
"""The share of places in a region that lie nearer to the form than what is told of it."""


def trunk_of(dressed: Dressed, bare: Field, state: State = "down") -> Trunk:
    """Front and back of a dressed garment in one state, without what of them is round an arm.

    `bare` is the form without its arms.
    """
    sewn, settled = dressed.sewn, dressed.states[state]
    sleeve = round_arm(settled.positions[sewn.merged[sewn.triangles]].mean(axis=1), bare) > 0
    return Trunk(
        sewn,
        settled.positions,
        settled.across,
        areas(sewn.rest, sewn.triangles),
        on_trunk(sewn, ("front",)) & ~sleeve,
        on_trunk(sewn, ("back",)) & ~sleeve,
        on_trunk(sewn, ("front", "back")) & sleeve,
    )


def levels_of(
    dressed: Dressed, form: Form, body: int, bare: Field, marks: Landmarks, gives: float, state: State = "down"
) -> tuple[LevelRead, ...]:
    """Each level of the form that the garment covers, its own hem where that lies at none, and the upper arm."""
    trunk = trunk_of(dressed, bare, state)
    low, high = trunk.reaches()
    covered = (low + _ABOVE_HEM / 2, high - _BELOW_TOP)
    heights = [(name, marks.levels[key]) for name, key in _LEVELS if covered[0] < marks.levels[key] < covered[1]]
    hem = low + _ABOVE_HEM
    if all(abs(height - hem) > _FROM_ANOTHER for _, height in heights):
        heights.append(("hem", hem))
    levels = (_level(trunk, form, body, name, height, gives) for name, height in heights)
    return (*levels, *upper_arm(dressed, bare, gives, state))


def _level(trunk: Trunk, form: Form, body: int, name: Where, height: float, gives: float) -> LevelRead:
    stretched, front, back = trunk.stretch_at(height)
    above = height + float(form.heights.nape[body])
    girth = float(girths_at(form, body, np.array([above]))[0])
    long = trunk.long_at(height)
    # How far the edges of what hangs open lap over is chance, and so is the room
    room = None if long is None or trunk.sewn.hangs_open else long - girth
    found = LevelRead(_called(form, name), height, stretched, front, back, gives, None)
    found = replace(found, pulled=room is not None and _is_pulled(found, room))
    return found if found.tight else replace(found, room=room)


def _is_pulled(level: LevelRead, room: float) -> bool:
    """Whether cloth that is a little stretched on all sides has so much room that nothing there can stretch it."""
    little = level.most < max(CLOSE * level.gives, _PULLED)
    return room > _MUCH_ROOM and little and abs(level.front - level.back) < UNEQUAL


def _called(form: Form, name: Where) -> Where:
    return "chest" if called_of(form, name) == "chest" else name


def has_shoulders(dressed: Dressed, marks: Landmarks) -> bool:
    """Whether a garment hangs from the shoulders, so that raised arms move it."""
    top = float(dressed.states["down"].positions[:, 2].max())
    return top > (marks.levels["bust"] + marks.levels["shoulder"]) / 2


def hem_of(dressed: Dressed, state: State = "down") -> HemRead:
    """How the hem lies."""
    at = dressed.hem[state]
    return HemRead(at["front"] - at["back"], at["side"] - at["back"])


def risen(dressed: Dressed, state: State, since: Dressed | None = None) -> float:
    """By how many mm the hem lies higher in a state than pulled down, at most 0 of what is lower."""
    before, now = (since or dressed).hem["down"], dressed.hem[state]
    return max(float(np.mean([now[name] - before[name] for name in before])), 0.0)


def pulls_from_bust(drags: Floats, points: Floats, stretched: Floats, marks: Landmarks, middle: float) -> float:
    """The share by which cloth is stretched where strokes `(k, 2, 3)` run aslant in front between bust and hip.

    Nothing where they are few. `points` `(v, 3)` are stretched by `stretched` `(v,)`; `middle` is the trunk's, y in mm.
    """
    at, way = drags.mean(axis=1), drags[:, 1] - drags[:, 0]
    long = np.maximum(np.linalg.norm(way, axis=1), 1e-9)
    aslant = (np.abs(way[:, 2]) > _ASLANT * long) & (np.abs(way[:, 2]) < np.sqrt(1 - _ASLANT**2) * long)
    there = (at[:, 2] < marks.levels["bust"] + 20.0) & (at[:, 2] > marks.levels["hip"]) & (at[:, 1] < middle)
    found = at[aslant & there]
    if len(found) < _STROKES:
        return 0.0
    near = [int(np.argmin(((points - one) ** 2).sum(axis=1))) for one in found]
    return float(np.quantile(stretched[near], _MOST_OFF))


def farthest_off(dressed: Dressed, off: Floats, marks: Landmarks, state: State = "down") -> tuple[str, float] | None:
    """Where on the trunk the cloth stands off farthest, and by how many mm; `off` `(v,)` is each vertex's."""
    sewn, at = dressed.sewn, dressed.states[state].positions
    trunk = on_trunk(sewn, ("front", "back"))
    used = np.zeros(sewn.count, dtype=bool)
    used[sewn.merged[sewn.triangles[trunk]].ravel()] = True
    behind = np.zeros(sewn.count, dtype=bool)
    behind[sewn.merged[sewn.triangles[on_trunk(sewn, ("back",))]].ravel()] = True
    height, near = at[:, 2], np.abs(at[:, 0]) < 110.0
    bust, waist, hip = (marks.levels[name] for name in ("bust", "waist", "hip"))
    low = hip - (150 if has_shoulders(dressed, marks) else 0)  # below the hip a skirt hangs free wherever it is
    under, below = (height < bust - 20) & (height > waist - 50), (height <= waist - 50) & (height > low)
    regions = {
        "back waist": used & behind & near & (height < bust) & (height > waist - 60),
        "front waist": used & ~behind & near & under,
        "back hip": used & behind & near & below,
        "front hip": used & ~behind & near & below,
    }
    found = {name: float(np.quantile(off[where], _MOST_OFF)) for name, where in regions.items() if where.sum() > 5}
    return max(found.items(), key=lambda one: one[1]) if found else None
