"""Reading what was made: shapes of drawn items, and the paths and pixels of a PDF."""

from __future__ import annotations

import io
from collections.abc import Iterator
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
        _read(pdf.pages[page].obj, found)
    return found


def _read(holder: Any, found: list[np.ndarray]) -> None:
    points: list[list[float]] = []
    for name, values, matrix in drawing_operators(holder, np.eye(3)):
        if name == "m":
            points = [values]
        elif name == "l":
            points.append(values)
        elif name == "c":
            points = []
        elif name == "re":
            points = rectangle(*values)
        if name in ("h", "re") and len({tuple(p) for p in points}) == 4:
            found.append(placed(points[:4], matrix))


def drawing_operators(holder: Any, base: np.ndarray) -> Iterator[tuple[str, list[float], np.ndarray]]:
    """The operators of a page that draw, those of its forms too, with their numbers and their matrix `(3, 3)`."""
    matrix, stack = base, []
    for operands, operator in pikepdf.parse_content_stream(holder):
        name = str(operator)
        if name == "q":
            stack.append(matrix)
        elif name == "Q":
            matrix = stack.pop()
        elif name == "cm":
            matrix = _matrix([float(o) for o in operands]) @ matrix
        elif name == "Do":
            form = holder.Resources.XObject[str(operands[0])]
            own = [float(v) for v in form.get("/Matrix", [1, 0, 0, 1, 0, 0])]
            yield from drawing_operators(form, _matrix(own) @ matrix)
        else:
            yield name, [float(o) for o in operands] if name in ("m", "l", "c", "re") else [], matrix


def rectangle(x: float, y: float, w: float, h: float) -> list[list[float]]:
    return [[x, y], [x + w, y], [x + w, y + h], [x, y + h]]


def placed(points: list[list[float]], matrix: np.ndarray) -> np.ndarray:
    """Where points come to lie on the page: `(n, 2)`."""
    return (np.array([[*p, 1.0] for p in points]) @ matrix)[:, :2]


def _matrix(values: list[float]) -> np.ndarray:
    a, b, c, d, e, f = values
    return np.array([[a, b, 0], [c, d, 0], [e, f, 1]])
