"""After a change to one style the pieces that it leaves as they were are those from before, and are drawn no more."""

from dataclasses import replace

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.garment.as_before import as_before
from draft.paper.pages.sheet import draw_pattern
from tests.asking import asked


def drafted(**styles):
    return draft_and_check(asked("marlpit", styles=styles)).garment


def test_what_a_style_does_not_touch_is_the_same_piece():
    one, other = drafted(), drafted(front_longer="1 cm")
    same = {piece.name: piece is other.piece(piece.name) for piece in one.pieces}
    assert same == {"back": True, "front": False, "sleeve_band": True, "neckband": True}
    drawn = [{piece.name: piece for piece in draw_pattern(garment, range(7)).pieces} for garment in (one, other)]
    assert {name: drawn[0][name] is drawn[1][name] for name in same} == same


def test_going_back_gives_all_pieces_from_before():
    one, _, again = drafted(), drafted(band_width="1 in"), drafted()
    assert one is not again and all(a is b for a, b in zip(one.pieces, again.pieces, strict=True))


@pytest.mark.parametrize(
    "change",
    [
        lambda piece: replace(piece, cut=piece.cut + 1),
        lambda piece: replace(piece, grain=piece.grain + 1e-15),
        lambda piece: replace(piece, edges=(replace(piece.edges[0], allowance=9.5), *piece.edges[1:])),
        lambda piece: replace(piece, edges=(replace(piece.edges[0], unjoined=True), *piece.edges[1:])),
        lambda piece: replace(piece, notches=piece.notches[1:]),
        lambda piece: replace(piece, span=replace(piece.span, start=piece.span.start + 1)),
        lambda piece: replace(piece, grain=np.nextafter(piece.grain, 2.0)),
    ],
)
def test_whatever_differs_makes_another_piece(change):
    garment = drafted()
    front = garment.piece("front")
    changed = change(front)
    other = as_before(replace(garment, pieces=(changed, garment.piece("back"))))
    assert other.pieces[0] is changed and other.pieces[1] is garment.piece("back")
    assert as_before(replace(garment, pieces=(replace(front),))).pieces[0] is front


def test_a_drawing_names_the_sizes_and_the_pattern_that_it_is_of():
    """Pieces are shared between garments, and titles and letters are not."""
    garment = drafted()
    renamed = replace(garment, title="Trial", sizes=tuple(f"{size}-9" for size in garment.sizes))
    texts = [str(draw_pattern(one, range(2)).pieces) for one in (garment, renamed)]
    assert "Trial" in texts[1] and "Trial" not in texts[0]
    assert f"{garment.sizes[0]}-9" in texts[1] and f"{garment.sizes[0]}-9" not in texts[0]
