"""Pieces for cloth that is cut before it is washed: after the wash they are as drafted."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.base.notes import Problems, Severity
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment, Piece
from draft.geometry.length import length, point_at
from draft.seams.shrinkage import before_washing, shrinkage_notes
from draft.seams.walk import walk_seams
from tests.asking import asked, bundled
from tests.seams.test_walk import garment, panel

ACROSS, DOWN = 0.03, 0.07


@pytest.fixture(scope="module", params=["marlpit", "ropewalk", "tidemill"])
def drafted(request: pytest.FixtureRequest) -> Garment:
    return bundled(request.param).garment


def _washed(piece: Piece, points: Floats) -> Floats:
    """What washing makes of points `(B, N, 2)`: shorter along the grain and across it, by hand."""
    g = piece.grain[:, None]
    n = np.stack([-g[..., 1], g[..., 0]], axis=-1)
    along, beside = np.sum(points * g, axis=-1), np.sum(points * n, axis=-1)
    return np.asarray(along[..., None] * (1 - DOWN) * g + beside[..., None] * (1 - ACROSS) * n)


def test_washed_pieces_are_as_they_were_drafted(drafted: Garment) -> None:
    grown = before_washing(drafted, ACROSS, DOWN)
    for piece, larger in zip(drafted.pieces, grown.pieces, strict=True):
        for edge, other in zip(piece.edges, larger.edges, strict=True):
            bodies = len(edge.segments)
            back = _washed(piece, other.segments.reshape(bodies, -1, 2)).reshape(edge.segments.shape)
            assert np.allclose(back, edge.segments, atol=1e-9), (piece.name, edge.name)


def test_notches_darts_and_marks_stay_at_their_places(drafted: Garment) -> None:
    grown = before_washing(drafted, ACROSS, DOWN)
    tested = 0
    for piece, larger in zip(drafted.pieces, grown.pieces, strict=True):
        pairs = [(n.edge, n.at, m.at) for n, m in zip(piece.notches, larger.notches, strict=True)]
        for one, other in zip(piece.takeups, larger.takeups, strict=True):
            for way in (-1, 1):
                pairs.append((one.edge, one.at + way * one.width / 2, other.at + way * other.width / 2))
            if one.to is not None and other.to is not None:
                assert np.allclose(_washed(piece, other.to[:, None])[:, 0], one.to)
        for edge, before, after in pairs:
            there = np.isfinite(before)
            assert np.array_equal(there, np.isfinite(after))
            seen = point_at(piece.edge(edge).segments, np.where(there, before, 0))
            now = _washed(piece, point_at(larger.edge(edge).segments, np.where(there, after, 0))[:, None])[:, 0]
            assert np.allclose(seen[there], now[there], atol=1e-4)
            tested += 1
    assert tested > 5


def test_alike_edges_stay_alike_and_others_are_told_of() -> None:
    top = bundled("marlpit", "M").garment
    off = {w.join.name: abs(w.difference[0]) for w in walk_seams(before_washing(top, ACROSS, DOWN))}
    assert off["overarm"] < 1e-6 and off["underarm"] < 1e-6  # front and back lie alike on the cloth
    notes = shrinkage_notes(top, ACROSS, DOWN)
    assert [note.severity for note in notes] == [Severity.REMARK] * len(notes)
    told = {note.message.split("`")[1] for note in notes}
    assert told == {name for name, miss in off.items() if miss > 1.0} and "cuff" in told


@pytest.mark.parametrize("join", ["one.side to two.hem", "two.hem to one.side"])
def test_the_side_that_has_grown_more_is_named_first_whichever_is_written_first(join: str) -> None:
    made = garment(panel("one", "20 cm") + panel("two", "40 cm") + f"\njoin\n    j {join}")
    (note,) = shrinkage_notes(made, ACROSS, DOWN)
    assert note.message == "until it is washed, one side of `j` is longer: `one.side` than `two.hem`"
    assert note.hints[0] == f"at worst by {400 / (1 - DOWN) - 400 / (1 - ACROSS):.1f} mm (body 1)"


def test_a_pleat_of_an_edge_aslant_is_found_again_and_folded_as_much_longer() -> None:
    text = panel("one", "40 cm").replace("b at 40 cm, 0", "b at 40 cm, 30 cm")
    text += """
    points
        middle on hem: 20 cm from a
    pleats
        tuck on hem: 4 cm wide at middle, folded 5 cm
"""
    made = garment(text)
    assert made.piece("one").takeups[0].length == pytest.approx(np.full(3, 50.0))
    (pleat,) = before_washing(made, ACROSS, DOWN).piece("one").takeups
    longer = np.hypot(0.8 / (1 - ACROSS), 0.6 / (1 - DOWN))  # the edge rises by 3 on 4
    assert pleat.at == pytest.approx(np.full(3, 200 * longer)) and pleat.width == pytest.approx(np.full(3, 40 * longer))
    assert pleat.length == pytest.approx(np.full(3, np.hypot(30 / (1 - ACROSS), 40 / (1 - DOWN))))


def test_a_band_across_grows_by_what_its_width_loses() -> None:
    top = bundled("marlpit", "M").garment
    grown = before_washing(top, ACROSS, DOWN)
    for name, edge, share in (("neckband", "long", ACROSS), ("neckband", "end", DOWN), ("front", "centre", DOWN)):
        before, after = (length(g.piece(name).edge(edge).segments)[0] for g in (top, grown))
        assert after * (1 - share) == pytest.approx(before, abs=1e-9)


def test_nothing_shrinks_where_nothing_is_lost() -> None:
    top = bundled("marlpit", "M").garment
    same = before_washing(top, 0.0, 0.0)
    for piece, other in zip(top.pieces, same.pieces, strict=True):
        for edge, twin in zip(piece.edges, other.edges, strict=True):
            assert np.array_equal(edge.segments, twin.segments)
    assert shrinkage_notes(top, 0.0, 0.0) == []


def test_unwashed_pieces_need_a_fabric_that_says_what_it_loses(tmp_path: Path) -> None:
    fabric = tmp_path / "jersey.toml"
    fabric.write_text('stretch_across = "45 %"\nstretch_down = "25 %"\nshrinkage_down = "7 %"\n')
    made = draft_and_check(asked("marlpit", sizes=["M"], fabric=fabric, unwashed=True))
    assert made.to_cut.unwashed and not made.garment.unwashed and made.to_cut.title == "Marlpit top"
    assert np.array_equal(made.to_cut.finished[0].values, made.garment.finished[0].values)  # what it will measure
    assert not draft_and_check(asked("marlpit", sizes=["M"], fabric=fabric)).to_cut.unwashed
    with pytest.raises(Problems, match="nothing is known of what washing takes"):
        draft_and_check(asked("marlpit", sizes=["M"], fabric="stretchy", unwashed=True))


def test_a_fold_aslant_to_the_grain_is_refused(tmp_path: Path) -> None:
    text = """pattern skewed
    title "Skewed"
    chart "women.csv"

body
    bust_girth

piece panel
    points
        a at 0, 0
        b at 20 cm, 0
        c at 20 cm, 30 cm
        d at 0, 30 cm
    outline
        hem  a to b straight
        side b to c straight
        top  c to d straight
        mid  d to a straight, on fold
    grain 30 deg above across
    cut 1
"""
    file = tmp_path / "skewed.piece"
    file.write_text(text)
    garment = draft_and_check(asked(file, sizes=["M"])).garment
    (note, *_) = shrinkage_notes(garment, ACROSS, DOWN)
    assert note.severity is Severity.ERROR and "runs aslant to the grain" in note.message
