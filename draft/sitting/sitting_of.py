"""A garment sewn, dressed on a form of a body, and read: all that a sheet or a page shows of it.

The garment is dressed as it hangs, once more with raised arms, and on eight coarser forms of the same girths, of which
half go to another process where there is one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from itertools import count

import numpy as np

from draft.base.arrays import Floats
from draft.base.aside import aside
from draft.base.record import dataclass
from draft.bodies.bodies import Bodies
from draft.bodies.wearers import WOMEN, Wearers
from draft.form.dress_form import Form, form_of
from draft.form.field import Field, field_of
from draft.form.landmarks import landmarks_of
from draft.form.same_girths import alike
from draft.garment.garment import Garment
from draft.sitting.called_of import called_of, levels_called
from draft.sitting.doubt import Spread, doubtful, spread_of
from draft.sitting.dressing_on import dress_on
from draft.sitting.estimated_of import estimated_of, outside_of
from draft.sitting.main_girths import MAIN, OF_SKIRTS
from draft.sitting.read_of import farthest_off, has_shoulders, hem_of, levels_of, pulls_from_bust, risen
from draft.sitting.reading import USUAL_DOUBT, USUAL_HEM_DOUBT, HemRead, LevelRead, Reading
from draft.sitting.sides_worn import joined, tighter
from draft.sitting.sit_said import Said
from draft.sitting.sit_told import telling
from draft.sitting.size_worn import SizeWorn
from draft.sitting.sleeves_read import over_elbow
from draft.sitting.worn import Worn
from draft.sitting.worn_of import worn_of
from draft.toile.dressed import Dressed, Refused, State
from draft.toile.sewing_up import sew
from draft.toile.sewn import Sewn
from draft.toile.why_not import CannotDress, why

ARMS = float(np.radians(50.0))
"""Below level, unless it is said otherwise: the pitch of most sleeves lifts the hem by a centimetre."""
REACH = float(np.radians(-20.0))
_RAISED = float(np.radians(15.0))
EDGE, COARSE = 20.0, 24.0
"""mm of a triangle's edge, and on the eight forms: coarser ones miss the bust (3 cm), finer ones say the same."""
FINER = 0.8
"""Of the edge length: how finely is tried once more what the form stands through."""
Told = Callable[[str, float], object]
"""Told while one waits what is being done, a key, and which share of all is done."""
Seen = Callable[[str, Sewn, Floats, Form], object]
"""Shown what the cloth does, where it lies while it settles, `(v, 3)`, and the form."""
_CALLS = 26
"""So often a garment that is dressed tells where it is, more or less."""


@dataclass(frozen=True, eq=False)
class Subject:
    """A garment of one body: its row among the garment's sizes, and the body as far as it was measured.

    `bodies` has that body alone; `stretch` is by which share the cloth stretches across and down.
    """

    garment: Garment
    row: int
    bodies: Bodies
    wearers: Wearers = WOMEN
    stretch: tuple[float, float] = (0.0, 0.0)
    by_ease: bool = True
    """Whether a girth that is wrong is mended by the draft's ease, and not by another size."""
    size: SizeWorn | None = None
    """Of a size on one person's form, whether it is hers."""
    of_person: bool = False
    """Whether the form is somebody's, who may be measured again, and not a size's."""
    sides: tuple[Subject, ...] = ()
    """The same for the left and the right, where they differ."""


@dataclass(frozen=True)
class Asked:
    """How it is looked at: arms so far below level, raised so far for the hem; on how many other forms; how finely."""

    arms: float = ARMS
    reach: float | None = REACH
    spread: bool = True
    edge: float = EDGE
    elbow: float = 0.0
    """How far the elbows are bent, radians."""

    @property
    def raised(self) -> bool:
        """Whether the arms are held so high that nobody pulls the hem down."""
        return self.arms < _RAISED

    @property
    def state(self) -> State:
        """In which state it is looked at: as it hangs pulled down, or let go."""
        return "ride" if self.raised else "down"


@dataclass(frozen=True, eq=False)
class Sitting:
    """How one garment sits: as it is looked at, read, and told of."""

    worn: Worn
    reading: Reading
    told: tuple[Said, ...]


def nothing_told(what: str, share: float) -> None:
    """Tells nobody."""


def nothing_seen(what: str, sewn: Sewn, positions: Floats, form: Form) -> None:
    """Shows nobody anything of positions `(v, 3)`."""


def sitting_of(
    subject: Subject, asked: Asked, told: Told = nothing_told, seen: Seen = nothing_seen
) -> Sitting | Refused:
    """How the garment sits, or why nothing may be said of it. Either listener may raise to stop it."""
    if subject.sides:
        return _of_two_sides(subject, asked, told, seen)
    form = form_of(subject.bodies, subject.wearers)
    if form is None:
        return Refused(why("why_no_form"))
    told("sewing", 0.0)
    try:
        sewn = sew(subject.garment, subject.row, asked.edge)
    except CannotDress as reason:
        return Refused(reason.why)
    found = _settled(subject, asked, form, sewn, told, seen)
    if isinstance(found, Refused) and found.reason.key == "why_stands_through":
        # A thin arm or shoulder may have been caught between triangles as wide as it is
        return _settled(subject, asked, form, sew(subject.garment, subject.row, FINER * asked.edge), told, seen)
    return found


def _of_two_sides(subject: Subject, asked: Asked, told: Told, seen: Seen) -> Sitting | Refused:
    """Left and right dressed one after the other; what one of them refuses is refused."""
    found: list[Sitting] = []
    for number, side in enumerate(subject.sides):

        def of_all(what: str, share: float, before: float = number / 2) -> None:
            told(what, before + share / 2)

        one = sitting_of(side, asked, of_all, seen)
        if isinstance(one, Refused):
            return one
        found.append(one)
    left, right = found
    reading = tighter(left.reading, right.reading)
    return Sitting(joined(left.worn, right.worn), reading, telling(reading, subject.by_ease, subject.size))


def _settled(subject: Subject, asked: Asked, form: Form, sewn: Sewn, told: Told, seen: Seen) -> Sitting | Refused:
    beside = aside(partial(_beside, subject, asked, sewn, slice(1, None, 2), raised=True))
    told("settling", 0.05)
    steps = count()

    def step(what: str, positions: Floats) -> None:
        told("settling", 0.05 + 0.35 * min(next(steps) / _CALLS, 1.0))
        seen(what, sewn, positions, form)

    dressed = dress_on(sewn, form, 0, subject.stretch, asked.arms, ("down", "ride", "held"), step, asked.elbow)
    if isinstance(dressed, Refused):
        return dressed
    told("doubting", 0.4)
    here = _beside(subject, asked, sewn, slice(0, None, 2), raised=False)
    told("doubting", 0.8)
    there = beside()
    read = _read(subject, asked, form, dressed, [*here[0], *there[0]], there[1])
    told("drawing", 0.95)
    return Sitting(*read, telling(read[1], subject.by_ease, subject.size))


_Beside = tuple[list[Dressed], Dressed | None]


def _beside(subject: Subject, asked: Asked, sewn: Sewn, some: slice, raised: bool) -> _Beside:
    """The garment on some of the eight forms, and with arms the other way, raised or not; without what cannot be."""
    lifted = None
    if raised and asked.reach is not None:
        form = form_of(subject.bodies, subject.wearers)
        assert form is not None
        arms = ARMS if asked.raised else asked.reach
        found = dress_on(sewn, form, 0, subject.stretch, arms, ("down",) if asked.raised else ("down", "ride"))
        lifted = found if isinstance(found, Dressed) else None
    if not asked.spread:
        return [], lifted
    others = alike(subject.bodies, 0, subject.wearers)
    assert others is not None
    coarse = sew(subject.garment, subject.row, COARSE)
    rows = range(len(others.names))[some]
    tried = [
        dress_on(coarse, others, row, subject.stretch, asked.arms, (asked.state,), elbow=asked.elbow) for row in rows
    ]
    return [one for one in tried if isinstance(one, Dressed)], lifted


def _read(
    subject: Subject, asked: Asked, form: Form, dressed: Dressed, others: Sequence[Dressed], lifted: Dressed | None
) -> tuple[Worn, Reading]:
    field, marks = field_of(form, 0, asked.arms, elbow=asked.elbow), landmarks_of(form, 0)
    bare = field_of(form, 0, asked.arms, armless=True)
    levels = levels_of(dressed, form, 0, bare, marks, subject.stretch[0], asked.state)
    spread = spread_of(others, [level.height for level in levels], bare, asked.state)
    guessed = estimated_of(form)
    if not has_shoulders(dressed, marks):
        guessed = [name for name in guessed if name in OF_SKIRTS]
    guess = any(name in guessed for name in MAIN)
    settled, gives = dressed.states[asked.state], subject.stretch[0]
    doubt = doubtful(dressed.sewn, settled, field.joint, spread, guess, gives)
    worn = worn_of(dressed, field, bare, marks, doubt, asked.state)
    worn = replace(worn, levels=levels_called(form, worn.levels))
    reading = Reading(
        tuple(_with_spread(level, spread) for level in levels),
        _hem(hem_of(dressed, asked.state), spread),
        None if asked.raised else risen(dressed, "held"),
        None if asked.raised else risen(dressed, "ride"),
        _reaches(asked, dressed, lifted) if has_shoulders(dressed, marks) else None,
        _hollow(form, farthest_off(dressed, worn.off[: dressed.sewn.count], marks, asked.state)),
        _share(doubt, dressed.sewn),
        tuple(guessed) if subject.of_person else (),
        outside_of(form),
        dressed.sewn.left_out,
        tuple(one for one in dressed.cautions if not (asked.raised and one.key == "slides_on")),
        from_waist=not has_shoulders(dressed, marks),
        not_tried=spread is None,
        shaped=_shaped(subject.garment, dressed.sewn),
        over_elbow=over_elbow(dressed, field, asked.state) if asked.elbow else None,
        from_bust=pulls_from_bust(worn.drags, worn.points, worn.stretched, marks, _middle(dressed, asked)),
    )
    return worn, reading


def _shaped(garment: Garment, sewn: Sewn) -> bool:
    """Whether a piece in front has a dart or a pleat, or is gathered."""
    fronts = {name for name, role in zip(sewn.pieces, sewn.roles, strict=True) if role == "front"}
    return any(
        piece.takeups or piece.inner_darts or any(edge.drawn_up is not None for edge in piece.edges)
        for piece in garment.pieces
        if piece.name in fronts
    )


def _middle(dressed: Dressed, asked: Asked) -> float:
    return float(np.mean(dressed.states[asked.state].positions[:, 1]))


def _hollow(form: Form, found: tuple[str, float] | None) -> tuple[str, float] | None:
    return (called_of(form, found[0]), found[1]) if found else None


def _reaches(asked: Asked, dressed: Dressed, other: Dressed | None) -> float | None:
    """By how many mm the hem lifts from hanging arms to raised ones, of which `dressed` has these or those."""
    if other is None:
        return None
    raised, hanging = (dressed, other) if asked.raised else (other, dressed)
    return risen(raised, "ride", since=hanging)


def _with_spread(level: LevelRead, spread: Spread | None) -> LevelRead:
    off = USUAL_DOUBT if spread is None else spread.at(level.height)
    return replace(level, spread=off)


def _hem(hem: HemRead, spread: Spread | None) -> HemRead:
    if spread is None:
        return HemRead(hem.front, hem.side, USUAL_HEM_DOUBT, USUAL_HEM_DOUBT)
    return HemRead(hem.front, hem.side, spread.hem.front, spread.hem.side)


def _share(doubt: Floats, sewn: Sewn) -> float:
    return float(doubt[sewn.merged[sewn.triangles]].mean())


def bare_form(bodies: Bodies, wearers: Wearers, arms: float) -> tuple[Form, Field, Field] | None:
    """A form with its arms held so, with and without them; None where none can be made."""
    form = form_of(bodies, wearers)
    if form is None:
        return None
    return form, field_of(form, 0, arms), field_of(form, 0, arms, armless=True)
