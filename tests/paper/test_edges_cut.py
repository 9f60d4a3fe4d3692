"""Every edge of every bundled piece has its own part of the cutting line, which lies beside it."""

from __future__ import annotations

import numpy as np
import pytest

from draft.paper.piece.edge_words import called_on_paper
from draft.paper.piece.piece_lines import FLIP, outlines_of
from tests.asking import bundled
from tests.pieces.bundled import PATTERNS

BESIDE = 4.2
"""In allowances: at the mouth of a pocket two hems of 25 and 10 mm meet aslant. Netloft's dart is told of below."""


@pytest.mark.parametrize("name", PATTERNS)
def test_no_edge_lends_its_name_to_the_whole_cutting_line(name: str) -> None:
    garment = bundled(name).to_cut
    for piece in garment.pieces:
        for one in outlines_of(piece, [(size, k) for k, size in enumerate(garment.sizes)]):
            assert [edge.name for edge, _ in one.cutting_edges] == [e.name for e in piece.edges if not e.on_fold]
            for edge, line in one.cutting_edges:
                if not edge.name.endswith("_over"):
                    seam = edge.segments[one.body] * FLIP
                    off = np.hypot(*(np.stack([line[0, 0] - seam[0, 0], line[-1, 3] - seam[-1, 3]]).T))
                    assert off.max() <= BESIDE * max(10.0, edge.allowance), (piece.name, edge.name, one.size)


def test_the_legs_of_a_dart_sewn_shut_are_cut_up_to_the_bottom_of_their_opening() -> None:
    garment = bundled("netloft").to_cut
    sleeve = garment.piece("sleeve")
    for one in outlines_of(sleeve, [(size, k) for k, size in enumerate(garment.sizes)]):
        lines = {edge.name: line for edge, line in one.cutting_edges}
        assert np.allclose(lines["front_over"][-1, 3], lines["back_over"][0, 0])
        tip = sleeve.edge("front_over").segments[one.body, -1, 3] * FLIP
        assert lines["front_over"][-1, 3][1] < tip[1], "above the tip, on paper"


def test_a_hem_has_the_name_that_stands_at_it_whichever_side_it_is_of() -> None:
    garment = bundled("breakwater").to_cut
    said = {
        piece.name: {called_on_paper(piece, edge) for edge in piece.edges if edge.turned_up} for piece in garment.pieces
    }
    assert said["right_front"] == said["left_front"] == said["back"] == {"hem", "cuff"}
    assert said["right_facing"] == said["left_facing"] == {"hem"}
