"""Edges of which seams have parts: what lies on them goes along, and the parts are one line."""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.geometry.length import length
from draft.seams.joins_in_order import joins_in_order
from draft.seams.openings import gaps
from draft.seams.sides import side, takeups_of
from draft.seams.trueing import trued
from draft.seams.walk import seam_ends, walk_seams
from tests.asking import asked
from tests.changed import drafted_with

PATTERN = Path(__file__).parents[1] / "good" / "parts_of_edges.piece"
TOP, LOW = "side from waist_side to pocket_top", "side from godet_top to hem_side"


@pytest.fixture(scope="module")
def skirt() -> Garment:
    return draft_and_check(asked(PATTERN)).garment


def changed(folder: Path, *pairs: tuple[str, str]) -> Garment:
    return drafted_with(PATTERN, folder, *pairs)


def test_the_parts_follow_one_another_and_are_as_long_as_the_edge(skirt: Garment) -> None:
    parts = [edge for edge in skirt.piece("front").edges if edge.whole == "side"]
    assert [edge.name for edge in parts] == [
        TOP, "side from pocket_top to pocket_low", "side from pocket_low to godet_top", LOW,
    ]  # fmt: skip
    for before, after in pairwise(parts):
        assert np.abs(before.segments[:, -1, 3] - after.segments[:, 0, 0]).max() < 1e-9
    drawn = [length(edge.segments) for edge in parts]
    assert drawn[0] == pytest.approx(50.0) and drawn[1] == pytest.approx(150.0) and drawn[3] == pytest.approx(220.0)


def test_a_part_is_run_from_the_first_place_to_the_second(skirt: Garment) -> None:
    (join,) = [join for join in skirt.joins if join.name == "godet_back"]
    assert join.second[0].reverse and not join.first[0].reverse
    assert all(np.abs(walked.difference).max() < 1e-6 for walked in walk_seams(skirt))


def test_each_place_is_notched_on_both_pieces(skirt: Garment) -> None:
    for name in ("front", "back"):
        at_start = {notch.edge for notch in skirt.piece(name).notches if np.all(notch.at == 0)}
        assert len(at_start) == 3 and LOW in at_start and TOP not in at_start


def test_a_notch_set_by_hand_lies_on_its_part(skirt: Garment) -> None:
    (notch,) = [notch for notch in skirt.piece("front").notches if notch.strokes == 2]
    assert notch.edge == "side from pocket_low to godet_top" and notch.at == pytest.approx(100.0)


def test_nothing_is_trued_where_an_edge_runs_on(skirt: Garment) -> None:
    ends = {(end.join.name, end.at_start) for end in seam_ends(skirt)}
    assert ("upper_side", True) in ends and ("upper_side", False) not in ends
    assert not {("lower_side", True), ("lower_side", False), ("godet_front", True)} & ends


def test_pockets_come_before_the_side_and_godets_after_it(skirt: Garment, tmp_path: Path) -> None:
    order = [join.name for join in joins_in_order(skirt)]
    assert order == [
        "pocket_front", "pocket_back", "upper_side", "lower_side", "pocket", "godet_front", "godet_back",
    ]  # fmt: skip


def test_a_dart_lies_on_its_part_and_that_is_sewn_shorter(tmp_path: Path) -> None:
    dart = """piece front is half_skirt
    points
        inner  from hip: 8 cm inward, 20 cm down

    darts
        side_dart  on side: 15 mm wide at 40 cm from waist_side, to inner, trued
"""
    skirt = changed(tmp_path, ("piece front is half_skirt\n", dart))
    front = skirt.piece("front")
    (edge,) = [edge for edge in front.edges if takeups_of(front, edge)]
    (taken,) = takeups_of(front, edge)
    assert edge.name == "side from pocket_low to godet_top"
    (join,) = [join for join in skirt.joins if join.name == "lower_side"]
    assert side(skirt, join.first).length == pytest.approx(length(edge.segments) - taken.width, abs=1e-6)
    (notch,) = [notch for notch in front.notches if notch.strokes == 2]
    assert notch.at == pytest.approx(100.0, abs=0.5)


def test_trueing_an_end_redraws_the_whole_edge_in_the_plan(tmp_path: Path) -> None:
    skirt = changed(
        tmp_path,
        ("curve leaving across arriving square to side,", "curve leaving across,"),
        ("back.waist_side to back.pocket_top", "back.waist_side to back.pocket_top, trued over 3 cm"),
    )
    (join,) = [join for join in skirt.joins if join.name == "upper_side"]
    (end,) = [end for end in seam_ends(skirt) if end.join is join]
    assert np.abs(end.kink).max() < 0.05
    assert trued(skirt)[1] == (), "it is trued already"


def test_an_opening_begins_on_the_part_that_is_sewn(tmp_path: Path) -> None:
    skirt = changed(
        tmp_path,
        ("back.godet_top, notch at 50 %", "back.godet_top, open 5 cm from back.godet_top on the left for a slit"),
    )
    (join,) = [join for join in skirt.joins if join.name == "lower_side"]
    (gap,) = gaps(skirt, join)
    assert gap.at_end and gap.ends - gap.begins == pytest.approx(50.0)
