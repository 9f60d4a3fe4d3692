"""Testers' replies laid over the draft: room asked for, room that each had, what they felt, and on what they agree."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

from draft.base.record import dataclass
from draft.drafting.drafting import Drafted
from draft.release.feedback_questions import RIGHT, SCALE, LengthAsked, Questions, RoomAsked
from draft.release.replies_read import Reply

Way = Literal["less", "right", "more"]
"""Too tight or too short, right, too wide or too long."""
FEW = 4
"""Of fewer replies nothing is said to be agreed on, unless all three say the same."""
_SHARE = 2 / 3
_NORMAL = 1.959963984540054
"""Standard deviations within which 95 % of a normal distribution lie."""


@dataclass(frozen=True)
class Felt:
    """What testers of one size felt at one level or length: the garment's figure, what each had, how many each step.

    `asked` and `had` are mm of room, or of length; `had` is of those who said their measure, in the order of `steps`.
    """

    name: str
    sort: Literal["room", "length"]
    size: str
    asked: float
    had: tuple[float, ...]
    steps: tuple[int, ...]

    @property
    def counts(self) -> tuple[int, ...]:
        """How many chose each step of the scale."""
        return tuple(self.steps.count(step) for step in SCALE)


@dataclass(frozen=True)
class Finding:
    """What is felt at one level: how many of how many go one way, and the share's interval (95 %).

    `sizes` are those that were asked, the first and the last of some where only these agree; empty for all of them.
    `agreed` is whether that is enough to be told; `right_had` is the room that those had for whom it was right, mm.
    """

    name: str
    sort: Literal["room", "length"]
    way: Way
    count: int
    of: int
    interval: tuple[float, float]
    agreed: bool
    asked: tuple[float, float]
    right_had: tuple[float, ...]
    others_had: tuple[float, ...]
    sizes: tuple[str, ...] = ()


@dataclass(frozen=True)
class RepliesLaid:
    """All that the replies say."""

    replies: tuple[Reply, ...]
    felt: tuple[Felt, ...]
    findings: tuple[Finding, ...]
    pulls: tuple[tuple[str, int], ...]

    @property
    def again(self) -> tuple[int, int]:
        """How many would sew it again, and how many would not."""
        said = [reply.again for reply in self.replies]
        return said.count("yes"), said.count("no")


def laid_over(replies: Sequence[Reply], asked: Questions, drafted: Drafted) -> RepliesLaid:
    """The replies by level, length and size, beside what was drafted."""
    rooms = [_room(one, size, replies, asked, drafted) for one in asked.rooms for size in asked.sizes]
    lengths = [_length(one, size, replies, asked) for one in asked.lengths for size in asked.sizes]
    felt = [one for one in (*rooms, *lengths) if one.steps]
    names = dict.fromkeys((one.sort, one.name) for one in felt)
    findings = [found for key in names for found in _findings([one for one in felt if (one.sort, one.name) == key])]
    pulls = [(room.name, sum(room.name in reply.pulls for reply in replies)) for room in asked.rooms]
    return RepliesLaid(tuple(replies), tuple(felt), tuple(findings), tuple(one for one in pulls if one[1]))


def _room(room: RoomAsked, size: str, replies: Sequence[Reply], asked: Questions, drafted: Drafted) -> Felt:
    k = asked.sizes.index(size)
    mine = [reply for reply in replies if reply.size == size and room.name in reply.rooms]
    had = tuple(float(room.ease[k]) - _larger(reply, room, k, drafted) for reply in mine)
    return Felt(room.name, "room", size, float(room.ease[k]), had, tuple(reply.rooms[room.name] for reply in mine))


def _larger(reply: Reply, room: RoomAsked, k: int, drafted: Drafted) -> float:
    """By how many mm a tester is larger there than her size; nothing is known of one who did not say."""
    own = reply.measures.get(room.measure)
    return math.nan if own is None else own - float(drafted.bodies.values[room.measure][k])


def _length(length: LengthAsked, size: str, replies: Sequence[Reply], asked: Questions) -> Felt:
    k = asked.sizes.index(size)
    mine = [reply for reply in replies if reply.size == size]
    steps = tuple(reply.lengths[length.name] for reply in mine if length.name in reply.lengths)
    is_so = float(length.finished[k])
    return Felt(length.name, "length", size, is_so, (is_so,) * len(steps), steps)


def _findings(felt: Sequence[Felt]) -> list[Finding]:
    """What is felt over all sizes; where they do not agree, what the largest or the smallest of them agree on too."""
    whole = _finding(felt)
    if whole.agreed:
        return [whole]
    parts = [part for k in range(1, len(felt)) for part in (felt[:k], felt[k:])]
    some = [(found, part) for part in parts if (found := _finding(part)).agreed and found.way != "right"]
    if not some:
        return [whole]
    best, part = max(some, key=lambda one: (one[0].of, one[0].count))
    return [whole, replace(best, sizes=(part[0].size, part[-1].size))]


def _finding(felt: Sequence[Felt]) -> Finding:
    steps = [(step, had) for one in felt for step, had in zip(one.steps, one.had, strict=True)]
    ways = [_way(step) for step, _ in steps]
    way: Way = max(("right", "less", "more"), key=ways.count)
    count, of = ways.count(way), len(ways)
    known = [(step, had) for step, had in steps if math.isfinite(had)]
    asked = [one.asked for one in felt]
    return Finding(
        felt[0].name, felt[0].sort, way, count, of, wilson(count, of),
        count / of >= _SHARE and (of >= FEW or count == of >= FEW - 1),
        (min(asked), max(asked)),
        tuple(had for step, had in known if step == RIGHT),
        tuple(had for step, had in known if step != RIGHT),
    )  # fmt: skip


def _way(step: int) -> Way:
    return "right" if step == RIGHT else "less" if step < RIGHT else "more"


def wilson(count: int, of: int) -> tuple[float, float]:
    """The interval in which a share lies with 95 %, of so many among so many (Wilson 1927)."""
    z2, share = _NORMAL**2, count / of
    middle = (share + z2 / (2 * of)) / (1 + z2 / of)
    half = _NORMAL / (1 + z2 / of) * math.sqrt(share * (1 - share) / of + z2 / (4 * of * of))
    return max(0.0, middle - half), min(1.0, middle + half)
