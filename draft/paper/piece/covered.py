"""What items on paper cover, as shapely shapes: for keeping words off them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from draft.geometry.flatten import polyline_each
from draft.paper.drawing.drawing import Item, Label, Path
from draft.paper.drawing.room import label_spot


def run_shapes(paths: Iterable[Path]) -> list[Any]:
    """The runs of all paths as shapely lines."""
    import shapely

    lines = polyline_each([run for path in paths for run in path.runs])
    if not lines:
        return []
    of = np.repeat(np.arange(len(lines)), [len(line) for line in lines])
    return list(shapely.linestrings(np.concatenate(lines), indices=of))


def shapes_of(item: Item) -> list[Any]:
    """What an item covers, for keeping tags off it."""
    if isinstance(item, Label):
        return [label_spot(item).shape()]
    return run_shapes([item])
