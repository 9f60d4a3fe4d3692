"""What a drawing holds, whatever its format: strokes and words, in the units and the direction of that drawing."""

from __future__ import annotations

import json
import math
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass

SIXTEENTH = math.pi / 8
"""An ellipse is drawn in parts of this angle: a part strays from it by less than 1e-8 of its radius."""


@dataclass(frozen=True)
class Stroke:
    """A line that was drawn in one go, `(S, 4, 2)`: of which piece, on which layer, and what it calls itself."""

    path: Floats
    piece: str = ""
    layer: str = ""
    name: str = ""
    edge: str = ""
    """The edge of a piece that it says to be; `fold` where the cloth is doubled along it."""


@dataclass(frozen=True)
class Words:
    """A line of words: in which block or group, and where it begins `(2,)`."""

    text: str
    piece: str
    at: Floats


@dataclass(frozen=True)
class Drawn:
    """A drawing: its strokes, its words, how long its unit is in mm, and what was left out.

    `unit` is None where the drawing does not say; `left_out` counts what is not read by what it is called.
    """

    strokes: tuple[Stroke, ...]
    words: tuple[Words, ...] = ()
    unit: float | None = None
    left_out: dict[str, int] = field(default_factory=dict, hash=False)
    upwards: float = 1.0
    """1 where its own y points up, -1 where it points down: for telling places as they stand there."""


def said(drawn: Drawn) -> bytes:
    """A drawing as text, to be handed from the process that reads a stranger's file; refused if it has no end."""
    if not all(_known(places) for places in (*(s.path for s in drawn.strokes), *(one.at for one in drawn.words))):
        return refused("has lines that lead to places that are no numbers")
    strokes = [[s.piece, s.layer, s.name, s.edge, np.round(s.path, 6).ravel().tolist()] for s in drawn.strokes]
    words = [[one.text, one.piece, *one.at.tolist()] for one in drawn.words]
    whole = {"strokes": strokes, "words": words, "unit": drawn.unit, "left_out": drawn.left_out, "up": drawn.upwards}
    return json.dumps(whole).encode()


def _known(places: Floats) -> bool:
    """Whether all places are numbers; how far a piece may reach is told later."""
    return bool(np.isfinite(places).all())


def refused(why: str) -> bytes:
    """Why a drawing is not read, as the end of a sentence about it."""
    return json.dumps({"why": why}).encode()


def heard(data: bytes) -> Drawn | str:
    """What `said` or `refused` wrote."""
    whole = json.loads(data)
    if "why" in whole:
        return str(whole["why"])
    strokes = [Stroke(np.array(flat).reshape(-1, 4, 2), *names) for *names, flat in whole["strokes"]]
    words = tuple(Words(text, piece, np.array(at)) for text, piece, *at in whole["words"])
    return Drawn(tuple(strokes), words, whole["unit"], whole["left_out"], whole["up"])


def elliptic(centre: Floats, axes: Floats, start: float, sweep: float) -> Floats:
    """A part of an ellipse as cubics `(S, 4, 2)`, from parameter `start` on by `sweep` (rad).

    `axes` `(2, 2)` are the vectors from its centre `(2,)` to where the parameter is 0 and a quarter turn.
    """
    count = max(1, math.ceil(abs(sweep) / SIXTEENTH - 1e-9))
    at = start + sweep * np.arange(count + 1) / count
    handle = 4 / 3 * math.tan(sweep / count / 4)
    points = np.stack([np.cos(at), np.sin(at)], axis=-1) @ axes
    along = np.stack([-np.sin(at), np.cos(at)], axis=-1) @ axes * handle
    parts = [points[:-1], points[:-1] + along[:-1], points[1:] - along[1:], points[1:]]
    return centre + np.stack(parts, axis=1)
