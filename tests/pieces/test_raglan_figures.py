"""The Netloft raglan top against what drafting handbooks say of raglan sleeves in knit cloth.

Figures of handbooks are common practice, from memory, given as ranges that several of them share.
"""

from __future__ import annotations

import numpy as np
import pytest

from draft.base.arrays import Floats
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Piece
from draft.plan.library import find
from draft.seams.joins_in_order import joins_in_order
from tests.asking import bundled
from tests.outside.women import real_women
from tests.pieces.bundled import chord_length, chosen, finished, points
from tests.written import make_plan


def _edge(piece: str, edge: str, **styles: str) -> Floats:
    """The length of an edge, cm."""
    return chord_length(bundled("netloft", **styles).garment.piece(piece).edge(edge)) / 10


def _end(piece: str, edge: str, last: bool) -> Floats:
    line = points(bundled("netloft").garment.piece(piece).edge(edge))
    return line[:, -1 if last else 0] / 10


def test_the_bust_has_the_ease_of_an_easy_knit_top() -> None:
    """4 to 12 cm; from memory."""
    found = bundled("netloft")
    ease = finished(found.garment, "bust") - found.bodies.values["bust_girth"] / 10
    assert np.all((ease >= 4) & (ease <= 12))


def test_the_raglan_armhole_is_deeper_than_a_set_in_one() -> None:
    """4 to 7 cm below the armpit, where a set-in armhole of a knit lies 2.5 to 5 cm below; from memory."""
    found = bundled("netloft")
    depth = -_end("back", "armhole", last=True)[:, 1]
    below = depth - found.bodies.values["armpit_depth"] / 10
    assert np.all((below >= 4) & (below <= 7))


def test_the_raglan_seam_leaves_the_neck_a_few_centimetres_from_the_shoulder() -> None:
    """2 to 4 cm at the back, 2.5 to 5 cm at the front; from memory."""
    assert np.all((_edge("sleeve", "back_neck_part") > 2) & (_edge("sleeve", "back_neck_part") < 4))
    assert np.all((_edge("sleeve", "front_neck_part") > 2.5) & (_edge("sleeve", "front_neck_part") < 5))


@pytest.mark.parametrize("piece", ["front", "back"])
def test_the_raglan_seam_of_the_body_bows_out_a_little(piece: str) -> None:
    """0.5 to 1.5 cm off its chord, and always to the side of the arm; from memory."""
    line = points(bundled("netloft").garment.piece(piece).edge("raglan")) / 10
    chord = line[:, -1] - line[:, 0]
    away = line - line[:, :1]
    off = (chord[:, None, 0] * away[..., 1] - chord[:, None, 1] * away[..., 0]) / np.hypot(*chord.T)[:, None]
    assert np.all(off > -0.01)
    assert np.all((off.max(axis=1) > 0.3) & (off.max(axis=1) < 1.5))


def test_the_neck_runs_on_across_the_raglan_seams() -> None:
    """What the body and the sleeve have at the neck, laid together along the seam, is one line: 180 degrees."""
    garment = bundled("netloft").garment
    for body, own, raglan, neck in (
        ("front", "raglan", "raglan_front", "front_neck_part"),
        ("back", "raglan", "raglan_back", "back_neck_part"),
    ):
        turns = [_corner(garment.piece(body), "neckline", own), _corner(garment.piece("sleeve"), neck, raglan)]
        assert np.all(np.abs(sum(turns) - 180) < 3), body


def _corner(piece: Piece, one: str, other: str) -> Floats:
    """The angle between two edges where they meet, degrees, off chords of half a millimetre."""
    lines = [points(piece.edge(name)) for name in (one, other)]
    gaps = [np.abs(lines[0][:, i] - lines[1][:, j]).max() for i in (0, -1) for j in (0, -1)]
    ends = divmod(int(np.argmin(gaps)), 2)
    ways = []
    for line, at_end in zip(lines, ends, strict=True):
        ordered = line[:, ::-1] if at_end else line
        away = np.hypot(*np.moveaxis(ordered - ordered[:, :1], -1, 0))
        way = ordered[np.arange(len(line)), np.argmax(away > 0.5, axis=1)] - ordered[:, 0]
        ways.append(way / np.hypot(*way.T)[:, None])
    return np.asarray(np.degrees(np.arccos(np.clip(np.sum(ways[0] * ways[1], axis=-1), -1, 1))))


def test_the_dart_over_the_shoulder_reaches_beyond_it_on_the_arm() -> None:
    """As long as the shoulder and 3 to 8 cm more; from memory."""
    found = bundled("netloft")
    shoulder = (
        found.bodies.values["shoulder_length"] - chosen(found.garment, "neck_wider")
    ) / 10 - 2  # the neck is widened by 2 cm
    beyond = _edge("sleeve", "front_over") - shoulder
    assert np.all((beyond > 3) & (beyond < 8))
    assert np.allclose(_edge("sleeve", "front_over"), _edge("sleeve", "back_over"), atol=0.05)


def test_the_neckband_is_shorter_than_its_seam_and_passes_the_head() -> None:
    """0.80 to 0.90 of its seam; from memory."""
    found = bundled("netloft")
    ratio = _edge("neckband", "long") / finished(found.garment, "neckline")
    assert np.all((ratio >= 0.80) & (ratio <= 0.90))
    assert np.all(_edge("neckband", "long") * 1.5 > found.bodies.values["head_girth"] / 10)


def test_the_sleeves_are_sewn_in_flat_before_the_sides() -> None:
    """Common practice with raglans: dart, raglan seams, then the sides from wrist to hem in one go."""
    order = [join.name for join in joins_in_order(bundled("netloft").garment)]
    assert order == ["shoulder", "front_raglan", "back_raglan", "side", "band_ends", "neck"]


def test_every_woman_of_a_study_gets_a_raglan_top() -> None:
    found = draft_plan(make_plan(find("netloft")), real_women())
    assert found.outcome.drafted.all()
