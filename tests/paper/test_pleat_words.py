"""Which line of a pleat is which: the fold line is where the arrow begins, the placement line where it points."""

import numpy as np
import pytest

from draft.drafting.assembling import assemble
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.takeups import pleat_sides
from draft.solve.evaluate import evaluate
from tests.written import people, planned

SKIRT = """
piece skirt
    points
        a  at 0, 0
        c  at 60 cm, 0
        d  at 60 cm, 50 cm
        e  at 0, 50 cm
    outline
        hem   a to c   straight
        side  c to d   straight
        top   d to e   straight
        left  e to a   straight
    pleats
        pleat  on top: 4 cm wide at 20 cm from d, folded 12 cm, towards {towards}
    cut 1
"""


@pytest.mark.parametrize(("towards", "fold", "placed"), [("left", 420.0, 380.0), ("side", 380.0, 420.0)])
def test_the_fold_line_is_laid_on_the_placement_line(towards: str, fold: float, placed: float) -> None:
    plan = planned("body\n    bust_girth\n" + SKIRT.format(towards=towards))
    garment, _ = assemble(plan, evaluate(plan, people(bust_girth=90.0)))
    piece = garment.piece("skirt")
    found = pleat_sides(Outlines.of(garment, piece, 0), piece.takeups[0])
    assert [line[:, 0] for line in found] == [pytest.approx([at, at]) for at in (fold, placed)]
    assert np.ptp(found[0][:, 1]) == pytest.approx(120.0)
