"""The pieces of a text in all sizes: lines first, which is what the eye follows while a number moves."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.units import Kind
from draft.drafting.drafting import Drafted
from draft.drafting.drawable import stop_if_not_drawable
from draft.garment.garment import Edge, InnerDart, Join, Mark, Piece, Takeup
from draft.garment.marks import dart_legs, inner_legs, places
from draft.geometry import cubic
from draft.geometry.area import outline_area
from draft.geometry.length import length, point_at, tangent_at
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import at_hand, based, quickly
from draft.page.designing.browser_offsets import Lines
from draft.page.designing.path_data import DOWN, path_data, shown, through
from draft.page.designing.points_by_hand import in_row
from draft.page.designing.undisturbed import undisturbed
from draft.plan.plan import Step

Told = dict[str, Any]
_PLEAT = 8.0
"""A pleat of no length of its own is shown so many mm deep."""


def nest(asked: Asked, bench: Bench) -> Gave:
    """The garment of a `text` for the sizes, the person and the `styles` asked for.

    `sizes` are their names, `failed` those that cannot be drafted. Each of `pieces` has its `edges`, `points`, `darts`
    and `marks`, with a path or a place for each size, in mm and y down, and where it is written. Where the text is
    `moving`, and differs in one number or in remarks from the last, the answer is too: its places are those before.
    Raises `Problems` with the mistakes of the text.
    """
    with undisturbed():
        moving = quickly(asked, bench) if asked.get("moving") else None
        if moving:
            return {**nest_of(moving), "moving": True}
        hand = at_hand(asked, bench)
        stop_if_not_drawable(hand.drafted.garment)
        based(asked, bench, hand)
        return nest_of(hand.drafted)


def nest_of(drafted: Drafted) -> Gave:
    """What `nest` gives of a garment."""
    garment, good = drafted.garment, drafted.outcome.drafted
    assert drafted.planned
    lines = Lines(drafted.planned.texts.main.span.source)
    points = _points_by_piece(drafted)
    return {
        "title": garment.title,
        "sizes": list(garment.sizes),
        "failed": [name for name, is_good in zip(garment.sizes, good, strict=True) if not is_good],
        "pieces": [_piece(piece, good, points.get(piece.name, []), drafted, lines) for piece in garment.pieces],
        "joins": [_join(join, lines) for join in garment.joins],
    }


def _piece(piece: Piece, good: Bools, points: list[Step], drafted: Drafted, lines: Lines) -> Told:
    segments = np.concatenate([edge.segments for edge in piece.edges], axis=1)
    boxes = cubic.bounds(segments[good]) if good.any() else np.zeros((1, 2, 2))
    low, high = boxes[:, 0].min(axis=0), boxes[:, 1].max(axis=0)
    return {
        "name": piece.name,
        "title": piece.title,
        "at": lines.of(piece.span),
        "middle": shown(_middle(segments[int(np.argmax(good))])),
        "box": shown(np.array([low[0], -high[1], high[0], -low[1]])),
        "grain": shown(piece.grain[0] * [1, -1], 4),
        "edges": list(_edges(piece, segments, good, lines)),
        "points": list(_points(piece, points, drafted, lines)),
        "darts": list(_darts(piece, good, lines)),
        "marks": list(_marks(piece, good, lines)),
    }


def _middle(outline: Floats) -> Floats:
    """The middle `(2,)` of the area of an outline `(n, 4, 2)`, y down: where a piece's name stands."""
    at = outline[:, 0]
    beside = np.roll(at, -1, axis=0)
    turned = at[:, 0] * beside[:, 1] - beside[:, 0] * at[:, 1]
    area = float(turned.sum())
    middle = ((at + beside) * turned[:, None]).sum(axis=0) / (3 * area) if abs(area) > 1 else at.mean(axis=0)
    return np.asarray(middle * [1, -1])


def _join(join: Join, lines: Lines) -> Told:
    sides = [[f"{part.piece}.{part.edge}" for part in parts] for parts in (join.first, join.second)]
    return {"name": join.name, "at": lines.of(join.span), "fit": join.fit, "sides": sides}


# ---- edges ----------------------------------------------------------------------------------------------------------


def _edges(piece: Piece, segments: Floats, good: Bools, lines: Lines) -> Iterator[Told]:
    paths = _paths(segments, [edge.segments.shape[1] for edge in piece.edges], good)
    for edge, of_sizes in zip(piece.edges, paths, strict=True):
        yield {
            "name": edge.name,
            "at": lines.of(edge.span),
            "ends": list(edge.ends),
            "fold": edge.on_fold,
            "d": of_sizes,
            "length": shown(np.where(good, length(edge.segments), np.nan)),
            "sewn": _sewn(piece, edge, good),
        }


def _sewn(piece: Piece, edge: Edge, good: Bools) -> list[float | None] | None:
    """How long it is once its darts and pleats are shut, where it has any."""
    taken = [takeup.width for takeup in piece.takeups if takeup.edge == edge.name]
    return shown(np.where(good, length(edge.segments) - sum(taken), np.nan)) if taken else None


def _paths(segments: Floats, counts: list[int], good: Bools) -> list[list[str]]:
    """The path of each edge in each size; all of a piece are rounded at once."""
    straight = cubic.is_straight(segments).tolist()
    rows = np.round(segments.reshape(*segments.shape[:2], 8) * DOWN, 2).tolist()
    parts = list(pairwise(np.cumsum([0, *counts]).tolist()))
    return [[_path(rows[k], straight[k], part) if good[k] else "" for k in range(len(rows))] for part in parts]


def _path(rows: list[list[float]], straight: list[bool], part: tuple[int, int]) -> str:
    first = rows[part[0]]
    words = [f"M{first[0]} {first[1]}"]
    for k in range(*part):
        row = rows[k]
        words.append(
            f"L{row[6]} {row[7]}" if straight[k] else f"C{row[2]} {row[3]} {row[4]} {row[5]} {row[6]} {row[7]}"
        )
    return "".join(words)


# ---- points ---------------------------------------------------------------------------------------------------------


def _points_by_piece(drafted: Drafted) -> dict[str, list[Step]]:
    found: dict[str, list[Step]] = {}
    for step in drafted.plan.steps:
        if step.kind is Kind.POINT and " " not in step.name:
            piece, _, _ = step.name.partition(".")
            found.setdefault(piece, []).append(step)
    return found


def _points(piece: Piece, steps: list[Step], drafted: Drafted, lines: Lines) -> Iterator[Told]:
    values = drafted.outcome.trace.values
    for step in steps:
        at = np.broadcast_to(values[step.name], (len(drafted.garment.sizes), 2))
        held = {handle.axis for handle in in_row(step.span.text.split("\n", 1)[0])}
        yield {
            "name": step.name.partition(".")[2],
            "at": lines.of(step.span),
            "x": shown(at[:, 0]),
            "y": shown(-at[:, 1]),
            "moves": "".join(axis for k, axis in enumerate("xy") if k in held),
        }


# ---- darts, pleats, marks -------------------------------------------------------------------------------------------


def _darts(piece: Piece, good: Bools, lines: Lines) -> Iterator[Told]:
    for takeup in piece.takeups:
        paths = [_takeup(piece, takeup, body) if good[body] else "" for body in range(len(good))]
        yield {"name": takeup.name, "at": lines.of(takeup.span), "d": paths, "width": shown(takeup.width)}
    for dart in piece.inner_darts:
        paths = [_inner(dart, body) if good[body] else "" for body in range(len(good))]
        yield {"name": dart.name, "at": lines.of(dart.span), "d": paths, "width": shown(dart.width)}


def _is_there(takeup: Takeup | InnerDart, body: int) -> bool:
    return bool(np.isfinite(takeup.at[body]).all() and takeup.width[body] > 0)


def _inner(dart: InnerDart, body: int) -> str:
    return "".join(path_data(leg) for leg in inner_legs(dart, body)) if _is_there(dart, body) else ""


def _takeup(piece: Piece, takeup: Takeup, body: int) -> str:
    if not _is_there(takeup, body):
        return ""
    run = piece.edge(takeup.edge).segments[body][None]
    at, half = float(takeup.at[body]), float(takeup.width[body]) / 2
    sides = [np.array([place]) for place in (at - half, at + half)]
    mouths = np.stack([point_at(run, place)[0] for place in sides])
    if takeup.to is not None:
        return "".join(path_data(leg) for leg in dart_legs(takeup, mouths, body))
    deep = _PLEAT if takeup.length is None else float(takeup.length[body])
    outline = np.concatenate([edge.segments[body] for edge in piece.edges])
    outward = 1.0 if outline_area(outline) > 0 else -1.0
    ways = [cubic.right_of(tangent_at(run, place)[0]) * outward * deep for place in sides]
    return "".join(through(np.stack([top, top - way])) for top, way in zip(mouths, ways, strict=True))


def _marks(piece: Piece, good: Bools, lines: Lines) -> Iterator[Told]:
    for mark in piece.marks:
        paths = [_mark(mark, body) if good[body] else "" for body in range(len(good))]
        yield {"name": mark.name, "at": lines.of(mark.span), "d": paths}


def _mark(mark: Mark, body: int) -> str:
    """A line through its points; a small cross at each where it is drilled or fastened."""
    found = places(mark, body)
    if not (mark.drill or mark.fastening):
        return through(found)
    arms = np.array([[[-3.0, 0.0], [3.0, 0.0]], [[0.0, -3.0], [0.0, 3.0]]])
    return "".join(through(at + arm) for at in found for arm in arms)
