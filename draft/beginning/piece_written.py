"""Fitted edges written as a piece of the language: points by their places, edges through them, in a cutter's words."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable, Sequence
from itertools import count

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.beginning.edge_fit import FittedEdge, Leg
from draft.beginning.said_by_lines import FOLD
from draft.language.reserved import RESERVED

_LONGEST = 40
_WAYS = ("across", "up", "inward", "down")
CENTRE = "centre"
"""What the edge on a fold is called."""


@dataclass(frozen=True)
class Written:
    """How lengths are written: in cm or in inches."""

    inches: bool = False

    def length(self, mm: float) -> str:
        """A length with its unit, no longer than it must be."""
        if self.inches:
            return _shortest(mm / 25.4, 4) + " in" if round(mm / 25.4, 4) else "0"
        return _shortest(mm / 10, 3) + " cm" if round(mm, 2) else "0"


def _shortest(value: float, places: int) -> str:
    return f"{value:.{places}f}".rstrip("0").rstrip(".")


def plain_name(text: str, otherwise: str) -> str:
    """A text as a name of the language: letters without accents, digits and underlines."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", text.lower()) if not unicodedata.combining(c))
    name = re.sub(r"[^a-z0-9]+", "_", plain.replace("\u00df", "ss")).strip("_")[:_LONGEST].strip("_")
    name = name if name[:1].isalpha() else f"{otherwise}_{name}" if name else otherwise
    return f"{name}_{otherwise}" if name in RESERVED else name


def once_each(names: Sequence[str]) -> list[str]:
    """The names, with numbers behind those that stand there several times."""
    return [f"{name}_{names[:k].count(name) + 1}" if names.count(name) > 1 else name for k, name in enumerate(names)]


def edge_names(edges: Sequence[FittedEdge]) -> list[str]:
    """What edges call themselves, or on which side of the piece they lie."""
    said = [CENTRE if edge.name == FOLD else plain_name(edge.name, "edge") if edge.name else "" for edge in edges]
    return once_each([name or _side(edge) for name, edge in zip(said, edges, strict=True)])


def _side(edge: FittedEdge) -> str:
    """Where an edge lies on a piece that is run round counterclockwise: out of it is to the right of the edge."""
    x, y = edge.legs[-1].end - edge.start
    if abs(x) >= abs(y):
        return "bottom" if x > 0 else "top"
    return "right" if y > 0 else "left"


def piece_text(name: str, edges: Sequence[FittedEdge], grain: Floats | None, title: str, how: Written) -> str:
    """The piece as a block of the language; `grain` is a direction `(2,)`, or None for straight up."""
    names = edge_names(edges)
    corners = _corner_names(edges, names)
    points = [_point(corner, edge.start, how) for corner, edge in zip(corners, edges, strict=True)]
    rows: list[str] = []
    for k, (edge, called) in enumerate(zip(edges, names, strict=True)):
        more, legs = _legs(edge, called, how, {*names, *corners})
        points += more
        option = ", on fold" if edge.name == FOLD else ""
        head = f"        {called} {corners[k]} to {corners[(k + 1) % len(edges)]}"
        rows += [f"{head} {legs[0]}{option}"] if len(legs) == 1 else [head, *(f"            {leg}" for leg in legs)]
    lines = [f"piece {name}", *([f'    title "{title}"'] if title else []), "    cut 1"]
    if grain is not None and abs(grain[0]) > 1e-3:
        lines.append(f"    grain {way_text(math.atan2(grain[1], grain[0]))}")
    return "\n".join([*lines, "", "    points", *points, "", "    outline", *rows]) + "\n"


def _point(name: str, at: Floats, how: Written) -> str:
    return f"        {name} at {how.length(float(at[0]))}, {how.length(float(at[1]))}"


def _corner_names(edges: Sequence[FittedEdge], names: Sequence[str]) -> list[str]:
    """Corners by the two edges that meet there, where both say what they are; else by number."""
    found = []
    for k, edge in enumerate(edges):
        told = edge.name and edges[k - 1].name
        joint = f"{names[k - 1]}_{names[k]}"
        found.append(joint if told and len(joint) <= _LONGEST else f"corner_{k + 1}")
    return once_each(found)


def _legs(edge: FittedEdge, called: str, how: Written, taken: set[str]) -> tuple[list[str], list[str]]:
    """The lines of its points between corners, and its legs in words; no point has a name that is `taken`."""
    points: list[str] = []
    free = (name for k in count(1) if (name := f"{called}_{k}") not in taken)

    def point(at: Floats) -> str:
        name = next(free)
        points.append(_point(name, at, how))
        return name

    said: list[str] = []
    for number, leg in enumerate(edge.legs):
        ends = number + 1 == len(edge.legs)
        said += _curve(leg, ends, point) if leg.fit else ["straight" if ends else f"straight to {point(leg.end)}"]
    return points, said


def _curve(leg: Leg, ends: bool, point: Callable[[Floats], str]) -> list[str]:
    assert leg.fit is not None
    curve = "curve evenly" if leg.fit.evenly else "curve"
    leaving = f" leaving {_in_words(leg.fit.ends[0])}" if leg.leaves else ""
    arriving = f" arriving {_in_words(leg.fit.ends[1])}" if leg.arrives else ""
    between = [point(at) for at in leg.fit.points]
    to = "" if ends else f" to {point(leg.end)}"
    if leg.fit.headings is None:
        through = f" through {' then '.join(between)}" if between else ""
        return [f"{curve}{leaving}{through}{to}{arriving}"]
    headed = [f" to {name} heading {_in_words(way)}" for name, way in zip(between, leg.fit.headings, strict=True)]
    return [f"{curve}{leaving}{headed[0]}", *(f"{curve}{one}" for one in headed[1:]), f"{curve}{to}{arriving}"]


def _in_words(angle: float) -> str:
    text = way_text(angle)
    return text if text in _WAYS else f"({text})"


def way_text(angle: float) -> str:
    """A direction by its angle from across towards up (rad): `up`, or `12.5 deg below across`."""
    degrees = math.degrees(angle) % 360.0
    quarter = round(degrees / 90)
    if abs(degrees - 90 * quarter) < 0.02:
        return _WAYS[quarter % 4]
    side = "across" if degrees < 90 or degrees > 270 else "inward"
    over = "above" if degrees < 180 else "below"
    off = min(degrees % 180, 180 - degrees % 180)
    return f"{_shortest(off, 2)} deg {over} {side}"


def distance_apart(one: Floats, other: Floats) -> float:
    """How far two lines `(S, 4, 2)` stray from one another at most, mm."""
    import shapely

    from draft.geometry.flatten import flatten

    lines = [flatten(path, 0.002) for path in (one, other)]
    away = [shapely.distance(shapely.points(a), shapely.LineString(b)) for a, b in (lines, lines[::-1])]
    return float(max(np.max(found) for found in away))
