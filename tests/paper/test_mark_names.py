"""Names of sizes at marks: none where every size has the same mark."""

from __future__ import annotations

import numpy as np
import shapely

from draft.paper.piece.clutter import Clutter
from draft.paper.piece.mark_tags import mark_tags
from draft.paper.piece.names_gathered import Grounds
from draft.paper.piece.sized_marks import Anchor
from draft.paper.piece.sizes_drawn import Sizes
from draft.paper.piece.surface import ANYWHERE

SIZES = Sizes(["S", "M"], [shapely.box(0, 0, 200, 200)] * 2, ANYWHERE, Grounds(tuple))


def _marks(apart: float) -> list[Anchor]:
    inward = np.array([1.0, 0.0])
    return [Anchor(size, np.array([20.0, 50.0 + size * apart]), inward) for size in range(2)]


def test_marks_that_all_sizes_share_bear_no_name() -> None:
    clutter = Clutter([])
    assert mark_tags([_marks(0.0)], SIZES, clutter) == [[], []]
    assert clutter.free(np.array([shapely.box(0, 0, 200, 200)])).all()


def test_marks_apart_bear_the_name_of_their_size() -> None:
    found = mark_tags([_marks(40.0)], SIZES, Clutter([]))
    assert [[getattr(item, "text", "") for item in items] for items in found] == [["S"], ["M"]]
