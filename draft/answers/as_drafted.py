"""What a pattern drafted, for a designer to look at: a working drawing for each size, and a table of every value."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Floats
from draft.base.csvtext import csv_text
from draft.base.output_names import file_names
from draft.base.units import Kind
from draft.drafting.assembling import filled
from draft.drafting.drafting import Drafted
from draft.garment.garment import InnerDartOf, PieceOf, TakeupOf
from draft.garment.marks import inner_legs
from draft.geometry.area import outline_area
from draft.geometry.cubic import right_of
from draft.geometry.dart_leg import leg
from draft.geometry.length import length, point_at, tangent_at
from draft.paper.drawing.svg import svg
from draft.paper.pictures.working_drawing import WorkingSheet, working_drawing
from draft.paper.piece.notch_lines import NOTCH
from draft.plan.plan import Step, Value
from draft.solve import find_value


def as_drafted_files(drafted: Drafted) -> dict[str, bytes]:
    """The files by their paths: `working/M/front.svg` for each size and sheet, and `working/values.csv`."""
    files: dict[str, bytes] = {}
    sizes = drafted.garment.sizes
    for body, (name, file) in enumerate(zip(sizes, file_names(sizes), strict=True)):
        for piece in (*drafted.plan.blocks, *drafted.plan.pieces):
            if is_whole(drafted, piece, body):
                drawing = working_drawing(sheet_of(drafted, piece, body), drafted.garment.title, name)
                files[f"working/{file}/{piece.name}.svg"] = svg(drawing).encode()
    return {**files, "working/values.csv": values_table(drafted)}


def is_whole(drafted: Drafted, piece: PieceOf[Value, Value], body: int) -> bool:
    """Whether every edge of a sheet could be drawn for a body; another sheet's fault does not matter."""
    spoilt = drafted.outcome.trace.spoilt
    needs = frozenset[str]().union(*(edge.segments.needs for edge in piece.edges))
    return not any(spoilt[name][body] for name in needs if name in spoilt)


def values_table(drafted: Drafted) -> bytes:
    """Every value that has a name, a column for each size: lengths in cm, angles in degrees, points across and up."""
    rows = [["name", "unit", *drafted.garment.sizes, "what it is"]]
    for step in _written(drafted):
        for name, unit, values in _columns(step, drafted.outcome.trace.values[step.name]):
            rows.append([name, unit, *(f"{value:.2f}" for value in values), step.words])
    return csv_text(rows)


def _columns(step: Step, found: Floats) -> Iterator[tuple[str, str, Floats]]:
    if step.kind is Kind.POINT:
        yield f"{step.name}, across", "cm", found[:, 0] / 10
        yield f"{step.name}, up", "cm", found[:, 1] / 10
    elif step.kind is Kind.EDGE:
        yield f"{step.name}, length", "cm", length(found) / 10
    elif step.kind is Kind.LENGTH:
        yield step.name, "cm", found / 10
    elif step.kind is Kind.ANGLE:
        yield step.name, "deg", np.degrees(found)
    elif step.kind is Kind.NUMBER:
        yield step.name, "", found


def _written(drafted: Drafted) -> list[Step]:
    """The steps whose names someone wrote, in the order of the files."""
    steps = [step for step in drafted.plan.steps if " " not in step.name]
    return sorted(steps, key=lambda step: (step.span.source.name, step.span.start, step.name))


def sheet_of(drafted: Drafted, piece: PieceOf[Value, Value], body: int) -> WorkingSheet:
    """What was drafted of one block or piece for one body."""
    found = drafted.outcome.trace.values
    own = [step for step in drafted.plan.steps if step.name.startswith(f"{piece.name}.") and " " not in step.name]
    names = {edge.name for edge in piece.edges}
    said = {step.name.partition(".")[2]: found[step.name][body] for step in own}
    kinds = {step.name.partition(".")[2]: step.kind for step in own}
    edges = [(edge.name, find_value(edge.segments, drafted.outcome.trace)[body]) for edge in piece.edges]
    points = {name: said[name] for name, kind in kinds.items() if kind is Kind.POINT}
    for edge, (_, run) in zip(piece.edges, edges, strict=True):
        points.setdefault(edge.ends[0], run[0, 0])
    for name in [takeup.name for takeup in piece.takeups] + [dart.name for dart in piece.inner_darts]:
        points.pop(name, None)  # a dart's name stands at its legs
    return WorkingSheet(
        piece.name,
        piece.title,
        edges,
        [(name, said[name]) for name, kind in kinds.items() if kind is Kind.EDGE and name not in names],
        list(points.items()),
        list(_darts(drafted, piece, dict(edges), body)),
        list(_inner_darts(drafted, piece, body)),
        list(_pleats(drafted, piece, dict(edges), body)),
        _before(drafted, piece.name, body),
        _sewn(drafted, piece, dict(edges), body),
    )


def _sewn(drafted: Drafted, piece: PieceOf[Value, Value], edges: dict[str, Floats], body: int) -> dict[str, float]:
    """How long edges with darts and pleats are once those are shut, in mm."""
    taken: dict[str, float] = {}
    for takeup in piece.takeups:
        if takeup.edge in edges and _is_there(drafted, takeup, body):
            width = float(find_value(takeup.width, drafted.outcome.trace)[body])
            taken[takeup.edge] = taken.get(takeup.edge, 0.0) + max(width, 0.0)
    return {name: float(length(edges[name][None])[0]) - width for name, width in taken.items()}


def _darts(
    drafted: Drafted, piece: PieceOf[Value, Value], edges: dict[str, Floats], body: int
) -> Iterator[tuple[str, Floats]]:
    trace = drafted.outcome.trace
    for takeup in piece.takeups:
        if takeup.to is None or not _is_there(drafted, takeup, body):
            continue
        at, width, to = (find_value(value, trace)[body] for value in (takeup.at, takeup.width, takeup.to))
        run = _under(drafted, piece, takeup, edges, body)
        first, last = (point_at(run[None], at + way * width / 2)[0] for way in (-1, 1))
        bows = [None if bow is None else find_value(bow, trace)[body] for bow in (takeup.bow_first, takeup.bow_last)]
        legs = [leg(mouth, to, bow, last - first) for mouth, bow in zip((first, last), bows, strict=True)]
        yield takeup.name, np.stack([legs[0], legs[1][::-1]])


def _inner_darts(drafted: Drafted, piece: PieceOf[Value, Value], body: int) -> Iterator[tuple[str, Floats]]:
    for dart in piece.inner_darts:
        if _is_there(drafted, dart, body):
            first, last, other_first, other_last = (run[0] for run in inner_legs(filled(dart, drafted.outcome), body))
            yield dart.name, np.stack([first, last[::-1], other_last, other_first[::-1]])


def _pleats(
    drafted: Drafted, piece: PieceOf[Value, Value], edges: dict[str, Floats], body: int
) -> Iterator[tuple[str, Floats]]:
    """The pleats of a sheet: both lines and the fold between them, square to the edge, inwards: `(3, 2, 2)`."""
    trace = drafted.outcome.trace
    outward = 1 if outline_area(np.concatenate(list(edges.values()))) >= 0 else -1
    for takeup in piece.takeups:
        if takeup.to is not None or not _is_there(drafted, takeup, body):
            continue
        at, width = (find_value(value, trace)[body] for value in (takeup.at, takeup.width))
        deep = NOTCH if takeup.length is None else float(find_value(takeup.length, trace)[body])
        run = _under(drafted, piece, takeup, edges, body)[None]
        places = [np.atleast_1d(at + way * width / 2) for way in (-1, 1, 0)]
        tops = [(point_at(run, place)[0], tangent_at(run, place)[0]) for place in places]
        yield takeup.name, np.array([[top, top - right_of(way) * outward * deep] for top, way in tops])


def _under(
    drafted: Drafted, piece: PieceOf[Value, Value], takeup: TakeupOf[Value], edges: dict[str, Floats], body: int
) -> Floats:
    """The edge `(S, 4, 2)` that a dart or pleat is on."""
    run = edges.get(takeup.edge)
    return drafted.outcome.trace.values[f"{piece.name}.{takeup.edge}"][body] if run is None else run


def _is_there(drafted: Drafted, takeup: TakeupOf[Value] | InnerDartOf[Value], body: int) -> bool:
    """Whether a dart or pleat of what a sheet was traced from lies on it for a body."""
    return takeup.there is None or bool(find_value(takeup.there, drafted.outcome.trace)[body] > 0)


def _before(drafted: Drafted, name: str, body: int) -> list[Floats]:
    """The outline of the draft that a moved sheet was traced from."""
    draft = drafted.plan.moved_from.get(name)
    source = next((piece for piece in (*drafted.plan.blocks, *drafted.plan.pieces) if piece.name == draft), None)
    if source is None:
        return []
    return [find_value(edge.segments, drafted.outcome.trace)[body] for edge in source.edges]
