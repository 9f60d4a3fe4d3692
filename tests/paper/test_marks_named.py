"""On every nest each notch, dart, clip and mark tells whose it is: by a name beside it, or where a line from it ends.

Read off what is drawn, a path of a mark by its id and its size; nothing here knows how names are placed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
import pytest
import shapely

from draft.pack.files_on_pages import paged_sheets
from draft.pack.printed_files import Printing
from draft.paper.drawing.drawing import Drawing, Label, Path
from draft.paper.large.large import large_paper, on_large
from draft.paper.large.projector import projected
from draft.paper.pages.sheet import drafted_bodies, draw_pattern
from tests.asking import bundled
from tests.paper.reading import line_shape, words_shape
from tests.pieces.bundled import PATTERNS

PAPERS = ("letter", "a4", "a0", "roll-36in", "projector")
NEAR = {True: 40.0, False: 7.0}
"""A name stands no further from its mark than this, mm, unless a line leads to it: where letters are large, or not."""
ALIKE, BEGINS = 0.3, 0.6
"""Marks this near to one another are one; a line begins this near to the mark that it is of."""


@dataclass(frozen=True)
class Mark:
    """A mark of one size: what it is, its shapely shape, and the ends of its lines: lines may lie on one another."""

    name: str
    size: str
    shape: Any
    ends: Any


@cache
def drawing(pattern: str, paper: str) -> Drawing:
    garment = bundled(pattern).garment
    if paper in ("letter", "a4"):
        (sheet,) = paged_sheets(garment, Printing((paper,)))
        return sheet.drawing
    drawn = draw_pattern(garment, drafted_bodies(garment))
    return projected(drawn) if paper == "projector" else on_large(drawn, large_paper(paper), "t").drawing


def test_marks_are_named_on_paper_and_projected() -> None:
    """A sample of the whole shelf: a top with bands, a blouse with plackets, buttonholes, darts and pleats."""
    for pattern, paper in (("marlpit", "projector"), ("lockside", "letter")):
        assert_all_named(pattern, paper)


@pytest.mark.slow
@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("pattern", PATTERNS)
def test_marks_are_named_on_every_paper(pattern: str, paper: str) -> None:
    assert_all_named(pattern, paper)


def assert_all_named(pattern: str, paper: str) -> None:
    drawn = drawing(pattern, paper)
    marks = list(_marks(drawn))
    large = paper == "projector"
    assert len(marks) > 20, "there is something to be named"
    assert _overlapping(drawn) == []
    assert [(mark.name, mark.size) for mark in marks if not _named(mark, marks, drawn, large)] == []


def _overlapping(drawn: Drawing) -> list[str]:
    """Names of sizes that lie on other words."""
    words = [(item.text, words_shape(item)) for item in drawn.items() if isinstance(item, Label)]
    shapes = [shape.buffer(-0.1) for _, shape in words]
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    pairs = [(words[a][0], words[b][0]) for a, b in zip(first, second, strict=True) if a < b]
    return [f"{one} on {other}" for one, other in pairs if {one, other} & set(drawn.sizes)]


def _marks(drawn: Drawing) -> Iterator[Mark]:
    for layer in drawn.layers:
        for item in layer.items if layer.size else ():
            if isinstance(item, Path) and item.id and _is_mark(item):
                stem = item.id.removesuffix(f".{layer.size}")
                for number, (place, ends) in enumerate(_places(item)):
                    yield Mark(f"{stem} {number}", layer.size, place, ends)


def _is_mark(path: Path) -> bool:
    kinds = (".notch", ".clip", ".dart", "_dart", ".pleat")
    signs = (".cut", ".sew", ".signs.", ".middle.")
    named = "mark" in dict(path.data) or any(kind in path.id for kind in kinds)
    return named and not any(sign in path.id for sign in signs)


def _places(path: Path) -> list[tuple[Any, Any]]:
    """Each sign of a row by itself; anything else whole, two strokes with what is between."""
    rings = [run for run in path.runs if len(run) == 4 and np.allclose(run[0, 0], run[-1, 3])]
    if len(rings) > 1:
        return [_sign(path, k, len(path.runs) // len(rings)) for k in range(len(rings))]
    if ".notch" in path.id or ".pleat" in path.id:  # of two strokes what is between them, and their inner ends
        return [(line_shape(path).convex_hull, shapely.MultiPoint([run[-1, 3] for run in path.runs]).convex_hull)]
    return [(line_shape(path), shapely.MultiPoint([run[at] for run in path.runs for at in ((0, 0), (-1, 3))]))]


def _sign(path: Path, number: int, of: int) -> tuple[Any, Any]:
    """A ring with its cross or arms, `of` so many runs: what it takes up, its middle and the ends of its lines."""
    ring, *lines = path.runs[number * of : (number + 1) * of]
    ends = [ring[:, 0].mean(axis=0), *(run[at] for run in lines for at in ((0, 0), (-1, 3)))]
    return line_shape(Path((ring, *lines))).convex_hull, shapely.MultiPoint(ends)


def _named(mark: Mark, marks: list[Mark], drawn: Drawing, large: bool) -> bool:
    others = [one for one in marks if one.name == mark.name and one.size != mark.size]
    if all(mark.shape.hausdorff_distance(one.shape) < ALIKE for one in others):
        return True  # all sizes share it
    same = [one for one in marks if one.size == mark.size and _is_there(one, mark)]
    return any(_bears(one, others, drawn, large) for one in same)


def _is_there(one: Mark, mark: Mark) -> bool:
    """A hole and its button lie on one another: a name for one names both."""
    return one is mark or one.ends.hausdorff_distance(mark.ends) < ALIKE


def _size_of(said: str) -> str:
    """The size that a name says, behind its mark's own word, as in `hip M`."""
    return said.rsplit(" ", 1)[-1]


def _bears(mark: Mark, others: list[Mark], drawn: Drawing, large: bool) -> bool:
    items = next(layer.items for layer in drawn.layers if layer.size == mark.size)
    names = [words_shape(item) for item in items if isinstance(item, Label) and _size_of(item.text) == mark.size]
    led = [item for item in items if isinstance(item, Path) and "leader" in dict(item.data)]
    lines = [item.runs for item in led if _size_of(dict(item.data)["leader"]) == mark.size]
    return any(_stands_at(mark, name, others, large) for name in names) or any(
        shapely.Point(runs[0][0, 0]).distance(mark.shape) < BEGINS
        and any(name.distance(shapely.Point(runs[-1][-1, 3])) < 1.0 for name in names)
        for runs in lines
    )


def _stands_at(mark: Mark, name: Any, others: list[Mark], large: bool) -> bool:
    """Whether a name stands at a mark, or at an end of it, and at no other size's rather."""
    away, at_end = name.distance(mark.shape), name.distance(mark.ends)
    return away < NEAR[large] and (
        all(name.distance(one.shape) > away for one in others)
        or all(name.distance(one.ends) > at_end for one in others)
    )
