"""Drawings as tests write them."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from draft.base.arrays import Floats
from draft.beginning.begun import Begun, Outlines, begin
from draft.beginning.svg_strokes import read_svg
from draft.geometry.flatten import flatten


def svg(inside: str, size: str = 'width="600mm" height="800mm" viewBox="0 0 600 800"') -> bytes:
    """An SVG drawing of these elements."""
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{inside}</svg>'.encode()


def lines(inside: str) -> list[Floats]:
    """The strokes of these elements as fine polylines `(N, 2)`, y up."""
    return [flatten(stroke.path, 0.001) for stroke in read_svg(svg(inside)).strokes]


def begun(folder: Path, inside: str, size: str | None = None, **asked: object) -> Begun:
    """What a drawing of these elements makes."""
    (folder / "drawing.svg").write_bytes(svg(inside) if size is None else svg(inside, size))
    return begin(folder / "drawing.svg", Outlines("mine", **asked))  # type: ignore[arg-type]


def circle(points: int, radius: float = 100.0) -> Floats:
    """Points `(N, 2)` on a circle round 200, 200."""
    at = np.linspace(0.0, 2 * np.pi, points, endpoint=False)
    return 200 + radius * np.stack([np.cos(at), np.sin(at)], axis=-1)


def polygon(points: Floats) -> str:
    """A closed line through points."""
    return f'<polygon points="{" ".join(f"{x:.4f},{y:.4f}" for x, y in points)}"/>'
