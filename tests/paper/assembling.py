"""Putting a printed pattern together from its pages alone: nothing here knows how they were made.

What a page says is read off its text and its lines: the frame, its number, which margin to cut off and which page joins
there, and the halves of its match marks with their names.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import pikepdf
import pypdfium2

from tests.paper.reading import drawing_operators, placed, rectangle

CUT = re.compile(r"cut off this margin: page (\d+) joins here")
KEPT = re.compile(r"page (\d+) is laid over this margin")
NUMBER = re.compile(r"Page (\d+) of (\d+)")
NAME = re.compile(r"[a-z]{1,2}\d{1,2}")
PAINT = ("S", "s", "f", "F", "B", "b", "n", "f*", "B*")
"""The operators that end a path."""


@dataclass(frozen=True)
class Half:
    """Half of a match mark: its name, and where its middle lies on the page, in points from the top left."""

    name: str
    middle: tuple[float, float]


@dataclass(frozen=True)
class Printed:
    """What one page says: its number, its frame (left, top, right, bottom, points), and what joins it."""

    index: int
    number: int
    frame: tuple[float, float, float, float]
    cut: tuple[int, ...]
    kept: tuple[int, ...]
    halves: tuple[Half, ...]


def read_pages(data: bytes) -> list[Printed]:
    """All pages that have a frame, in order."""
    found = []
    with pikepdf.open(io.BytesIO(data)) as pdf, pypdfium2.PdfDocument(data) as shown:
        for index, page in enumerate(pdf.pages):
            height = float(page.MediaBox[3])
            paths = [np.stack([p[:, 0], height - p[:, 1]], axis=-1) for p in _paths(page.obj)]
            frame = _frame(paths)
            text, words = _words(shown[index], height)
            number = NUMBER.search(text)
            if frame is None or number is None:
                continue
            halves = tuple(_halves(paths, words, frame))
            found.append(
                Printed(
                    index, int(number[1]), frame,
                    tuple(int(n) for n in CUT.findall(text)), tuple(int(n) for n in KEPT.findall(text)), halves,
                )
            )  # fmt: skip
    return found


def assembled_places(pages: list[Printed]) -> dict[int, tuple[float, float]]:
    """Where each page's upper left corner lies when match marks of one name lie on one another, in points.

    Raises AssertionError if a match mark has no partner, or two do not agree within 0.1 mm.
    """
    by_name: dict[str, list[tuple[Printed, Half]]] = {}
    for page in pages:
        for half in page.halves:
            by_name.setdefault(half.name, []).append((page, half))
    assert all(len(pair) == 2 for pair in by_name.values()), {n: len(p) for n, p in by_name.items() if len(p) != 2}
    places = {pages[0].number: (0.0, 0.0)}
    rest = list(by_name.values())
    while rest:
        pair = next((p for p in rest if {p[0][0].number, p[1][0].number} & set(places)), None)
        if pair is None:
            break  # pages that nothing joins to the first
        rest.remove(pair)
        (one, half), (other, partner) = pair if pair[0][0].number in places else pair[::-1]
        at = _offset(half, one), _offset(partner, other)
        place = tuple(places[one.number][k] + at[0][k] - at[1][k] for k in (0, 1))
        if other.number in places:
            miss = np.hypot(*np.subtract(place, places[other.number]))
            assert miss < 0.1 / 25.4 * 72, (half.name, miss)
        else:
            places[other.number] = (place[0], place[1])
    return places


def _offset(half: Half, page: Printed) -> tuple[float, float]:
    return half.middle[0] - page.frame[0], half.middle[1] - page.frame[1]


def _frame(paths: list[np.ndarray]) -> tuple[float, float, float, float] | None:
    """The largest rectangle on the page."""
    best, largest = None, 200.0 * 200.0
    for path in paths:
        if len(path) in (4, 5):
            (left, top), (right, bottom) = path.min(axis=0), path.max(axis=0)
            corners = {(round(x, 1), round(y, 1)) for x, y in path}
            if len(corners) == 4 and (right - left) * (bottom - top) > largest:
                best, largest = (left, top, right, bottom), (right - left) * (bottom - top)
    return tuple(float(v) for v in best) if best is not None else None  # type: ignore[return-value]


def _halves(
    paths: list[np.ndarray], words: list[tuple[str, float, float]], frame: tuple[float, float, float, float]
) -> Iterator[Half]:
    """Short lines from one place of the frame to another on the same side, with a name between them."""
    left, top, right, bottom = frame
    for path in paths:
        first, last = path[0], path[-1]
        length = float(np.hypot(*(last - first)))
        for axis, side in ((0, left), (0, right), (1, top), (1, bottom)):
            on_side = abs(first[axis] - side) < 0.02 and abs(last[axis] - side) < 0.02
            if on_side and 20 < length < 60 and np.ptp(path[:, axis]) > 10:
                x, y = (first + last) / 2
                named = [(np.hypot(wx - x, wy - y), word) for word, wx, wy in words if NAME.fullmatch(word)]
                distance, name = min(named)
                assert distance < 20, (distance, name)
                yield Half(name, (float(x), float(y)))


def _words(page: Any, height: float) -> tuple[str, list[tuple[str, float, float]]]:
    """The page's text, and each word with the middle of its box, from the top left."""
    text = page.get_textpage()
    whole = text.get_text_range()
    found = []
    for match in re.finditer(r"\S+", whole):
        boxes = np.array([text.get_charbox(k) for k in range(match.start(), match.end())])
        x, y = (boxes[:, 0].min() + boxes[:, 2].max()) / 2, (boxes[:, 1].min() + boxes[:, 3].max()) / 2
        found.append((match[0], float(x), float(height - y)))
    return whole, found


def _paths(holder: Any) -> Iterator[np.ndarray]:
    """The points `(n, 2)` of every path on a page, forms included; curves give their ends and handles."""
    points: list[list[float]] = []
    for name, values, matrix in drawing_operators(holder, np.eye(3)):
        if name in ("l", "c"):
            points += [values[k : k + 2] for k in range(0, len(values), 2)]
        elif name in ("m", "re", *PAINT):
            if len(points) > 1:
                yield placed(points, matrix)
            points = [values] if name == "m" else rectangle(*values) if name == "re" else []
