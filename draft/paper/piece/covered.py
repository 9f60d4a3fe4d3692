"""What items on paper cover, as shapely shapes: for keeping words off them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from draft.geometry.flatten import polyline_each
from draft.paper.drawing.drawing import Item, Label, Path
from draft.paper.drawing.room import label_spot, spot_shapes


def run_shapes(paths: Iterable[Path]) -> list[Any]:
    """The runs of all paths as shapely lines."""
    import shapely

    lines = polyline_each([run for path in paths for run in path.runs])
    if not lines:
        return []
    of = np.repeat(np.arange(len(lines)), [len(line) for line in lines])
    return list(shapely.linestrings(np.concatenate(lines), indices=of))


def shapes_of(items: Sequence[Item]) -> list[Any]:
    """What items cover, for keeping words off them."""
    labels = [item for item in items if isinstance(item, Label)]
    words = list(spot_shapes([label_spot(label) for label in labels])) if labels else []
    return [*words, *run_shapes(item for item in items if isinstance(item, Path))]
