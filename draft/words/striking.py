"""Where arcs strike a line or one another, and by how much they miss."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.units import Kind, in_words
from draft.geometry.cubic import norm
from draft.words.directions import square_towards, unit_or_across
from draft.words.word import Given, Miss


def strike_to_line(distance: Floats, centre: Floats, line: Floats, side: Floats) -> Given:
    """Where an arc `(B,)` mm round a point `(B, 2)` strikes a line `(B, 2, 2)` on the side of a direction."""
    foot, direction, fits = _foot(centre, line)
    square = distance**2 - norm(foot - centre) ** 2
    reach = np.sqrt(np.maximum(square, 0.0))
    lean = np.sum(direction * side, axis=-1)
    return foot + (np.where(lean < 0, -reach, reach))[:, None] * direction, fits & (square >= 0) & (np.abs(lean) > 1e-9)


def misses_line(distance: Floats, centre: Floats, line: Floats, side: Floats) -> Iterator[Miss]:
    """What is wrong where an arc `(B,)` mm round a point `(B, 2)` does not strike a line `(B, 2, 2)`."""
    foot, direction, fits = _foot(centre, line)
    away = norm(foot - centre)
    short = np.where(fits, away - distance, 0.0)
    figures = f"its radius is {{}}, and the line lies {{}} from its centre: {{}} {_TOO_SHORT}"
    yield "the arc does not reach the line", short > 0, at_worst(figures, short, distance, away)
    yield "the two ends of the line lie on one another", ~fits, ""
    square = fits & (np.abs(np.sum(direction * side, axis=-1)) <= 1e-9)
    yield "the line has no such side: it runs square to that direction", square & (short <= 0), ""


def strike_twice(first: Floats, a: Floats, second: Floats, b: Floats, side: Floats) -> Given:
    """Where two arcs `(B,)` mm round two points `(B, 2)` strike one another, on the side of a direction."""
    between = norm(b - a)
    direction, fits = unit_or_across(b - a)
    along = (first**2 - second**2 + between**2) / np.where(fits, 2 * between, 1.0)
    square = first**2 - along**2
    across, chosen = square_towards(direction, side)
    reach = np.sqrt(np.maximum(square, 0.0))
    return a + along[:, None] * direction + reach[:, None] * across, fits & (square >= 0) & chosen


def misses_one_another(first: Floats, a: Floats, second: Floats, b: Floats, side: Floats) -> Iterator[Miss]:
    """What is wrong where two arcs `(B,)` mm round two points `(B, 2)` do not strike one another."""
    between = norm(b - a)
    direction, fits = unit_or_across(b - a)
    short, inside = between - first - second, np.abs(first - second) - between
    apart = "the radii are {} and {}, and their centres lie {} apart: {} "
    told = (first, second, between)
    yield "the two arcs do not reach one another", fits & (short > 0), at_worst(apart + _TOO_SHORT, short, *told)
    within = at_worst(apart + "too much between the radii", inside, *told)
    yield "one arc lies within the other, and they do not strike", fits & (inside > 0), within
    yield "both arcs are round the same place", ~fits, ""
    chosen = square_towards(direction, side)[1]
    yield (
        "the arcs strike on no such side: their centres lie along it",
        fits & ~chosen & (short <= 0) & (inside <= 0),
        "",
    )


_TOO_SHORT = "too short"


def _foot(centre: Floats, line: Floats) -> tuple[Floats, Floats, Bools]:
    direction, fits = unit_or_across(line[:, 1])
    along = np.sum((centre - line[:, 0]) * direction, axis=-1)
    return line[:, 0] + along[:, None] * direction, direction, fits


def at_worst(words: str, off: Floats, *lengths: Floats) -> str:
    """The lengths, mm `(B,)`, of the body that misses by most, and by how much, as `off` mm `(B,)` tells."""
    worst = int(np.argmax(off))
    every = [np.broadcast_to(length, off.shape)[worst] for length in (*lengths, off)]
    return ("at worst " if len(off) > 1 else "") + words.format(*(in_words(float(mm), Kind.LENGTH) for mm in every))
