"""Which lines of a drawing are pieces: its strokes taken apart by blocks and layers, joined, and the outermost kept."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from draft.base.arrays import Floats
from draft.base.notes import Note, Problems, Severity, caution, error, remark
from draft.base.record import dataclass
from draft.beginning.joined import Joined, Outline, joined
from draft.beginning.said_by_lines import FOLD, Around, aside
from draft.beginning.strokes import Drawn, Stroke
from draft.geometry.cubic import line, norm
from draft.geometry.flatten import flatten

SMALLEST = 100.0
"""mm2: a closed line in a smaller box is a drill hole or a letter."""
LARGEST = 10_000.0
"""mm: no piece is longer; a drawing that says so was taken in the wrong unit."""
MOST_PIECES = 100
TOLD_GAP = 0.01
_STRAIGHT = 1e-3
"""Of its length: so far a straight stroke may stray from its chord."""


@dataclass(frozen=True)
class Found:
    """A piece as it was drawn, in mm: its outline, for each segment the edge that it says to be of, and its grain.

    `grain` is a unit vector `(2,)`, or None where no line says so.
    """

    name: str
    outline: Outline
    edges: tuple[str, ...]
    grain: Floats | None = None


def pieces_of(drawn: Drawn, layers: Sequence[str], tolerance: float, close: bool) -> tuple[list[Found], list[Note]]:
    """The pieces of a drawing in mm, and what there is to say of the rest.

    `layers` are those that are asked for, all where none is; ends within `tolerance` mm are joined, and with `close`
    the longest open line of a piece is closed straight. Raises `Problems` where there is no piece.
    """
    strokes = _asked(drawn, layers)
    notes: list[Note] = []
    found: list[Found] = []
    opened: list[Joined] = []
    for group in _groups(strokes):
        made, left = _of_group(group, drawn, tolerance, close)
        found += made
        opened += [left] if not made and left.open_ends is not None else []
    notes += _left_out(drawn, found)
    small = [one for one in found if _size(one) < SMALLEST]
    found = [one for one in found if _size(one) >= SMALLEST]
    if opened:
        notes += [_open(one, not found, drawn.upwards) for one in sorted(opened, key=lambda one: -one.longest)[:3]]
    if not found:
        raise Problems([n for n in notes if n.severity is Severity.ERROR] or [_nothing(drawn, bool(small))])
    _stop_if_too_large(found)
    return found, [*notes, *_gaps(found)]


def _asked(drawn: Drawn, layers: Sequence[str]) -> list[Stroke]:
    """The strokes of the layers that are asked for. Raises `Problems` for a layer that is not there."""
    there = sorted({stroke.layer for stroke in drawn.strokes if stroke.layer})
    for layer in layers:
        if layer not in there:
            hint = f"choose from {', '.join(there[:20])}" if there else "leave `--layer` out"
            raise Problems([error(f"the drawing has no layer or group called `{layer[:60]}`", None, hint)])
    own = [stroke for stroke in drawn.strokes if stroke.edge and stroke.name == f"{stroke.piece}.{stroke.edge}"]
    if own and not layers:
        return own  # sewing lines of a drawing of ours, which say what they are
    return [stroke for stroke in drawn.strokes if not layers or stroke.layer in layers]


def _groups(strokes: Iterable[Stroke]) -> list[list[Stroke]]:
    """Strokes by the block or piece that they say to be of; the others together."""
    found: dict[str, list[Stroke]] = {}
    for stroke in strokes:
        found.setdefault(stroke.piece, []).append(stroke)
    return list(found.values())


def _of_group(group: Sequence[Stroke], drawn: Drawn, tolerance: float, close: bool) -> tuple[list[Found], Joined]:
    """The pieces among these strokes, and what came of joining them all."""
    by_layer: dict[str, list[Stroke]] = {}
    for stroke in group:
        by_layer.setdefault(stroke.layer, []).append(stroke)
    outlines = [(one, some) for some in by_layer.values() for one in joined(_paths(some), tolerance).closed]
    left = joined(_paths(group), tolerance)
    if not outlines:
        closing = _closing(left, group, tolerance, close)
        group = [*group, *closing]
        left = joined(_paths(group), tolerance) if closing else left
        outlines = [(one, list(group)) for one in left.closed]
    outermost = _outermost([one for one, _ in outlines])
    if group[0].piece:  # a block is one piece
        outermost = outermost[:1]
    return [_found(*outlines[k], drawn) for k in outermost], left


def _paths(strokes: Iterable[Stroke]) -> list[Floats]:
    return [stroke.path for stroke in strokes]


def _closing(left: Joined, group: Sequence[Stroke], tolerance: float, close: bool) -> list[Stroke]:
    """A straight line that closes the longest open run: along a stroke that both its ends lie on, or as asked."""
    if left.open_ends is None or len(left.open_ends) < 2:
        return []
    start, end = left.open_ends
    along = any(_lies_on(left.open_ends, stroke.path, tolerance) for stroke in group)
    if not (along or close) or norm(end - start) <= tolerance:
        return []
    return [Stroke(line(start, end)[None], group[0].piece, edge=FOLD if along else "")]


def _lies_on(ends: Floats, path: Floats, tolerance: float) -> bool:
    """Whether both ends `(2, 2)` lie on a straight stroke and take the most of it."""
    chord = path[-1, 3] - path[0, 0]
    long = float(norm(chord))
    if long <= tolerance or np.abs(aside(path.reshape(-1, 2) - path[0, 0], chord)).max() > _STRAIGHT * long:
        return False
    reach = (ends - path[0, 0]) @ chord / long
    near = np.abs(aside(ends - path[0, 0], chord)).max() <= tolerance
    return bool(near and reach.min() >= -tolerance and reach.max() <= long + tolerance and np.ptp(reach) > long / 2)


def _outermost(outlines: Sequence[Outline]) -> list[int]:
    """The numbers of outlines that lie in no other, the largest first."""
    import shapely

    shapes = [shapely.make_valid(shapely.Polygon(flatten(one.path, 0.05)).simplify(0.1)) for one in outlines]
    order = sorted(range(len(shapes)), key=lambda k: -shapes[k].area)
    kept: list[int] = []
    for k in order:
        inside = shapes[k].representative_point() if not shapes[k].is_empty else shapely.Point()
        if not any(shapes[other].buffer(0.5).covers(shapes[k]) or shapes[other].covers(inside) for other in kept):
            kept.append(k)
    return kept


def _found(outline: Outline, strokes: Sequence[Stroke], drawn: Drawn) -> Found:
    first = strokes[outline.of[0]]
    around = Around([stroke for stroke in drawn.strokes if stroke.piece == first.piece], drawn.words, outline)
    folds = around.on_fold()
    edges = tuple(FOLD if fold else strokes[k].edge for k, fold in zip(outline.of, folds, strict=True))
    return Found(around.name(first), outline, edges, around.grain())


# ---- what there is to say


def _left_out(drawn: Drawn, found: Sequence[Found]) -> Iterator[Note]:
    if drawn.left_out:
        listed = ", ".join(f"{count} `{name[:30]}`" for name, count in sorted(drawn.left_out.items())[:6])
        yield remark(f"not read are {listed}: only lines, curves and words are")
    small = sum(_size(one) < SMALLEST for one in found)
    if small:
        yield remark(f"{small} closed lines within less than 1 cm² are left out: no pieces are so small")


def _open(one: Joined, alone: bool, upwards: float) -> Note:
    assert one.open_ends is not None
    (ax, ay), *rest = (one.open_ends * [1.0, upwards]).tolist()
    where = f"it ends at {ax:.1f}, {ay:.1f} mm" + "".join(f" and at {x:.1f}, {y:.1f} mm" for x, y in rest)
    gap = f", {float(norm(one.open_ends[1] - one.open_ends[0])):.1f} mm apart" if rest else ""
    fix = "draw it closed, join ends further apart with `--join 2mm`, or close it straight with `--close`"
    say = error if alone else caution
    return say(f"an outline {one.longest:.0f} mm long is open: {where}{gap}", None, fix)


def _size(one: Found) -> float:
    """The area of the box round an outline, mm2."""
    return float(np.prod(np.ptp(one.outline.path.reshape(-1, 2), axis=0)))


def _nothing(drawn: Drawn, small: bool) -> Note:
    if small:
        fix = "say what one unit of the drawing is with `--unit cm`"
        return error("all closed lines of the drawing lie within less than 1 cm²: pieces are larger", None, fix)
    if not drawn.strokes:
        return error("the drawing holds no lines", None, "draw outlines as paths, not as pictures or words")
    return error("the drawing holds no closed outline", None, "draw each piece as a closed line, or use `--close`")


def _gaps(found: Sequence[Found]) -> Iterator[Note]:
    wide = [one.outline.gap for one in found if one.outline.gap > TOLD_GAP]
    if wide:
        yield remark(f"ends of lines up to {max(wide):.2f} mm apart were joined, on {len(wide)} pieces")


def _stop_if_too_large(found: Sequence[Found]) -> None:
    if len(found) > MOST_PIECES:
        fact = f"the drawing holds {len(found)} pieces, more than {MOST_PIECES}"
        raise Problems([error(fact, None, "choose a layer with `--layer`, or draw fewer in one file")])
    for one in found:
        size = float(np.ptp(one.outline.path.reshape(-1, 2), axis=0).max())
        if size > LARGEST:
            fact = f"a piece of this drawing is {size / 1000:,.1f} m long"
            raise Problems([error(fact, None, "say what one unit of the drawing is with `--unit mm`")])


def in_mm(drawn: Drawn, unit: float) -> Drawn:
    """A drawing whose unit is so many mm, in mm."""
    strokes = tuple(replace(stroke, path=stroke.path * unit) for stroke in drawn.strokes)
    words: Any = tuple(replace(one, at=one.at * unit) for one in drawn.words)
    return replace(drawn, strokes=strokes, words=words, unit=1.0)
