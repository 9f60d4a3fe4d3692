"""Whom a chart serves: how many bodies lie where by two girths, how many of them a size fits, where the sizes lie."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.naming import plain
from draft.base.record import dataclass
from draft.fit.levels import levels, over
from draft.garment.garment import Finished, Garment
from draft.geometry.cubic import lines_through
from draft.paper.drawing.drawing import Drawing, Item, Label, Layer, Path, Stroke, circle, rectangle
from draft.paper.drawing.wording import capitalised

CELL = 30.0  # mm of girth to a cell: half a step of the letter sizes or less
SIDE = 120.0  # mm: the longer side of the field
LEFT, TOP = 24.0, 22.0
SMALL = 2.9
SERVED, UNSERVED, CHART = "#7fa8d0", "#a33c00", "#000000"


@dataclass
class Field:
    """Bodies counted by two girths: names of the levels, the sizes' girths `(sizes, 2)`, and the counts by cell.

    `cells` has for each cell the number of bodies, and how many of them a size of the chart serves.
    """

    names: tuple[str, str]
    which: tuple[int, int]
    sizes: tuple[str, ...]
    chart: Floats
    cells: dict[tuple[int, int], tuple[int, int]] = field(default_factory=dict)

    @staticmethod
    def over(found: Sequence[Finished], sizes: tuple[str, ...]) -> Field:
        """An empty field over the two largest girths, in the order that the pattern names them."""
        if not found:
            return Field(("", ""), (0, 0), sizes, np.zeros((0, 2)))
        girths = [float(np.mean(over(level))) for level in found]
        one, other = sorted(np.argsort(girths)[-2:].tolist()) if len(found) > 1 else (0, 0)
        chart = np.stack([over(found[one]), over(found[other])], axis=-1)
        return Field((plain(found[one].name), plain(found[other].name)), (one, other), sizes, chart)

    def add(self, garment: Garment, served: np.ndarray) -> None:
        """Count the bodies that a garment was drafted for."""
        found = list(levels(garment))
        places = np.stack([np.floor(over(found[k]) / CELL).astype(int) for k in self.which], axis=-1)
        cells, inverse = np.unique(places, axis=0, return_inverse=True)
        inverse = inverse.ravel()
        count = np.bincount(inverse, minlength=len(cells))
        good = np.bincount(inverse, weights=served, minlength=len(cells)).astype(int)
        counts = zip(count.tolist(), good.tolist(), strict=True)
        self.put({(cell[0], cell[1]): both for cell, both in zip(cells.tolist(), counts, strict=True)})

    def put(self, cells: Mapping[tuple[int, int], tuple[int, int]]) -> None:
        """Count what was counted elsewhere, cell by cell."""
        for cell, (more, fits) in cells.items():
            before = self.cells.get(cell, (0, 0))
            self.cells[cell] = (before[0] + more, before[1] + fits)


def study_drawing(title: str, counted: Field) -> Drawing:
    """The field as squares: as large as there are bodies, and filled from below by the share that a size serves."""
    if not counted.cells:
        return Drawing(title, 100.0, 30.0, (Layer("study", (Label("no bodies", 8, 16, 4.0),)),))
    places = np.array(list(counted.cells))
    corners = np.concatenate([places, np.floor(counted.chart / CELL).astype(int)])
    low, high = corners.min(axis=0), corners.max(axis=0) + 1
    scale = SIDE / float(np.max(high - low))
    width, height = (high - low) * scale

    def at(girths: Floats) -> tuple[float, float]:
        x, y = (girths / CELL - low) * scale
        return LEFT + float(x), TOP + float(height) - float(y)

    items: list[Item] = [Label(f"{title}: whom the sizes serve", 8, 11, 4.2, bold=True)]
    items += _axes(counted, low, high, scale)
    most = max(count for count, _ in counted.cells.values())
    for (i, j), (count, fits) in sorted(counted.cells.items()):
        x, y = at(np.array([i + 0.5, j + 0.5]) * CELL)
        half = scale / 2 * max(0.12, (count / most) ** 0.5)
        items.append(Path((rectangle(x - half, y - half, 2 * half, 2 * half),), fill=UNSERVED))
        share = fits / count
        if share > 0:
            items.append(
                Path((rectangle(x - half, y + half - 2 * half * share, 2 * half, 2 * half * share),), fill=SERVED)
            )
    line = [at(size) for size in counted.chart]
    if len(line) > 1:
        items.append(Path((lines_through(line),), Stroke(0.4, colour=CHART)))
    for (x, y), name in zip(line, counted.sizes, strict=True):
        items += [Path((circle(x, y, 1.2),), fill=CHART, closed=True), Label(name, x + 2, y - 1.6, 3.2, bold=True)]
    foot = TOP + float(height) + 20
    items += _key(foot)
    return Drawing(title, max(LEFT + float(width) + 12, 120.0), foot + 8, (Layer("study", tuple(items)),))


def _axes(counted: Field, low: np.ndarray, high: np.ndarray, scale: float) -> list[Item]:
    width, height = (high - low) * scale
    items: list[Item] = [Path((rectangle(LEFT, TOP, float(width), float(height)),), Stroke(0.2, colour="#777777"))]
    every = max(1, round(float(np.max(high - low)) / 8))
    for k in range(low[0], high[0] + 1, every):
        x = LEFT + float(k - low[0]) * scale
        items.append(Label(f"{k * CELL / 10:.0f}", x, TOP + float(height) + 4.5, SMALL, anchor="middle"))
    for k in range(low[1], high[1] + 1, every):
        y = TOP + float(height) - float(k - low[1]) * scale
        items.append(Label(f"{k * CELL / 10:.0f}", LEFT - 2, y + 1, SMALL, anchor="end"))
    items.append(
        Label(
            capitalised(f"{counted.names[0]}, cm"),
            LEFT + float(width) / 2,
            TOP + float(height) + 10,
            3.2,
            anchor="middle",
        )
    )
    items.append(Label(capitalised(f"{counted.names[1]}, cm"), LEFT - 14, TOP - 3, 3.2))
    return items


def _key(y: float) -> list[Item]:
    items: list[Item] = []
    for k, (colour, words) in enumerate(((SERVED, "served by a size"), (UNSERVED, "not served"))):
        x = LEFT + 42.0 * k
        items += [Path((rectangle(x, y - 3, 3.6, 3.6),), fill=colour), Label(words, x + 5, y, SMALL)]
    return items
