"""A made-up garment of seven sizes: a half top with sleeves in one, front and back, and two bands."""

from __future__ import annotations

import numpy as np

from draft.base.notes import Source, Span
from draft.garment.garment import Edge, Garment, Notch, Piece
from draft.geometry.cubic import line

SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL")
BUST = np.array([80.0, 86, 92, 98, 106, 116, 126]) * 10
TEXT = "\n".join(f"line {k}" for k in range(1, 60))
SOURCE = Source("top.piece", TEXT)


def span(number: int) -> Span:
    start = sum(len(text) + 1 for text in TEXT.split("\n")[: number - 1])
    return Span(SOURCE, start, start + 6)


def _curve(*controls: np.ndarray) -> np.ndarray:
    return np.stack(np.broadcast_arrays(*controls), axis=-2)[:, None]


def _straight(a: np.ndarray, b: np.ndarray) -> np.ndarray:
    return line(a, b)[:, None]


def _half(name: str, drop: float, first_line: int, count: int) -> Piece:
    k = np.arange(count, dtype=float)
    bust, zero = BUST[:count], np.zeros(count)

    def at(x: np.ndarray, y: np.ndarray) -> np.ndarray:
        return np.stack(np.broadcast_arrays(x, y), axis=-1).astype(float)

    neck, side, length = 70 + 2.5 * k, (bust + 60) / 4, 620 + 6 * k
    low = at(zero, -drop - 3 * k)
    side_neck = at(neck, zero + 20)
    slope, steep = np.radians(20), np.radians(24)
    shoulder = side_neck + (120 + 3 * k)[:, None] * np.array([np.cos(slope), -np.sin(slope)])
    out = np.array([np.cos(steep), -np.sin(steep)])
    cuff_top = shoulder + (190 + 11 * k)[:, None] * out
    cuff_low = cuff_top + (145 + 8 * k)[:, None] * np.array([-out[1], out[0]]) * -1
    under = at(side, cuff_low[:, 1] - 45 - 3 * k)
    hem_side, hem_fold = at(side + 4, -length), at(zero, -length - 8)
    waist = at(side - 6, (under[:, 1] - length) / 2 - 10)
    up, flat = np.array([0.0, 60.0]), np.array([60.0, 0.0])
    neckline = _curve(
        side_neck, side_neck + at(-0.1 * neck, -0.75 * (drop + 20) + zero), low + at(neck * 0.6, zero), low
    )
    overarm = np.concatenate(
        [
            _curve(
                side_neck,
                side_neck + (shoulder - side_neck) / 3,
                shoulder - 40 * (shoulder - side_neck) / 120,
                shoulder,
            ),
            _curve(shoulder, shoulder + 40 * np.array([np.cos(slope), -np.sin(slope)]), cuff_top - out * 60, cuff_top),
        ],
        axis=1,
    )
    underarm = np.concatenate(
        [
            _curve(hem_side, hem_side + up, waist - up, waist),
            _curve(waist, waist + up, under - up * 0.6, under),
            _curve(under, under + up * 0.7, cuff_low - out * 45, cuff_low),
        ],
        axis=1,
    )

    def edge(number: int, title: str, segments: np.ndarray, allowance: float = 12.7, **more: object) -> Edge:
        return Edge(span(first_line + number), title, segments, allowance=allowance, **more)  # type: ignore[arg-type]

    edges = (
        edge(1, "fold", _straight(low, hem_fold), 0.0, on_fold=True),
        edge(2, "hem", _curve(hem_fold, hem_fold + flat, hem_side - flat, hem_side), 25.4, turned_up=True),
        edge(3, "underarm", underarm),
        edge(4, "cuff", _straight(cuff_low, cuff_top)),
        edge(5, "overarm", overarm[:, ::-1, ::-1]),
        edge(6, "neckline", neckline),
    )
    strokes = 2 if name == "back" else 1
    notches = (
        Notch(span(first_line + 7), "overarm", 150 + 5 * k, strokes),
        Notch(span(first_line + 8), "underarm", 230 + 2 * k, strokes),
    )
    both = np.ones((count, 1))
    return Piece(span(first_line), name, edges, 1, both * [0.0, 1.0], both * [1.0, 0.0], notches)


def _band(name: str, lengths: np.ndarray, width: float, cut: int, first_line: int) -> Piece:
    count = len(lengths)
    zero, high = np.zeros(count), np.full(count, width)
    corners = [np.stack(at, axis=-1) for at in ((zero, zero), (lengths, zero), (lengths, high), (zero, high))]
    names = ("lower", "right_end", "upper", "left_end")
    edges = tuple(
        Edge(span(first_line + i + 1), names[i], _straight(corners[i], corners[(i + 1) % 4]), allowance=12.7)
        for i in range(4)
    )
    notches = tuple(
        Notch(span(first_line + 5), side, lengths * part) for side in ("lower", "upper") for part in (0.25, 0.5, 0.75)
    )
    both = np.ones((count, 1))
    return Piece(span(first_line), name, edges, cut, both * [0.0, 1.0], both * [1.0, 0.0], notches)


def make_garment(count: int = 7, title: str = "Easy knit top", sizes: tuple[str, ...] = SIZES) -> Garment:
    k = np.arange(count, dtype=float)
    pieces = (
        _half("front", 90, 1, count),
        _half("back", 20, 11, count),
        _band("sleeve_band", 330 + 15 * k, 50.6, 2, 21),
        _band("neckband", 540 + 10 * k, 24.6, 1, 31),
    )
    return Garment(title, "Made by hand", sizes[:count], pieces, (), ())
