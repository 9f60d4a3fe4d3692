"""What testers are asked about a garment: the room at its levels, its lengths, and the measures that these lean on."""

from __future__ import annotations

from collections.abc import Sequence

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.drafting.drafting import Drafted
from draft.fit.levels import levels, over
from draft.garment.garment import Finished

SCALE = (1, 2, 3, 4, 5)
"""From much too tight or short to much too wide or long; 3 is right."""
RIGHT = 3
_MOST = 8
"""Lengths that are asked about: more than a page has room for."""


@dataclass(frozen=True)
class RoomAsked:
    """A level of the garment: what it measures and the body that it is worn over, mm `(sizes,)` each.

    `measure` is what a tester is asked for to know her own body there; empty where no one measure says that.
    """

    name: str
    finished: Floats
    measure: str
    body: Floats

    @property
    def ease(self) -> Floats:
        """The room that it is meant to have, mm `(sizes,)`."""
        return self.finished - self.body


@dataclass(frozen=True)
class LengthAsked:
    """A length of the garment, mm `(sizes,)`."""

    name: str
    finished: Floats


@dataclass(frozen=True)
class Questions:
    """All that is asked of a garment, for its sizes in their order."""

    sizes: tuple[str, ...]
    rooms: tuple[RoomAsked, ...]
    lengths: tuple[LengthAsked, ...]

    @property
    def measures(self) -> tuple[str, ...]:
        """The body measures that a tester is asked for."""
        return tuple(dict.fromkeys(room.measure for room in self.rooms if room.measure))

    @property
    def columns(self) -> tuple[str, ...]:
        """The columns of a table of replies, which are the names of a sheet's fields too."""
        return (
            "tester", "size", "version", "cloth",
            *(f"{name} cm" for name in self.measures),
            *(f"room {room.name}" for room in self.rooms),
            *(f"length {length.name}" for length in self.lengths),
            *(f"pulls {room.name}" for room in self.rooms),
            "pulls elsewhere", "again", "words",
        )  # fmt: skip


def questions(drafted: Drafted) -> Questions:
    """What to ask of a garment: a room for every girth that is worn over some of the body, and its lengths."""
    garment = drafted.garment
    rooms = [_room(one, drafted.plan.measures) for one in levels(garment)]
    lengths = [LengthAsked(one.name, one.values) for one in garment.finished if not one.around and not one.over]
    return Questions(garment.sizes, tuple(rooms), tuple(lengths[:_MOST]))


def _room(finished: Finished, measures: Sequence[str]) -> RoomAsked:
    """Its measure is what it is worn over, or where the pattern finds that itself the girth of the same name."""
    assert finished.over
    named = (finished.over[0].replace(" ", "_"), f"{finished.name}_girth")
    measure = next((name for name in named if name in measures), "")
    return RoomAsked(finished.name, finished.values, measure, over(finished))
