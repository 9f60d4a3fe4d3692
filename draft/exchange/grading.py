"""Grade rules: how each turn point of a piece moves from size to size, numbered, and the table of all rules as text.

From memory: a rule has a delta in x and y for each size; its number stands at its point as `# 7`; the table lies beside
the drawing, under `RULE: DELTA 7`. That a delta is counted from the sample size, and no other, is from memory too.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field

import numpy as np

from draft.base.arrays import Floats
from draft.base.record import dataclass
from draft.exchange.dxf_text import dxf_text
from draft.garment.garment import Garment, Piece
from draft.paper.piece.piece_lines import FLIP, Outlines

_PLACES = 2
"""Deltas are given to a hundredth of a millimetre."""


@dataclass
class GradeRules:
    """The rules met so far, each the deltas of all sizes in mm as `(x, y)`, numbered from 1 in the order of meeting."""

    sample: int
    """Which of the sizes deltas are counted from."""
    numbers: dict[tuple[tuple[float, float], ...], int] = field(default_factory=dict)

    def of(self, points: Floats) -> int:
        """The number of the rule for a point `(sizes, 2)`."""
        deltas = np.round(points - points[self.sample], _PLACES) + 0.0
        return self.numbers.setdefault(tuple((float(x), float(y)) for x, y in deltas), len(self.numbers) + 1)


def turn_points(garment: Garment, piece: Piece, bodies: Sequence[int]) -> list[Floats]:
    """The corners of the cutting line, each in every size `(sizes, 2)`, y up.

    None of a piece whose sizes have not the same corners: an allowance closed over one of them.
    """
    edges = [[(edge.name, line) for edge, line in Outlines.of(garment, piece, body).cutting_edges] for body in bodies]
    names = [[name for name, _ in each] for each in edges]
    if any(each != names[0] or len(set(each)) != len(each) for each in names):
        return []
    starts = [np.stack([each[k][1][0, 0] * FLIP for each in edges]) for k in range(len(names[0]))]
    ends = [np.stack([each[k][1][-1, 3] * FLIP for each in edges]) for k in range(len(names[0]))]
    return [*starts, *(end for end in ends if not any(np.allclose(end, start, atol=0.01) for start in starts))]


def rule_table(title: str, sizes: Sequence[str], rules: GradeRules) -> bytes:
    """The table as text, a line for each size under each rule, in the order of the size list."""
    head = [
        "PRODUCT: plainseam",
        f"GRADE RULE TABLE: {dxf_text(title)}",
        "UNITS: METRIC",
        f"NUMBER OF SIZES: {len(sizes)}",
        f"SIZE LIST: {' '.join(_one_word(size) for size in sizes)}",
        f"SAMPLE SIZE: {_one_word(sizes[rules.sample])}",
    ]
    lines = [
        line
        for deltas, number in rules.numbers.items()
        for line in (f"RULE: DELTA {number}", *(f"{x:.2f}, {y:.2f}" for x, y in deltas))
    ]
    return "\r\n".join([*head, *lines, "END", ""]).encode("cp1252", errors="replace")


def _one_word(size: str) -> str:
    """A size as the list takes it, where blanks part sizes."""
    return "_".join(dxf_text(size).split())
