"""A link as a code of squares that a telephone reads."""

from __future__ import annotations

from draft.paper.booklet.set_blocks import Block
from draft.paper.drawing.drawing import Path, rectangle

_MODULE = 0.6
"""Side of a square in mm: cameras read less, printers and folds ask for more (ISO/IEC 18004 leaves it open)."""
_LARGEST = 46.0
"""A link that needs a larger code is printed in words alone, in mm."""


def code(link: str) -> Block | None:
    """The code of a link; None if it would be too large to print, or nothing can hold so long a link."""
    import segno

    try:
        rows = [bytes(row) for row in segno.make_qr(link, error="m").matrix]
    except segno.DataOverflowError:
        return None
    side = len(rows) * _MODULE
    if side > _LARGEST:
        return None
    bars = [
        rectangle(x * _MODULE, y * _MODULE, wide * _MODULE, _MODULE)
        for y, row in enumerate(rows)
        for x, wide in _runs(row)
    ]
    return Block((Path(tuple(bars), fill="#000000", closed=True, id="code"),), side)


def _runs(row: bytes) -> list[tuple[int, int]]:
    """Where dark squares begin, and how many follow one another."""
    found: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and found and sum(found[-1]) == x:
            found[-1] = (found[-1][0], found[-1][1] + 1)
        elif dark:
            found.append((x, 1))
    return found
