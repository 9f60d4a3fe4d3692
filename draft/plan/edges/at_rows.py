"""Darts and pleats at each point of a row: one line of a piece file makes as many as the row has points.

Only a row with a count will do: how many darts there are is the same for every body.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from draft.base.notes import Note, Span, error
from draft.base.units import Kind
from draft.language import tree

_COUNTED = ("row_of_points", "row_along")
_STEPPED = ("row_at_steps", "row_at_steps_along")
_MOST = 30
"""Darts or pleats of one row: more are a slip of the pen."""

Places = Mapping[str, tree.Place]


def at_each(body: tree.Contents, notes: list[Note]) -> tree.Contents:
    """A sheet's lines, with a dart or pleat for every point of the row that one stands at."""
    places = {place.name: place for place in body.points}
    made = [one for takeup in body.takeups for one in _at_each(takeup, places, notes)]
    return replace(body, takeups=tuple(made))


def _at_each(takeup: tree.Takeup, places: Places, notes: list[Note]) -> list[tree.Takeup]:
    row = _row(takeup.at, places)
    if row is None:
        return [takeup]
    count = _count(row)
    if count is None:
        fix = f"give `{row.name}` a count, as in `{row.name}  4 points from ...`"
        fact = f"darts and pleats stand at a row with a count, and `{row.name}` has as many points as there is room for"
        notes.append(error(fact, takeup.at.span, fix))
        return []
    tips = _row(takeup.to, places)
    if count > _MOST or (tips and _count(tips) != count):
        notes.append(_misfit(takeup, row, count, tips))
        return []
    return [_one(takeup, k, tips is not None) for k in range(1, count + 1)]


def _row(at: tree.Expr | None, places: Places) -> tree.Place | None:
    """The row of the same sheet that a name means, if it is one."""
    place = places.get(at.parts[0]) if isinstance(at, tree.Ref) and len(at.parts) == 1 else None
    is_row = place and isinstance(place.value, tree.Call) and place.value.word in (*_COUNTED, *_STEPPED)
    return place if is_row else None


def _count(row: tree.Place) -> int | None:
    """How many points a row has; None where that is not written."""
    assert isinstance(row.value, tree.Call)
    first = row.value.args[0]
    counted = row.value.word in _COUNTED and isinstance(first, tree.Literal)
    return int(first.value) if counted else None  # type: ignore[union-attr]


def _misfit(takeup: tree.Takeup, row: tree.Place, count: int, tips: tree.Place | None) -> Note:
    if count > _MOST:
        fact = f"`{row.name}` has {count} points, and at most {_MOST} darts or pleats stand at one row"
        return error(fact, takeup.at.span, "gather the edge, or take fewer")
    assert tips and takeup.to
    fact = f"`{row.name}` has {count} points, but `{tips.name}` has not as many that the darts could be sewn to"
    return error(fact, takeup.to.span, f"give both {count} points")


def _one(takeup: tree.Takeup, number: int, tips: bool) -> tree.Takeup:
    """The dart or pleat at one point; its name holds a space, so that none that is written can be the same."""
    to = _point_of(takeup.to, number) if tips and takeup.to else takeup.to
    return replace(takeup, name=f"{takeup.name} {number}", at=_point_of(takeup.at, number), to=to)


def _point_of(row: tree.Expr, number: int) -> tree.Call:
    span: Span = row.span
    return tree.Call(span, "point_of_row", (tree.Literal(span, float(number), Kind.NUMBER), row))
