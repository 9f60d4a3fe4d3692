"""An edge that a join gathers says to which length it is drawn up, also where it takes up several edges."""

from __future__ import annotations

import numpy as np

from tests.seams.test_walk import garment, panel


def test_a_frill_is_drawn_up_to_what_it_is_sewn_to() -> None:
    text = panel("frill", "bust_girth * 75 %") + panel("skirt", "bust_girth / 2")
    made = garment(text + "\njoin\n    j frill.top to skirt.hem reversed, gathered 150 %")
    drawn_up = made.piece("frill").edge("top").drawn_up
    assert drawn_up is not None
    np.testing.assert_allclose(drawn_up, [400.0, 500.0, 600.0])
    assert made.piece("skirt").edge("hem").drawn_up is None


def test_a_frill_round_two_halves_is_drawn_up_as_a_whole() -> None:
    text = panel("frill", "150 cm") + panel("skirt", "50 cm", more="FOLD cut 1")
    made = garment(text + "\njoin\n    j frill.top to skirt.hem reversed, gathered 150 %")
    np.testing.assert_allclose(np.asarray(made.piece("frill").edge("top").drawn_up), 1000.0)


def test_an_edge_that_is_eased_is_not_drawn_up() -> None:
    text = panel("one", "21 cm") + panel("two", "20 cm")
    made = garment(text + "\njoin\n    j one.top to two.hem reversed, eased 105 %")
    assert made.piece("one").edge("top").drawn_up is None
