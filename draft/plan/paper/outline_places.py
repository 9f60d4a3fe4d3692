"""Where on an outline something lies, as far as names tell: at a corner, on an edge, or in the mouth of a dart."""

from __future__ import annotations

from draft.base.notes import Note, error
from draft.base.record import dataclass
from draft.base.units import Kind
from draft.geometry.nearest import ON_EDGE, nearest_place
from draft.language import tree
from draft.plan.paper.combining import made_of
from draft.plan.paper.stage import Sheets, Stage
from draft.plan.plan import Value
from draft.words.word import one

_IS = "is "
_POINT_ON = {"on_edge", "share_of_edge", "on_place", "where_edge_meets", "where_edge_last_meets",
             "where_edge_meets_nearest"}  # fmt: skip
_POINT_ON_BOTH = {"where_edges_meet", "where_edges_last_meet", "where_edges_meet_nearest"}


def lies_on(place: tree.Place) -> frozenset[str]:
    """The edges and lines of the sheet itself that a point is said to lie on; `is d` of another name for `d`."""
    value = place.value
    if isinstance(value, tree.Ref) and len(value.parts) == 1:
        return frozenset({f"{_IS}{value.text}"})
    if not isinstance(value, tree.Call):
        return frozenset()
    refs = [arg for arg in value.args if isinstance(arg, tree.Ref)]
    if value.word == "same_point" and refs and len(refs[0].parts) == 1:
        return frozenset({f"{_IS}{refs[0].text}"})
    count = 1 if value.word in _POINT_ON else 2 if value.word in _POINT_ON_BOTH else 0
    return frozenset(ref.parts[0] for ref in refs[:count] if len(ref.parts) == 1)


def first_named(stage: Stage, at: tree.Ref) -> tree.Ref:
    """A point of a state by the name that it had first, where it is another by a name of its own."""
    seen: set[str] = set()
    while at.text not in seen:
        seen.add(at.text)
        other = next((on for on in stage.points.get(at.parts[0], ()) if on.startswith(_IS)), None)
        if len(at.parts) == 1 and other:
            at = tree.Ref(at.span, (other.removeprefix(_IS),))
    return at


@dataclass(frozen=True)
class OutlinePlace:
    """A place on an outline: on edge number `edge`, at its start where `corner`; or the mouth of a dart on it."""

    name: str
    edge: int
    corner: bool = False
    dart: tree.Takeup | None = None


def place_of(stage: Stage, at: tree.Ref) -> OutlinePlace | None:
    """Where a point or a dart of a state lies on its outline, as far as it is said."""
    name = at.parts[0]
    for k, edge in enumerate(stage.outline):
        if edge.start.parts == (name,):
            return OutlinePlace(name, k, corner=True)
    dart = stage.takeup(name)
    number = stage.place_in(dart.edge.text) if dart else None
    if number is not None:
        return OutlinePlace(name, number, dart=dart)
    numbers = [stage.place_in(on) for on in sorted(stage.points.get(name, ()))]
    here = [k for k in numbers if k is not None]
    return OutlinePlace(name, here[0]) if here else None


def unplaced(stage: Stage, at: tree.Ref, what: str) -> Note:
    """The note on a point that is not said to lie on any edge of the outline."""
    edge = stage.outline[0].name if stage.outline else "hem"
    fact = f"{what} ends at `{at.text}`, which is not said to lie on an edge of `{stage.name.split()[0]}`"
    return error(
        fact, at.span, f"say on which, as in `{at.text}  on {edge}: 4 cm from ...` or `where {edge} meets ...`"
    )


def leg_place(sheets: Sheets, stage: Stage, dart: tree.Takeup, last: bool) -> Value:
    """How far along its edge one leg of a dart meets it, mm: the first or the last."""
    at = along(sheets, stage, dart.edge.text, sheets.values.compile(dart.at, stage.name, one(Kind.POINT)))
    width = sheets.values.compile(dart.width, stage.name, one(Kind.LENGTH))
    way = 0.5 if last else -0.5
    return made_of(dart.span, Kind.LENGTH, (at, width), lambda at, width: at + way * width)


def along(sheets: Sheets, stage: Stage, edge: str, point: Value, off: str = "") -> Value:
    """How far along an edge of a state a point lies, mm; `off` tells of a point that lies beside it, with `{by}`."""
    path = sheets.found(stage, edge, point.span)

    def find(segments, place):  # type: ignore[no-untyped-def]
        at, miss = nearest_place(segments, place)
        beside = miss > ON_EDGE
        worst = float(miss.max()) if beside.any() else 0.0
        return (at, [(beside, off.format(by=f"{worst:.1f} mm"))]) if off else at

    return made_of(point.span, Kind.LENGTH, (path, point), find)
