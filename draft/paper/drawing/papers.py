"""Sizes of paper: those with a name, and any other by its measures."""

from __future__ import annotations

import re

from draft.base.notes import Problems, error, nearest
from draft.base.record import dataclass
from draft.base.units import MM_PER_INCH
from draft.paper.drawing.drawing import PT


@dataclass(frozen=True)
class Paper:
    """A size of paper: width, height and the margin that printers keep free, in mm."""

    name: str
    width: float
    height: float
    margin: float

    @property
    def live(self) -> tuple[float, float]:
        """Width and height of what is printed of it."""
        return self.width - 2 * self.margin, self.height - 2 * self.margin


MARGIN = 12.7
"""1/2 in: home printers reach that far (common practice), and the frame's words have room outside it."""
LARGEST = 14_400 * PT
"""The longest side that the format's readers customarily open, in mm (ISO 32000-1, Annex C)."""
LEAST = 90.0
"""A printed area that is less wide or high, in mm, has no room for the test squares and the words of a page."""

PAPERS = {
    paper.name: paper
    for paper in (
        # ANSI/ASME Y14.1 sizes in inches
        Paper("letter", 215.9, 279.4, MARGIN),
        Paper("legal", 215.9, 355.6, MARGIN),
        Paper("tabloid", 279.4, 431.8, MARGIN),
        # ISO 216 sizes
        Paper("a5", 148.0, 210.0, MARGIN),
        Paper("a4", 210.0, 297.0, MARGIN),
        Paper("a3", 297.0, 420.0, MARGIN),
    )
}

_MEASURES = re.compile(r"(?P<width>\d+(?:\.\d+)?)\s*[x×]\s*(?P<height>\d+(?:\.\d+)?)\s*(?P<unit>mm|cm|in)")
_UNITS = {"mm": 1.0, "cm": 10.0, "in": MM_PER_INCH}


def paper(name: str) -> Paper:
    """The paper called `name`, or of measures such as `210x297mm` or `8.5x11in`.

    Raises Problems if it is neither, or leaves too little to print on.
    """
    key = name.strip().lower()
    found = PAPERS.get(key) or _measured(key)
    if found is None:
        hint = nearest(key, PAPERS) or ("give a name such as `a4`, or measures such as `210x297mm` or `8.5x11in`",)
        raise Problems([error(f"`{name[:60]}` is not a page size", None, *hint)])
    wide, tall = found.live
    if min(wide, tall) < LEAST:
        left = f"{max(wide, 0):.0f} x {max(tall, 0):.0f} mm"
        fact = f"a page of `{found.name}` leaves {left} inside its margins of {MARGIN} mm"
        raise Problems(
            [error(fact, None, f"choose paper that leaves at least {LEAST:.0f} x {LEAST:.0f} mm, such as a5")]
        )
    if max(found.width, found.height) > LARGEST:
        raise Problems([error(f"a page of `{found.name}` is more than 200 in long, which is too large for a PDF")])
    return found


def measured(text: str) -> tuple[float, float] | None:
    """Width and height in mm of `210x297mm`, or None if the text is no measures."""
    found = _MEASURES.fullmatch(text.strip().lower())
    if not found or len(text) > 40:
        return None
    factor = _UNITS[found["unit"]]
    return float(found["width"]) * factor, float(found["height"]) * factor


def _measured(key: str) -> Paper | None:
    sides = measured(key)
    return Paper(re.sub(r"\s", "", key).replace("×", "x"), *sides, MARGIN) if sides else None
