"""Where a studio's mark stands on a document.

A mark is a picture from a file, so that no writer of a drawing can draw it. Where one is to stand, an item without ink
keeps its place: it is moved and cut into pages as all items are, and a document shows the mark there.
"""

from __future__ import annotations

from collections.abc import Iterable

from draft.paper.drawing.document import Shown
from draft.paper.drawing.drawing import Item, Path, rectangle
from draft.paper.drawing.face import Face
from draft.paper.drawing.passage import Passage

_PLACE = "studio-mark"
LAST = -1
"""The number of a drawn page that is the last of its document."""


def mark_place(
    face: Face, right: float, top: float, width: float, height: float, told: Passage | None = None
) -> list[Path]:
    """The place of the mark at a right upper corner, within so many mm; nothing where there is no mark.

    `told` is what it is read as, on a page that is marked.
    """
    if not face.mark:
        return []
    wide, high = face.mark.within(width, height)
    return [Path((rectangle(right - wide, top, wide, high),), id=_PLACE, passage=told)]


def without_places(items: Iterable[Item]) -> list[Item]:
    """The items that have ink; of a mark that is read the place among them, as that of any picture from a file."""
    found = list[Item]()
    for item in items:
        if item.id != _PLACE:
            found.append(item)
        elif item.passage:
            found.append(Path((), passage=item.passage))
    return found


def marks_shown(
    items: Iterable[Item], face: Face, height: float, leaf: tuple[float, float], at: tuple[float, float] = (0.0, 0.0)
) -> list[Shown]:
    """The mark wherever items keep a place for it on a leaf of this width and height: a document's last drawn page.

    `height` is that of the drawing that they are of, and `at` where its lower left corner lies on the leaf, in mm.
    """
    found = []
    for item in items:
        if face.mark and isinstance(item, Path) and item.id == _PLACE:
            (left, top), (right, low) = item.box().tolist()
            x, y = at[0] + left, at[1] + height - low
            if -(right - left) < x < leaf[0] and -(low - top) < y < leaf[1]:
                found.append(Shown(LAST, x, y, scale=(right - left) / face.mark.width, passage=item.passage))
    return found
