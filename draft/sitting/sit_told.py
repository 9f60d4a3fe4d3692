"""What there is to say of a garment on a form, five to eight sentences as keys with their figures, each with its doubt.

Nothing is said of pressure, comfort, how folds will fall, or how far exactly anything rides up.
"""

from __future__ import annotations

from collections.abc import Iterator

from draft.sitting.main_girths import MAIN
from draft.sitting.reading import UNEQUAL, LevelRead, Reading
from draft.sitting.sit_said import Said, advised, said
from draft.sitting.size_worn import SizeWorn, size_advice, size_seen
from draft.toile.why_not import Filled

_LEVEL = 7.0
"""mm of a hem that count as level: as far as forms of the same girths differ."""
_RIDES, _MAY_RIDE, _FAR_UP = 25.0, 10.0, 60.0
"""mm: what is hard to keep down climbs to where the body is slimmer at the first movement (common practice)."""
_REACHES = 20.0
_FAR_OFF = 20.0
_NOTHING = 0.004
WARNING = frozenset({"outside", "not_tried"})
"""Keys of what warns that the form itself is not to be trusted."""
_TIGHTEST, _MOST = 3, 8
"""Levels and sentences in all that are told of at most."""
_TAPES = 10.0
"""mm by which two tapes round one body differ (common practice)."""
_CLINGS = 0.04
_OVER_ELBOW = 0.03
_BUSTY, _OF_KNITS = 0.058, 0.5
"""By which share the front is stretched over a bust that wants more width, of any knit that gives up to half of its
width; of what gives more in the same measure more."""
_LOOSE, _VERY_LOOSE = 60.0, 200.0
_OFF_LEVEL = 12.0
_SHORT = 20.0
"""mm by which a front hangs so much higher than the back that it is seen (common practice)."""


def telling(reading: Reading, by_ease: bool, size: SizeWorn | None = None) -> tuple[Said, ...]:
    """What is said, in the order in which a fitter looks: size, tight, loose, hem, riding up, arms, what to change.

    `by_ease`: what is to be changed is the draft's ease, and not the size that is taken.
    """
    seen = _few([*(size_seen(size) if size else ()), *_levels(reading)])
    if not any(level.beyond for level in reading.levels):  # what does not go on hangs nowhere
        seen = _few([*seen, *_hem(reading), *_rises(reading)])
    return (*seen, *_advice(reading, by_ease, size), *_cautions(reading))


# ---- what is seen ---------------------------------------------------------------------------------------------------


def _levels(reading: Reading) -> Iterator[Said]:
    tight = [level for level in reading.levels if level.tight]
    hardest = sorted(tight, key=lambda level: -level.most)[:_TIGHTEST]
    for level in tight:
        if level in hardest:
            yield _tight(level)
    roomy = [level for level in reading.levels if not level.tight and level.room is not None]
    if roomy:
        least = min(roomy, key=lambda level: level.room or 0.0)
        # How far a skirt's hem is from the legs is the skirt's own width
        hung = [level for level in roomy if level.name != "hem" or not reading.from_waist] or roomy
        most = max(hung, key=lambda level: level.room or 0.0)
        yield said(
            "room" if not tight else "room_there",
            name_level=least.name,
            mm_room=max(least.room or 0.0, 0.0),
            mm_doubt=_TAPES,
        )
        if (most.room or 0.0) - (least.room or 0.0) > _LOOSE:
            yield said("most_room", name_level=most.name, mm_room=most.room or 0.0, mm_doubt=_TAPES)
    if reading.from_bust:
        key = "aslant" if reading.shaped or reading.level("chest") else "from_bust"
        yield said(key, share_most=reading.from_bust)
    if reading.over_elbow is not None:
        stretched = reading.over_elbow >= _OVER_ELBOW
        yield said("over_elbow", share_most=reading.over_elbow) if stretched else said("elbow_has_room")
    if reading.hollow and reading.hollow[1] >= _FAR_OFF:
        yield said("stands_off", name_place=reading.hollow[0], mm_off=reading.hollow[1])


def _few(seen: list[Said]) -> list[Said]:
    """No more than eight sentences: what tells least goes first."""
    for key in ("most_room", "hem_side_higher", "hem_side_lower", "stands_off"):
        if len(seen) > _MOST:
            seen = [one for one in seen if one.key != key]
    return seen


def _tight(level: LevelRead) -> Said:
    figures: dict[str, Filled] = {"name_level": level.name, "share_stretched": level.told_of}
    figures |= {"share_doubt": max(level.spread, 0.005)}
    if level.gives <= 0:
        return said("firm", **figures)
    figures |= {"share_gives": level.gives}
    if level.too_tight:
        return said("too_tight" if level.most < level.gives else "beyond", **figures)
    figures |= {"name_how": "tight" if level.presses else "close"}
    if level.pulled_side:
        front = level.pulled_side == "front"
        if (level.back if front else level.front) <= -_NOTHING:
            return said("slack_behind" if front else "slack_in_front", **figures)
        return said("tight_in_front" if front else "tight_behind", **figures)
    return said("tight", **figures)


def _hem(reading: Reading) -> Iterator[Said]:
    hem = reading.hem
    doubt = max(hem.front_spread, 5.0)
    if abs(hem.front) < max(_LEVEL, hem.front_spread):
        yield said("hem_level", mm_doubt=doubt)
    else:
        key = "hem_front_higher" if hem.front > 0 else "hem_front_lower"
        yield said(key, mm_off=abs(hem.front), mm_doubt=doubt)
    middle = hem.front / 2
    if abs(hem.side - middle) >= max(_OFF_LEVEL, 1.5 * hem.side_spread):
        yield said("hem_side_higher" if hem.side > middle else "hem_side_lower", mm_off=abs(hem.side - middle))


def _rises(reading: Reading) -> Iterator[Said]:
    if reading.rides is None or reading.stays is None:
        pass
    elif reading.rides >= _RIDES:
        hard = reading.stays >= _MAY_RIDE or reading.rides >= _FAR_UP
        yield said("rides_up" if hard else "may_ride_up", mm_most=reading.rides)
    elif not reading.from_waist:
        yield said("stays")
    if reading.reaches is not None and reading.reaches >= _REACHES:
        yield said("lifts", mm_most=reading.reaches)
    elif reading.reaches is not None:
        yield said("hardly_lifts")


# ---- what to change -------------------------------------------------------------------------------------------------


def _advice(reading: Reading, by_ease: bool, size: SizeWorn | None) -> Iterator[Said]:
    """At most three things to do, the most pressing first."""
    found = [advised("measure", name_measures=reading.estimated[:2])] if _girth_guessed(reading) else []
    found += size_advice(size) if size else ()
    off = size is not None and size.other
    if not off:
        found += _girths_advice(reading, by_ease)
    bust = reading.level("bust")
    if (
        bust is not None
        and not off
        and bust.front >= _BUSTY * max(1.0, bust.gives / _OF_KNITS)
        and bust.front - bust.back >= UNEQUAL
    ):
        found.append(advised("bust_wants_shape" if reading.shaped else "bust_wants_room"))
    if reading.estimated and not _girth_guessed(reading):
        found.append(advised("measure", name_measures=reading.estimated[:2]))
    hangs = not any(level.beyond for level in reading.levels) and not (size and size.too_large)
    if hangs and reading.hem.front >= max(_SHORT, reading.hem.front_spread):
        found.append(advised("front_hangs_short", mm_off=reading.hem.front))
    if not found:
        found.append(advised("nothing_to_change"))
    yield from found[:3]


def _girth_guessed(reading: Reading) -> bool:
    """Whether a girth is estimated that all leans on."""
    return any(name in MAIN for name in reading.estimated)


def _girths_advice(reading: Reading, by_ease: bool) -> Iterator[Said]:
    """What of the girths is to be changed: more where it is too tight, less where it is close, or less everywhere."""
    too_tight = [level for level in reading.levels if level.too_tight]
    for level in sorted(too_tight, key=lambda one: -one.most):
        yield advised("more_ease" if by_ease else "larger_there", name_level=level.name)
    close = [level for level in reading.levels if level.stretched >= _CLINGS or level.presses]
    if close and not too_tight:
        key = "ease_there" if by_ease else "looser_there"
        yield advised(key, name_level=max(close, key=lambda one: one.stretched).name)
    rooms = [level.room for level in reading.levels if level.room is not None]
    if rooms and min(rooms) > _VERY_LOOSE and not any(level.tight for level in reading.levels):
        yield advised("less_ease" if by_ease else "smaller")


def _cautions(reading: Reading) -> Iterator[Said]:
    for name in reading.outside:
        yield said("outside", name_measure=name)
    if reading.not_tried:
        yield said("not_tried")
    if reading.sides_apart:
        yield said("sides_apart")
    for caution in reading.cautions:
        yield Said(caution.key, caution.figures)
    if reading.left_out:
        yield said("left_out", name_pieces=reading.left_out)
