"""The check that stands between a lay and its figures: it knows nothing of how the lay was found.

Every piece is taken to the opened cloth, and shapely says whether any two share cloth, whether all lie within it, and
whether each is there as often, and of the hand, as it must be cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from draft.cloth.layout import Copy, Layout
from draft.cloth.parts import Part

DEEP = 0.01
"""Two pieces may share a strip of cloth so many mm wide, or stand out over its side: a fortieth of a drawn line."""


def faults(layout: Layout, parts: Sequence[Part], cloth: Any = None) -> list[str]:
    """What is wrong with a lay of these parts, one sentence each; nothing if it can be cut.

    `cloth` is a shapely outline for a remnant; otherwise the cloth is the layout's own rectangle.
    """
    import shapely

    copies = layout.copies()
    whole = shapely.box(0.0, 0.0, layout.width, layout.length) if cloth is None else cloth
    shapes = [shapely.Polygon(copy.ring) for copy in copies]
    return [*_outside(copies, shapes, whole), *_sharing(copies, shapes), *_counts(copies, parts), *_tilted(copies)]


def stop_if_faulty(layout: Layout, parts: Sequence[Part], cloth: Any = None) -> Layout:
    """The layout, if it can be cut. Raises RuntimeError otherwise: that is a fault of the program."""
    found = faults(layout, parts, cloth)
    if found:
        raise RuntimeError(f"a lay that cannot be cut was found ({found[0]}): this is a fault of the program")
    return layout


def _outside(copies: Sequence[Copy], shapes: Sequence[Any], cloth: Any) -> list[str]:
    import shapely

    room = cloth.buffer(DEEP, join_style="mitre")
    inside = shapely.covers(room, shapes)
    return [f"{copy.part} leaves the cloth" for copy, there in zip(copies, inside, strict=True) if not there]


def _sharing(copies: Sequence[Copy], shapes: Sequence[Any]) -> list[str]:
    import shapely

    cores = shapely.buffer(shapes, -DEEP / 2)
    near = shapely.STRtree(cores).query(cores, predicate="intersects")
    pairs = sorted((int(a), int(b)) for a, b in near.T if a < b)
    return [f"{copies[a].part} and {copies[b].part} overlap" for a, b in pairs]


def _counts(copies: Sequence[Copy], parts: Sequence[Part]) -> list[str]:
    there = Counter((c.part.number, c.part.size, c.move.face_down and c.part.fold is None) for c in copies)
    wrong = []
    for part in parts:
        face_up, face_down = (there[part.number, part.size, hand] for hand in (False, True))
        if face_up < part.count - part.mirrored or face_down < part.mirrored:
            wrong.append(f"{part} is there {face_up} + {face_down} times")
    return wrong


def _tilted(copies: Sequence[Copy]) -> list[str]:
    """A move can only mirror and shift, so a grain stays upright while its signs are 1 or -1."""
    upright = (-1, 1)
    return [f"{c.part} is tilted" for c in copies if c.move.across not in upright or c.move.along not in upright]
