"""The drawing library's side of a PDF: drawings as the pages of one document, with one set of fonts.

Only this module touches cairo, and only when it is used.
"""

from __future__ import annotations

import importlib
import io
import math
import re
from collections.abc import Iterable
from typing import Any

from draft.geometry import cubic
from draft.notes import Problems, error
from draft.paper import font
from draft.paper.drawing import PT, Item, Label, Path, Stroke

_CONTROL = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


class Ink:
    """Pages of drawn items, one after the other; `finish` gives the document."""

    def __init__(self) -> None:
        self._cairo = _cairo()
        self._family = font.FAMILY if font.register() else font.FALLBACK
        self._file = io.BytesIO()
        self._surface = self._cairo.PDFSurface(self._file, 1, 1)
        self.count = 0

    def page(self, width: float, height: float, items: Iterable[Item]) -> int:
        """Draw a page of so many mm and return its number, counted from 0."""
        self._surface.set_size(width / PT, height / PT)
        context = self._cairo.Context(self._surface)
        context.scale(1 / PT, 1 / PT)
        for item in items:
            if isinstance(item, Path):
                self._path(context, item)
            else:
                self._label(context, item)
        self._surface.show_page()
        self.count += 1
        return self.count - 1

    def finish(self) -> bytes:
        """The document."""
        self._surface.finish()
        return self._file.getvalue()

    def _path(self, context: Any, path: Path) -> None:
        for run in path.runs:
            context.move_to(*run[0, 0])
            for segment, straight in zip(run, cubic.is_straight(run), strict=True):
                if straight:
                    context.line_to(*segment[3])
                else:
                    context.curve_to(*segment[1], *segment[2], *segment[3])
            if path.closed:
                context.close_path()
        if path.fill:
            context.set_source_rgb(*_colour(path.fill))
            context.fill_preserve()
        if path.stroke:
            self._stroke(context, path.stroke)
        context.new_path()

    def _stroke(self, context: Any, stroke: Stroke) -> None:
        cairo = self._cairo
        context.set_source_rgb(*_colour(stroke.colour))
        context.set_line_width(stroke.width)
        context.set_dash(list(stroke.dash))
        context.set_line_cap({"butt": cairo.LINE_CAP_BUTT, "round": cairo.LINE_CAP_ROUND}[stroke.cap])
        context.set_line_join({"miter": cairo.LINE_JOIN_MITER, "round": cairo.LINE_JOIN_ROUND}[stroke.join])
        context.stroke_preserve()

    def _label(self, context: Any, label: Label) -> None:
        cairo = self._cairo
        text = _CONTROL.sub("", label.text)
        width = font.text_width(text, label.size, label.bold)
        context.save()
        context.translate(label.x, label.y)
        context.rotate(math.radians(label.angle))
        weight = cairo.FONT_WEIGHT_BOLD if label.bold else cairo.FONT_WEIGHT_NORMAL
        context.select_font_face(self._family, cairo.FONT_SLANT_NORMAL, weight)
        context.set_font_size(label.size)
        context.set_source_rgb(*_colour(label.colour))
        context.move_to({"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor], 0)
        context.show_text(text)
        context.restore()


def _colour(text: str) -> tuple[float, float, float]:
    """`#0a4a8f` as three numbers from 0 to 1."""
    red, green, blue = (int(text[k : k + 2], 16) / 255 for k in (1, 3, 5))
    return red, green, blue


def _cairo() -> Any:
    """The drawing library. Raises Problems with the command that installs it where it is missing."""
    try:
        return importlib.import_module("cairocffi")
    except OSError:
        raise Problems(
            [error("PDF needs the cairo library, which this machine lacks",
                   None, "install it: `apt install libcairo2` (Debian, Ubuntu) or `brew install cairo` (macOS)")]
        ) from None  # fmt: skip
