"""A drafted pattern in plain text, to a hundredth of a millimetre or a degree: what the tests compare."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import show
from draft.base.units import Kind, rounded
from draft.drafting.drafting import Drafted
from draft.garment.garment import Garment, Notch, Piece
from draft.garment.marks import places
from draft.geometry.length import length
from draft.plan.names import SEWN
from draft.plan.plan import Step
from draft.seams.walk import walk_seams


def described(drafted: Drafted) -> str:
    """Everything that a draft found: values, points, edges, pieces, seams, readings and notes."""
    garment = drafted.garment
    parts = [
        ("values, mm, degrees or plain", _values(drafted)),
        ("solved", [_row(name, drafted, values) for name, values in garment.chosen]),
        ("pieces", [line for piece in garment.pieces for line in _piece(piece)]),
        ("seams, mm: first side, second, wanted of the first", list(_seams(garment))),
        ("finished, mm", list(_finished(garment))),
    ]
    sections = [f"{heading}: {', '.join(garment.sizes)}\n" + "\n".join(lines) for heading, lines in parts if lines]
    return "\n\n".join([*sections, *([show(drafted.notes)] if drafted.notes else [])])


def _values(drafted: Drafted) -> list[str]:
    written = sorted(drafted.plan.steps, key=lambda step: (step.span.source.name, step.span.start, step.name))
    found = drafted.outcome.trace.values
    told = [s for s in written if s.kind is not Kind.CHOICE and is_written(s.name) and not _as_drawn(s.name, found)]
    return [_row(s.name, drafted, found[s.name]) for s in told]


def is_written(name: str) -> bool:
    """Whether someone wrote the name: what is found on the way to a traced piece holds a space."""
    return " " not in name.removesuffix(SEWN)


def _as_drawn(name: str, found: Mapping[str, Floats]) -> bool:
    """Whether a value is the sewn length of an edge that is sewn as long as it is drawn."""
    return name.endswith(SEWN) and np.allclose(found[name], length(found[name.removesuffix(SEWN)]))


def _row(name: str, drafted: Drafted, values: Floats) -> str:
    step = next(step for step in drafted.plan.steps if step.name == name)
    return f"  {name.replace(SEWN, ', sewn'):26}  " + "  ".join(_in_words(step, value) for value in values)


def _in_words(step: Step, value: Floats) -> str:
    if step.kind is Kind.EDGE:
        return figure(float(length(value[None])[0]))
    if step.kind is Kind.ROW:
        ends = " to ".join(f"({figure(at[0])}, {figure(at[1])})" for at in (value[0], value[-1]))
        return f"{len(np.unique(value, axis=0))} points {ends}"
    if step.kind in (Kind.POINT, Kind.DIRECTION):
        places = 2 if step.kind is Kind.POINT else 4
        return f"({figure(value[0], places)}, {figure(value[1], places)})"
    return figure(np.degrees(value) if step.kind is Kind.ANGLE else float(value), 4 if step.kind is Kind.NUMBER else 2)


def figure(value: float, places: int = 2) -> str:
    """A figure without the sign of a nought."""
    return rounded(value, places)


def _each(values: Floats, places: int = 2) -> str:
    return "  ".join(figure(value, places) for value in values)


def _piece(piece: Piece) -> Iterable[str]:
    yield f"  {piece.name} `{piece.title}`, cut {piece.cut} {piece.cut_as}".rstrip()
    yield f"    grain {_each(np.degrees(np.arctan2(*piece.grain.T[::-1])))}"
    yield f"    stretch {_each(np.degrees(np.arctan2(*piece.stretch.T[::-1])))}"
    for edge in piece.edges:
        said = ["on fold"] * edge.on_fold + [f"allowance {figure(edge.allowance)}"]
        said += ["mirror"] * edge.turned_up + [f"then {edge.end_corner}"] * (edge.end_corner != "carried")
        said += [f"gathered {_each(edge.gathered, 4)}"] if edge.gathered is not None else []
        yield f"    {edge.name}: {edge.segments.shape[1]} segments, {', '.join(said)}"
    for takeup in piece.takeups:
        to = "" if takeup.to is None else f", to {'  '.join(f'({_each(p)})' for p in takeup.to)}"
        deep = "" if takeup.length is None else f", folded {_each(takeup.length)}"
        yield f"    {takeup.name} on {takeup.edge}: {_each(takeup.width)} wide at {_each(takeup.at)}{to}{deep}"
    for notch in _sorted(piece.notches):
        yield f"    notch on {notch.edge} at {_each(notch.at)}, {notch.strokes} strokes"
    for mark in piece.marks:
        found = [places(mark, body) for body in range(len(mark.points))]
        lines = "  ".join(" to ".join(f"({_each(point)})" for point in points) for points in found)
        sort = mark.fastening or ("drill" if mark.drill else "line")
        long = f", long {_each(mark.length)}" if mark.length is not None else ""
        yield f"    {mark.name}: {sort} {lines}{long} {mark.words}".rstrip()


def _sorted(notches: Iterable[Notch]) -> list[Notch]:
    """In an order that does not lean on the order of the joins."""
    return sorted(notches, key=lambda notch: (notch.edge, float(np.nan_to_num(notch.at[0])), notch.strokes))


def _seams(garment: Garment) -> Iterable[str]:
    for walked in walk_seams(garment):
        sides = (walked.first, walked.second, np.broadcast_to(walked.wanted, walked.first.shape))
        yield f"  {walked.join.name}, {walked.join.fit}: " + ";  ".join(_each(side) for side in sides)


def _finished(garment: Garment) -> Iterable[str]:
    for found in garment.finished:
        ease = f", ease {_each(found.values - found.over[1])}" if found.over else ""
        passing = "".join(f", passing {name} {_each(values)}" for name, values in found.passing)
        around = " around" if found.around else ""
        yield f"  {found.name}{around} {_each(found.values)}{ease}{passing} {found.words}".rstrip()
