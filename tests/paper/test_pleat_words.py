"""Which line of a pleat is which: the fold line is where the arrow begins, the placement line where it points."""

import numpy as np
import pytest

from draft.drafting.assembling import assemble
from draft.garment.garment import Garment
from draft.paper.drawing.drawing import Label, Path
from draft.paper.pages.sign_key import signs_of
from draft.paper.piece.piece_drawing import draw_piece
from draft.paper.piece.piece_lines import Outlines
from draft.paper.piece.takeups import pleat_notches, pleat_sides
from draft.solve.evaluate import evaluate
from tests.paper.reading import line_shape
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


def _two_sizes(place: str) -> Garment:
    """The skirt in two sizes, whose pleat lies so far from its left end."""
    text = "body\n    bust_girth\n" + SKIRT.format(towards="left").replace("20 cm from d", f"{place} from d")
    plan = planned(text)
    garment, _ = assemble(plan, evaluate(plan, people(bust_girth=[90.0, 95.0])))
    return garment


def test_pleats_of_sizes_that_lie_among_one_another_are_notches_that_say_what_is_laid_on_what() -> None:
    garment = _two_sizes("bust_girth * 20 %")
    piece = garment.piece("skirt")
    for size, items in zip(garment.sizes, draw_piece(garment, piece, (0, 1)).sized, strict=True):
        paths = [item for item in items if isinstance(item, Path) and item.id and ".pleat" in item.id]
        assert [path.id for path in paths] == [f"skirt.pleat.{size}"]
        assert sorted(line_shape(path).length for path in paths)[0] < 20.0  # two snips, and no line into the piece
        said = [item.text for item in items if isinstance(item, Label)]
        assert f"fold {size}" in said and f"to here {size}" in said
    one = Outlines.of(garment, piece, 0)
    assert [notch[0, 0] for notch in pleat_notches(one, piece.takeups[0])] == pytest.approx(
        [line[0, 0] for line in pleat_sides(one, piece.takeups[0])]
    )
    assert "pleats" in signs_of(garment, "cutting", (0, 1)) and "pleat" not in signs_of(garment, "cutting", (0, 1))


def test_a_pleat_that_lies_alike_in_all_sizes_is_drawn_whole() -> None:
    garment = _two_sizes("20 cm")
    items = draw_piece(garment, garment.piece("skirt"), (0, 1)).sized[1]
    assert sum(isinstance(item, Path) and bool(item.id) and ".pleat" in str(item.id) for item in items) == 3
    assert "pleats" not in signs_of(garment, "cutting", (0, 1))
