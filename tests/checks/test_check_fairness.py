"""The check of fair edges: the sizes that it names, what it lets pass, and nothing said where there is no fault."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from draft.base.notes import Note, Severity, Source, Span
from draft.checks import dips, fair_curves
from draft.drafting.drafting import draft_plan
from draft.garment.garment import Edge, Garment, Piece, Takeup
from draft.geometry.cubic import line
from draft.geometry.spline import hobby
from tests.asking import bundled
from tests.seams.outlines import edge as outlined
from tests.seams.outlines import polygon
from tests.written import people, planned

HERE = Span(Source("trial.piece", "trial"), 0, 5)
SIZES = ("S", "M", "L")


def notes_on(segments: np.ndarray) -> list[Note]:
    """What is said of one edge `(3, S, 4, 2)`."""
    piece = Piece(HERE, "front", (Edge(HERE, "side", segments, allowance=10.0),), 1, np.zeros((3, 2)), np.zeros((3, 2)))
    return fair_curves.check(Garment("Trial", "", SIZES, (piece,), (), ()))


def bent(*angles: float) -> np.ndarray:
    """Two straight segments that turn by these angles, in degrees, a size each."""
    at = np.radians(angles)
    tips = np.array([100.0, 0.0]) + 100 * np.stack([np.cos(at), np.sin(at)], axis=-1)
    joint = np.tile([100.0, 0.0], (len(angles), 1))
    return np.stack([line(np.zeros_like(joint), joint), line(joint, tips)], axis=1)


def hollow(*radii: float) -> np.ndarray:
    """A curve that is a quarter circle of these radii, or all but."""
    ends = np.array(radii)[:, None, None] * np.array([[1.0, 0.0], [0.7071, 0.7071], [0.0, 1.0]])
    up, left = np.tile([0.0, 1.0], (len(radii), 1)), np.tile([-1.0, 0.0], (len(radii), 1))
    return hobby(ends, [up, None, left])


def test_straight_edges_and_wide_curves_are_fair() -> None:
    assert not notes_on(bent(0, 0, 0))
    assert not notes_on(hollow(12, 30, 400))


def test_a_corner_is_told_for_the_sizes_that_have_it() -> None:
    (note,) = notes_on(bent(0.9, 1.2, 30))
    assert note.severity is Severity.CAUTION and note.span == HERE
    assert note.message == "`front.side` has a corner inside, for sizes M, L"
    assert note.hints[0] == "at worst it turns by 30.0 deg at once (L)"


def test_a_radius_below_a_centimetre_is_told_with_the_tightest() -> None:
    (note,) = notes_on(hollow(6, 9, 12))
    assert note.message == "`front.side` turns too tightly to be sewn, for sizes S, M"
    assert note.hints[0] in ("at worst its radius is 6.0 mm (S)", "at worst its radius is 5.9 mm (S)")


def test_more_turns_than_a_side_seam_needs_are_told() -> None:
    x = np.linspace(0, 600, 49)
    waves = np.stack([np.stack([x, 6 * np.sin(np.pi * x / 600 * humps)], axis=-1) for humps in (2, 4, 6)])
    (note,) = notes_on(hobby(waves, [None] * 49))
    assert note.message == "`front.side` waves, for size L"
    assert note.hints[0] == "it changes the way that it turns 5 times (L)"


def test_how_an_edge_runs_between_the_legs_of_a_dart_is_not_judged() -> None:
    x = np.linspace(0, 600, 49)
    waves = np.tile(np.stack([x, 6 * np.sin(np.pi * x / 100)], axis=-1), (3, 1, 1))
    edge = Edge(HERE, "waist", hobby(waves, [None] * 49), allowance=10.0)
    dart = Takeup(HERE, "dart", "waist", np.full(3, 305.0), np.full(3, 210.0), np.zeros((3, 2)))
    for takeups, said in (((), 1), ((dart,), 0), ((replace(dart, edge="hem"),), 1)):
        piece = Piece(HERE, "front", (edge,), 1, np.zeros((3, 2)), np.zeros((3, 2)), takeups=takeups)
        assert len(fair_curves.check(Garment("Trial", "", SIZES, (piece,), (), ()))) == said


@pytest.mark.parametrize(("degrees", "told"), [(0.0, True), (0.8, True), (-0.8, True), (2.0, False), (-2.0, False)])
def test_only_an_edge_that_leaves_the_fold_square_waves_for_the_sake_of_it(degrees: float, told: bool) -> None:
    rise = 80 * np.tan(np.radians(degrees))
    hem = np.array([[[0.0, 0.0], [80.0, rise], [140.0, -30.0], [200.0, 0.0]]])
    rest = polygon([(200, 0), (200, 300), (0, 300), (0, 0)], e2="fold")
    piece = replace(rest, edges=(outlined("hem", hem), *rest.edges[:3]))
    notes = dips.check(Garment("Trial", "", ("M",), (piece,), (), ()))
    assert [note.message for note in notes] == ["`outline.hem` waves between its ends, for size M"] * told


def test_a_slot_drafted_from_a_text_is_too_tight_for_the_narrow_body_only() -> None:
    plan = planned(
        """
        body
            bust_girth

        piece strip
            points
                a at 0, 0
                b at 10 cm, 0
                c at 10 cm, 20 cm
                d at 5 cm + bust_girth / 50, 20 cm
                e at 5 cm + bust_girth / 50, 15 cm
                f at 5 cm, 15 cm
                g at 5 cm, 20 cm
                h at 0, 20 cm
            outline
                low   a to b straight
                right b to c straight
                top   c to d straight
                slot  d to g
                    straight to e
                    curve to f
                    straight
                    allowance 6 mm
                rest  g to h straight
                left  h to a straight
            cut 1
        """
    )
    notes = fair_curves.check(draft_plan(plan, people(bust_girth=[60, 120])).garment)
    assert [note.message for note in notes] == ["`strip.slot` turns too tightly to be sewn, for body 1"]


def test_the_demo_is_fair_in_every_size() -> None:
    assert not [note for note in bundled("marlpit").notes if note.severity is not Severity.REMARK]
