"""Drawings as page descriptions of a PDF: the operators of ISO 32000-1, clause 8 and 9, in points from the lower left.

They are few and plain, and written here they are the same on every machine and need no drawing library.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import field
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.geometry import cubic
from draft.paper.drawing import font, unseen
from draft.paper.drawing.drawing import PT, Item, Label, Path, Stroke
from draft.paper.drawing.passage import Passage
from draft.paper.drawing.runs_in_words import runs_in_words

PLACES = 3
"""Decimals of a coordinate in points: 0.0004 mm."""
_CAPS = {"butt": 0, "round": 1}
_JOINS = {"miter": 0, "round": 1}
_CONTROL = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
_BOLDER = 0.045
"""The line round a letter that is to be bold, in ems: half of it is outside (seen beside fonts of both weights)."""
_ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}


@dataclass(frozen=True)
class PageDescription:
    """A page description: width and height in points, its operators, and the letters that it sets by face."""

    width: float
    height: float
    content: bytes
    letters: dict[str, frozenset[str]]
    passages: tuple[Passage, ...] = ()
    """What is read on it, each under its number in the marked content."""


def clean(text: str) -> str:
    """Words without the characters that are no letters."""
    return _CONTROL.sub("", text)


def page_description(width: float, height: float, items: Iterable[Item], marked: bool = False) -> PageDescription:
    """Items on a page of so many mm; `marked` ones say which passage they are of, and which are ornament."""
    pen = _Pen(height / PT)
    items = tuple(items)
    pen.foresee([item for item in items if isinstance(item, Path)])
    for item in items:
        if marked and not pen.begin(item):
            continue
        if isinstance(item, Path):
            pen.path(item)
        else:
            pen.label(item)
    pen.end()
    letters = {face: frozenset(found) for face, found in pen.letters.items() if found}
    return PageDescription(width / PT, pen.height, "\n".join(pen.lines).encode("ascii"), letters, tuple(pen.passages))


@dataclass
class _Pen:
    """Writes operators, and remembers what is set so that it is not set again."""

    height: float
    lines: list[str] = field(default_factory=list)
    letters: dict[str, set[str]] = field(default_factory=lambda: {"regular": set(), "bold": set()})
    passages: list[Passage] = field(default_factory=list)
    _set: dict[str, str] = field(default_factory=dict)
    _foreseen: Iterator[list[str]] = field(default_factory=lambda: iter(()))
    _of: tuple[Passage | None] | None = None

    def begin(self, item: Item) -> bool:
        """Open the marked content of an item's passage, unless it is open; whether there is anything to draw.

        A path of no run keeps the place of a picture from a file, which is drawn under its number afterwards.
        """
        if isinstance(item, Path) and not item.runs and item.passage:
            self.passages.append(item.passage)
            return False
        if self._of != (item.passage,):
            self.end()
            self._of = (item.passage,)
            if item.passage is None:
                self.lines.append("/Artifact BMC")
            else:
                self.lines.append(f"/{item.passage.role} <</MCID {len(self.passages)}>> BDC")
                self.passages.append(item.passage)
        return True

    def end(self) -> None:
        """Close what is open."""
        if self._of:
            self.lines.append("EMC")
        self._of = None

    def foresee(self, paths: Sequence[Path]) -> None:
        """Put the runs of all paths into words at once, as they are many: `path` takes them one after the other."""
        self._foreseen = _operators(
            [(run, path.closed) for path in paths for run in path.runs if len(run)], self.height
        )

    def path(self, path: Path) -> None:
        if path.fill:
            self._change("fill", f"{_colour(path.fill)} rg")
        if path.stroke:
            self._stroke(path.stroke)
        for run in path.runs:
            if len(run):
                self.lines += next(self._foreseen)
        self.lines.append({(True, True): "B", (True, False): "f", (False, True): "S"}.get(
            (bool(path.fill), path.stroke is not None), "n"))  # fmt: skip

    def _change(self, what: str, operators: str) -> None:
        if self._set.get(what) != operators:
            self._set[what] = operators
            self.lines.append(operators)

    def _stroke(self, stroke: Stroke) -> None:
        self._change("stroke", f"{_colour(stroke.colour)} RG")
        self._change("width", f"{_number(stroke.width / PT)} w")
        self._change("dash", f"[{' '.join(_number(part / PT) for part in stroke.dash)}] 0 d")
        self._change("cap", f"{_CAPS[stroke.cap]} J")
        self._change("join", f"{_JOINS[stroke.join]} j")

    def _outline(self, run: Floats) -> None:
        """The outline of a letter: which way round it goes tells what is hollow, so that none becomes a rectangle."""
        points = (np.array([0.0, self.height]) + run / PT * np.array([1.0, -1.0])).round(PLACES) + 0.0
        for first, segments in runs_in_words([len(run)], points, cubic.is_straight(run), _pairs):
            self.lines += _drawn(first, segments, closed=True)

    def label(self, label: Label) -> None:
        text = clean(label.text)
        text = font.in_cells(text) if label.tabular else text
        back = _ANCHORS[label.anchor] * font.text_width(text, label.size, label.bold)
        c, s = (f(math.radians(label.angle)) for f in (math.cos, math.sin))
        self._change("fill", f"{_colour(label.colour)} rg")
        if font.letters().issuperset(text):
            self._set_words(text, label, label.x - c * back, label.y - s * back)
        else:
            self._runs(text, label, back)

    def _runs(self, text: str, label: Label, back: float) -> None:
        """Words with letters of other fonts: those as outlines, each run beside what it says."""
        from draft.paper.drawing.scripts import drawn, said_in, visual_runs

        along = np.array([f(math.radians(label.angle)) for f in (math.cos, math.sin)])
        at = np.array([label.x, label.y]) - along * back
        for run in visual_runs(text, font.letters()):
            if not run.file:
                self._set_words(run.text, label, float(at[0]), float(at[1]))
                at = at + along * font.text_width(run.text, label.size, label.bold)
                continue
            found, up = drawn(run), np.array([along[1], -along[0]])
            for outline in found.outlines:
                self._outline(at + label.size * (outline[..., :1] * along + outline[..., 1:] * up))
            self._inked(label, bool(found.outlines))
            said, step = said_in(run), along * found.width * label.size
            for k, part in enumerate(said):
                self._unseen(part, label, at + step * k / len(said), found.width * label.size / len(said))
            at = at + step

    def _inked(self, label: Label, any_outlines: bool) -> None:
        """Fill outlines; bold ones with a line round them, as another font's bold letters may not be there."""
        if not label.bold or not any_outlines:
            self.lines.append("f" if any_outlines else "n")
            return
        self._change("stroke", f"{_colour(label.colour)} RG")
        self._change("width", f"{_number(_BOLDER * label.size / PT)} w")
        self._change("dash", "[] 0 d")
        self._change("join", f"{_JOINS['round']} j")
        self.lines.append("B")

    def _unseen(self, text: str, label: Label, at: Floats, width: float) -> None:
        """What outlines say, in letters without ink that are together as wide: a reader finds words where they are set.

        Letters that have no code are said beside a blank.
        """
        known = [letter for letter in text if ord(letter) <= unseen.LAST]
        coded = known if len(known) == len(text) else [" "]
        if coded != known:
            self.lines.append(f"/Span <</ActualText <feff{text.encode('utf-16-be').hex()}>>> BDC")
        self.lines.append(f"3 Tr {_number(100 * width / (len(coded) * label.size))} Tz")
        self.lines.append(f"BT {self._place(label, float(at[0]), float(at[1]))}")
        self.letters.setdefault(unseen.FACE, set()).update(coded)
        self.lines.append(f"/{unseen.FACE} {_number(label.size / PT)} Tf <{unseen.codes(coded)}> Tj")
        self.lines.append("ET 0 Tr 100 Tz" if coded == known else "ET 0 Tr 100 Tz EMC")

    def _place(self, label: Label, x: float, y: float) -> str:
        """The operator that sets the words of a label at a place in mm."""
        return f"{_turn(label.angle)} {_number(x / PT)} {_number(self.height - y / PT)} Tm"

    def _set_words(self, text: str, label: Label, x: float, y: float) -> None:
        """Words in the carried font from a place in mm."""
        face = "bold" if label.bold else "regular"
        self.letters[face].update(text)
        codes = "".join(map(_code, text))
        size = f"/{face} {_number(label.size / PT)} Tf"
        self.lines.append(f"BT {size} {self._place(label, x, y)} <{codes}> Tj ET")


def _operators(runs: Sequence[tuple[Floats, bool]], height: float) -> Iterator[list[str]]:
    """The operators of each of some runs, none of them empty and some closed, on a page of so many points."""
    if not runs:
        return
    every = np.concatenate([run for run, _ in runs])
    straight, points = cubic.is_straight(every), every / PT
    np.subtract(height, points[..., 1], out=points[..., 1])
    points = points.round(PLACES, out=points) + 0.0
    lengths = [len(run) for run, _ in runs]
    starts = np.cumsum([0, *lengths]).tolist()
    found = runs_in_words(lengths, points, straight, _pairs)
    for (run, closed), start, (first, segments) in zip(runs, starts, found, strict=False):
        if closed and len(run) == _SIDES and _is_box(points[start : start + _SIDES], straight[start : start + _SIDES]):
            low, high = (f(points[start : start + _SIDES, 0], axis=0) for f in (np.min, np.max))
            yield [" ".join(_number(value) for value in (*low, *(high - low))) + " re"]
        else:
            yield _drawn(first, segments, closed)


def _drawn(first: str, segments: Iterable[tuple[str, ...]], closed: bool) -> list[str]:
    """A run by the words of its points."""
    words = [f"{first} m"]
    words += [f"{points[0]} l" if len(points) == 1 else f"{points[0]} {points[1]} {points[2]} c" for points in segments]
    return [*words, "h"] if closed else words


def _pairs(points: Floats) -> list[str]:
    """Rounded points `(n, 2)` in words."""
    return [f"{x!r} {y!r}" for x, y in points.tolist()]


_SIDES = 4


def _is_box(points: Floats, straight: NDArray[np.bool_]) -> bool:
    """Whether a closed run of four segments is a rectangle with upright sides."""
    if not straight.all():
        return False
    steps = points[:, 3] - points[:, 0]
    one_way = (steps == 0).sum(axis=1) == 1
    return bool(one_way.all() and (points[-1, 3] == points[0, 0]).all() and (steps[:2] == -steps[2:]).all())


def _number(value: float, places: int = PLACES) -> str:
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@lru_cache(maxsize=256)
def _turn(angle: float) -> str:
    """A turn clockwise by an angle in degrees, as the first four numbers of a matrix."""
    c, s = (f(math.radians(angle)) for f in (math.cos, math.sin))
    return " ".join(_number(value, 5) for value in (c, -s, s, c))


@lru_cache(maxsize=1024)
def _code(letter: str) -> str:
    """The number of a letter's outline in the carried font, as four digits."""
    return f"{font.glyph(letter):04x}"


@lru_cache(maxsize=256)
def _colour(text: str) -> str:
    """`#0a4a8f` as three numbers from 0 to 1."""
    return " ".join(_number(int(text[k : k + 2], 16) / 255) for k in (1, 3, 5))
