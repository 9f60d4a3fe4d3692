"""Darts across which an edge is trued: seams still walk, and nothing is bent once they are closed."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from draft.base.notes import Severity
from draft.checks.dart_legs import check
from draft.drafting.checked import draft_and_check
from draft.garment.garment import Garment
from draft.geometry.length import length, point_at
from draft.seams.walk import walk_seams
from tests.asking import asked

PATTERN = Path(__file__).parents[1] / "good" / "trued_darts.piece"


@pytest.fixture(scope="module")
def skirt() -> Garment:
    return draft_and_check(asked(PATTERN)).garment


def without_trueing(folder: Path) -> Garment:
    path = folder / "plain.piece"
    path.write_text(re.sub(r", trued.*", "", PATTERN.read_text(encoding="utf-8")), encoding="utf-8")
    (folder / "sizes.csv").write_bytes((PATTERN.parent / "sizes.csv").read_bytes())
    return draft_and_check(asked(path)).garment


def test_the_band_is_as_long_as_the_waist_once_the_darts_are_closed(skirt: Garment) -> None:
    (walked,) = walk_seams(skirt)
    assert np.abs(walked.difference).max() < 1e-6


def test_the_edge_runs_on_across_trued_darts_and_is_bent_without(skirt: Garment, tmp_path: Path) -> None:
    remarks = check(skirt)
    assert {note.severity for note in remarks} == {Severity.REMARK}
    assert remarks[0].message == "`front.one` is trued as it lies when it is pressed towards `side`"
    plain = without_trueing(tmp_path)
    assert {note.message.split(",")[0] for note in check(plain)} == {
        "`front.waist` is bent once `one` is closed",
        "`front.waist` is bent once `two` is closed",
        "the legs of `front.one` differ",
    }
    drawn, bent = (length(garment.piece("front").edge("waist").segments) for garment in (skirt, plain))
    assert np.all(drawn > bent)  # it rises to its peaks


def test_a_notch_on_such_an_edge_stays_where_it_was(skirt: Garment, tmp_path: Path) -> None:
    plain = without_trueing(tmp_path)
    places = [
        point_at(garment.piece("front").edge("waist").segments, garment.piece("front").notches[0].at)
        for garment in (skirt, plain)
    ]
    assert np.abs(places[0] - places[1]).max() < 2.0
