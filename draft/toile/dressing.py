"""A sewn garment dressed on a form: laid flat round it pressed flat, grown, its arms brought down, and settled.

No start without collisions is needed. Each state is a least energy of its own question, so that what is seen does not
depend on how the cloth came there; only friction, a bound, begins from where it was pulled down.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.form.landmarks import Landmarks
from draft.toile.contact import Flattened
from draft.toile.dressed import Dressed, FormField, Refused, State
from draft.toile.following_arms import BEND, Elbow, below_arm, follow, follow_forearm, poses
from draft.toile.freeing import freed
from draft.toile.hanging_by import UP, HangsBy, hangs_by
from draft.toile.judging import cautions_of, refusal, settled_of
from draft.toile.laid_round import laid_round
from draft.toile.newton import Pace, Question, Rest, settle
from draft.toile.sewn import Sewn
from draft.toile.sewn_cloth import SewnCloth, cloth_of
from draft.toile.trunk_laid import LaidFlat, laid_flat
from draft.toile.why_not import CannotDress, why

SET_IN = float(np.radians(48.0))
"""Below level: how sleeves that are set in are laid at first."""
FRICTION = 0.3
"""Of knit cloth on skin, in the middle of what is measured (from memory: 0.2 to 0.5); half or half as much again moves
the hem that is held by friction by a centimetre or two, and no strain where it is tight."""
FLATTEST, GROWTH = 0.06, 6
_LAID = Pace(1e-6, 10, 0.05)
_MOVED = Pace(1e-6, 8, 0.05)
CAUGHT = 1.5
"""mm inside the form: a vertex that is deeper after a solve is caught there."""
_TRIES = 3
TO_REST = (Pace(1e-7, 20, 0.2), Pace(1e-8, 25, 0.1), Pace(1e-9, 40, 0.02))
"""Under friction: ever less drag, each until so little moves."""
EVER_SOFTER = (
    (100.0, Pace(1e-8, 14, 0.3, by_levels=True)),
    (20.0, Pace(1e-9, 10, 0.2, by_levels=True)),
    (4.0, Pace(1e-9, 10, 0.1, by_levels=True)),
    (1.0, Pace(1e-9, 18, 0.05, by_levels=True)),
)
"""How many times as stiff against bending as it is the cloth is settled first: broad folds come before fine ones, and
where they come does not hang on mesh and growth. Ten times the drag would hold it where it began: the hem 1 mm off."""
_STILL = 2.0
"""mm that a last step may move a vertex before the cloth is given as much time again."""

FieldAt = Callable[[float], FormField]
"""The form with its arms so far below level, radians."""
Told = Callable[[str, Floats], object]
"""Told what is being done and where the cloth lies `(v, 3)`; it may raise to stop."""


@dataclass(frozen=True, eq=False)
class _Work:
    """What stays the same while a garment is dressed."""

    sewn: Sewn
    cloth: SewnCloth
    field_at: FieldAt
    marks: Landmarks
    flat: LaidFlat
    told: Told


@dataclass(frozen=True, eq=False)
class Pose:
    """How the arms are held: so far below level, radians, and with bent elbows or straight."""

    arms: float
    elbow: Elbow | None = None


def dress(
    sewn: Sewn,
    field_at: FieldAt,
    landmarks: Landmarks,
    cloth: tuple[float, float],
    arms: float,
    states: Sequence[State] = ("down", "ride", "held"),
    told: Told = lambda what, x: None,
    elbow: Elbow | None = None,
) -> Dressed | Refused:
    """The garment on a form, its arms so far below level, radians, in the states that are asked for.

    `cloth` is by which share of its length it stretches by hand, across and down. What comes out may not be shown where
    the form stands through the cloth, pinches it, or where it does not come to rest: that is refused with the reason.
    `field_at` has straight arms; with an `elbow` they are bent once they are where they are held.
    """
    try:
        flat = laid_flat(sewn, float(landmarks.side_neck[0]))
    except CannotDress as error:
        return Refused(error.why, sewn)
    work = _Work(sewn, cloth_of(sewn, cloth), field_at, landmarks, flat, told)
    pose = Pose(arms, elbow)
    found = _tried(work, pose, states, GROWTH)
    # What was caught while the form grew quickly mostly is not while it grows slowly
    return found if isinstance(found, Dressed) else _tried(work, pose, states, 2 * GROWTH)


def _tried(work: _Work, pose: Pose, states: Sequence[State], growth: int) -> Dressed | Refused:
    sewn, arms, elbow = work.sewn, pose.arms, pose.elbow
    first = _first_pose(work)
    by, x = _grown(work, first, growth)
    x = _arms_moved(work, by, x, first, arms)
    field = work.field_at(arms) if elbow is None else elbow.field_at(elbow.bend)
    x = x if elbow is None else _elbow_bent(work, by, x, arms, elbow)
    hanging = hangs_by(sewn, work.flat, field, work.marks)
    rests = _states(work, hanging, field, x, states)
    found = {state: settled_of(sewn, work.cloth, field, rest) for state, rest in rests.items()}
    reason = refusal(found, field, arms)
    if reason:
        return Refused(reason, sewn, max(one.penetration for one in found.values()))
    hems = {state: hanging.hem_of(one.positions) for state, one in found.items()}
    open_front = (why("hangs_open"),) if sewn.hangs_open else ()
    return Dressed(sewn, found, hems, hanging.level_hem, (*open_front, *cautions_of(found)))


def _first_pose(work: _Work) -> float:
    """How far below level the arms are held while the body grows: as the sleeves lie, and above the side seams."""
    if not work.flat.from_shoulder:
        return SET_IN
    lies = SET_IN if "sleeve" in work.sewn.roles or not work.flat.slope else work.flat.slope
    places = work.flat.under_arm + np.array([0.0, UP])
    return below_arm(places, work.field_at(lies).joint, lies)


def _grown(work: _Work, arm: float, growth: int) -> tuple[HangsBy, Floats]:
    field = work.field_at(arm)
    by = hangs_by(work.sewn, work.flat, field, work.marks)
    middle = float(field.joint[1] + work.marks.side_neck[1]) / 2  # within arms, trunk and neck
    x = laid_round(work.sewn, work.flat, by.up, arm, field.joint) + np.array([0.0, middle, 0.0])
    before = 0.0
    for scale in np.geomspace(FLATTEST, 1.0, growth).tolist():
        if before:
            x = Flattened(field, scale / before, middle).pressed(x)
        flat = Flattened(field, scale, middle)
        springs = replace(by.held_up, places=flat.pressed(by.held_up.places))
        x = _free(work.cloth, x, Question(flat, (springs,)), _LAID)
        work.told("growing", x)
        before = scale
    return by, x


def _arms_moved(work: _Work, by: HangsBy, x: Floats, start: float, end: float) -> Floats:
    joint, before = work.field_at(start).joint, start
    for angle in poses(start, end):
        field = work.field_at(angle)
        left = _left(work, x)
        x = left * follow(left * x, joint, before, angle, field.joint - joint)
        x[work.cloth.held[:, 0], 0] = 0.0
        x = _free(work.cloth, x, Question(field, (by.held_up,)), _MOVED)
        work.told("moving", x)
        joint, before = field.joint, angle
    return x


def _elbow_bent(work: _Work, by: HangsBy, x: Floats, arms: float, elbow: Elbow) -> Floats:
    before = 0.0
    for bend in poses(0.0, elbow.bend, BEND):
        left = _left(work, x)
        x = left * follow_forearm(left * x, elbow, arms, before, bend)
        x = _free(work.cloth, x, Question(elbow.field_at(bend), (by.held_up,)), _MOVED)
        work.told("moving", x)
        before = bend
    return x


def _left(work: _Work, x: Floats) -> Floats:
    """What turns each vertex of the right half to the left one `(v, 3)`, and back."""
    right = (x[:, :1] < 0) & (not work.sewn.halved)
    return np.where(right, [-1.0, 1.0, 1.0], 1.0)


def _free(cloth: SewnCloth, x: Floats, question: Question, pace: Pace) -> Floats:
    """The cloth settled; what was caught inside the form on the way is brought out, and all settled again."""
    for _ in range(_TRIES):
        x = settle(cloth, x, question, pace).x
        out = freed(cloth, x, question.field, CAUGHT)
        if out is x:
            break
        x = out
    return x


def _states(work: _Work, by: HangsBy, field: FormField, x: Floats, states: Sequence[State]) -> dict[State, Rest]:
    found: dict[State, Rest] = {}
    down = Question(field, (by.held_up, by.held_down(work.sewn.edge_length)))
    found["down"] = _settled(work, x, down, "down")
    x = found["down"].x
    if "held" in states:
        held = Question(field, (by.held_up,), FRICTION, x)
        found["held"] = _settled(work, x, held, "held")
    if "ride" in states:
        found["ride"] = _settled(work, x, Question(field, (by.held_up,)), "ride")
    return {state: found[state] for state in found if state == "down" or state in states}


def _settled(work: _Work, x: Floats, question: Question, state: str) -> Rest:
    if question.friction:
        return _held(work, x, question)
    times, pace = EVER_SOFTER[0]
    rest = Rest(_free(work.cloth.bent_by(times), x, question, pace), np.inf, np.zeros(len(x)), 0)
    for times, pace in EVER_SOFTER[1:]:
        rest = settle(work.cloth.bent_by(times), rest.x, question, pace)
        work.told(state, rest.x)
    for _ in range(_TRIES):
        if rest.last_step < _STILL:
            break
        rest = settle(work.cloth, rest.x, question, EVER_SOFTER[-1][1])  # a fold that slips at last
        work.told(state, rest.x)
    return rest


def _held(work: _Work, x: Floats, question: Question) -> Rest:
    rest = Rest(x, np.inf, np.zeros(len(x)), 0)
    for pace in TO_REST:
        rest = settle(work.cloth, rest.x, question, pace)
        work.told("held", rest.x)
    return rest
