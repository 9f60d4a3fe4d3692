"""Reading what was made: shapes of drawn items, and the paths and pixels of a PDF."""

from __future__ import annotations

import io
from typing import Any

import numpy as np
import pikepdf
import pypdfium2
import shapely

from draft.geometry.flatten import polyline
from draft.paper.drawing.drawing import Label, Path
from draft.paper.drawing.room import label_spot


def words_shape(label: Label) -> Any:
    return label_spot(label).shape()


def line_shape(path: Path) -> Any:
    return shapely.MultiLineString([polyline(run) for run in path.runs])


def raster(data: bytes, page: int, scale: float) -> np.ndarray:
    """Grey values `(rows, columns)` of a page, 0 black, at `scale` pixels to the point."""
    with pypdfium2.PdfDocument(data) as pdf:
        return np.asarray(pdf[page].render(scale=scale, grayscale=True).to_numpy()).squeeze()


def text_of(data: bytes, page: int) -> str:
    with pypdfium2.PdfDocument(data) as pdf:
        return str(pdf[page].get_textpage().get_text_bounded())


def page_count(data: bytes) -> int:
    with pypdfium2.PdfDocument(data) as pdf:
        return len(pdf)


def stroked_boxes(data: bytes, page: int) -> list[np.ndarray]:
    """The corners `(4, 2)` in points of every closed path of four straight sides on a page, forms included."""
    found: list[np.ndarray] = []
    with pikepdf.open(io.BytesIO(data)) as pdf:
        _read(pdf.pages[page].obj, np.eye(3), found)
    return found


def _read(holder: Any, base: np.ndarray, found: list[np.ndarray]) -> None:
    matrix, stack, points = base, [], []
    for operands, operator in pikepdf.parse_content_stream(holder):
        name = str(operator)
        values = [float(o) for o in operands] if name in ("cm", "m", "l", "c", "re") else []
        if name == "q":
            stack.append(matrix)
        elif name == "Q":
            matrix = stack.pop()
        elif name == "cm":
            matrix = _matrix(values) @ matrix
        elif name == "Do":
            form = holder.Resources.XObject[str(operands[0])]
            own = [float(v) for v in form.get("/Matrix", [1, 0, 0, 1, 0, 0])]
            _read(form, _matrix(own) @ matrix, found)
        elif name == "m":
            points = [values]
        elif name == "l":
            points.append(values)
        elif name == "c":
            points = []
        elif name == "re":
            x, y, w, h = values
            points = [[x, y], [x + w, y], [x + w, y + h], [x, y + h]]
        if name in ("h", "re") and len({tuple(p) for p in points}) == 4:
            corners = np.array([[*p, 1.0] for p in points[:4]])
            found.append((corners @ matrix)[:, :2])


def _matrix(values: list[float]) -> np.ndarray:
    a, b, c, d, e, f = values
    return np.array([[a, b, 0], [c, d, 0], [e, f, 1]])
