"""What differs between two garments on one form, as far as it is known: in a sewist's words, the most telling first."""

from __future__ import annotations

from collections.abc import Iterator

from draft.sitting.reading import LevelRead, Reading
from draft.sitting.sit_said import Said, said

_STRETCH, _ROOM, _HEM, _REACH = 0.01, 20.0, 7.0, 15.0
"""By which share, and by how many mm, what is read must differ to be told: more than either is known to."""
_MOST = 4


def differing(first: Reading, other: Reading) -> tuple[Said, ...]:
    """How the other sits otherwise than the first; one sentence that nothing does where that is so."""
    found = [*_levels(first, other), *_hem(first, other), *_lifts(first, other)][:_MOST]
    return tuple(found) or (said("differs_not"),)


def _levels(first: Reading, other: Reading) -> Iterator[Said]:
    both = [(level, now) for level in first.levels if (now := other.level(level.name)) is not None]
    changed = [pair for pair in both if _weight(*pair) >= 1.0]
    for before, now in sorted(changed, key=lambda pair: -_weight(*pair)):
        yield _level(before, now)


def _weight(before: LevelRead, now: LevelRead) -> float:
    """How often what is just told goes into a change: of the stretch where either is tight, else of the room."""
    doubt = max(_STRETCH, before.spread + now.spread)
    if before.tight or now.tight:
        return abs(now.told_of - before.told_of) / doubt
    if before.room is None or now.room is None:
        return 0.0
    return abs(now.room - before.room) / _ROOM


def _level(before: LevelRead, now: LevelRead) -> Said:
    if before.tight and now.tight:
        return said("differs_stretched", name_level=now.name, share_now=now.told_of, share_before=before.told_of)
    if before.tight and now.room is not None:
        return said("differs_loose", name_level=now.name, mm_room=max(now.room, 0.0), share_before=before.told_of)
    if now.tight and before.room is not None:
        return said("differs_tight", name_level=now.name, share_now=now.told_of, mm_room=max(before.room, 0.0))
    if before.tight or now.tight:  # and of the other no room is known
        return said("differs_no_more" if before.tight else "differs_tight_now", name_level=now.name,
                    share_most=before.told_of if before.tight else now.told_of)  # fmt: skip
    return said("differs_room", name_level=now.name, mm_now=now.room or 0.0, mm_before=before.room or 0.0)


def _hem(first: Reading, other: Reading) -> Iterator[Said]:
    if any(level.beyond for reading in (first, other) for level in reading.levels):
        return
    off = other.hem.front - first.hem.front
    if abs(off) >= max(_HEM, first.hem.front_spread, other.hem.front_spread):
        yield said("differs_hem_higher" if off > 0 else "differs_hem_lower", mm_off=abs(off))


def _lifts(first: Reading, other: Reading) -> Iterator[Said]:
    if first.reaches is None or other.reaches is None:
        return
    off = other.reaches - first.reaches
    if abs(off) >= _REACH:
        yield said("differs_lifts_more" if off > 0 else "differs_lifts_less", mm_off=abs(off))
