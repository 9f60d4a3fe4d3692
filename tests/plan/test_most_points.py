"""Lines with more points than can be drawn are told before anything is drawn, of one edge and of all together."""

from __future__ import annotations

import pytest

from draft.base.notes import Problems, Source, show
from draft.base.resources import folder
from draft.language.reader import read
from draft.plan.library import Texts
from draft.plan.make import plan_texts
from draft.plan.most_points import OF_ALL, OF_AN_EDGE
from draft.plan.plan import Plan
from tests.large import coat, fine_edge


def planned(text: str) -> Plan:
    return plan_texts(Texts(read(Source("fine.piece", text)), (), folder("pieces")), {})


def wave(points: int) -> str:
    """A template of a piece with so many points on an edge."""
    return fine_edge(points).replace("piece one", "template wave").replace("    cut 1\n", "")


def test_an_edge_may_have_so_many_points_and_no_more() -> None:
    assert planned(fine_edge(OF_AN_EDGE)).pieces
    with pytest.raises(Problems) as caught:
        planned(fine_edge(OF_AN_EDGE + 1))
    assert "fine.piece:415:9: `top` runs through 401 points, more than 400" in show(caught.value.notes)


def test_a_template_used_often_counts_as_often() -> None:
    each = OF_AN_EDGE + 3
    most = OF_ALL // each
    pieces = [f"\npiece p{k} is wave\n    cut 1\n" for k in range(most + 1)]
    assert planned(wave(OF_AN_EDGE) + "".join(pieces[:most])).pieces
    with pytest.raises(Problems) as caught:
        planned(wave(OF_AN_EDGE) + "".join(pieces))
    (note,) = caught.value.notes
    assert "over 4,000 points" in note.message and note.span and note.span.text == f"p{most}"


def test_a_garment_of_very_many_pieces_has_fewer() -> None:
    assert len(planned(coat(200)).pieces) == 200
