"""From a block to a garment: each step draws its figure, its seams fit, and what it proposes can be drafted."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from draft.base.notes import Severity
from draft.drafting.drafting import Drafted
from draft.seams.walk import walk_seams
from tests.rewriting import Rewriting
from tests.tutorial.reading import BLOCKS, State, states
from tests.tutorial.test_tutorial import FIGURES, drafted_state, draws_figure

STATES = tuple(states(BLOCKS.read_text(encoding="utf-8")))
STEPS = {state.block.heading: state for state in STATES if state.block.purpose in ("", "whole")}
YOURS = tuple(state for state in STATES if state.block.purpose == "yours")


def _about(state: State) -> str:
    """The move that a proposal is about, or else its heading."""
    return str([*re.findall(r"close.*|slash.*", state.block.text), state.block.heading][0])


@pytest.mark.parametrize("heading", STEPS)
def test_each_step_draws_its_figure(heading: str, tmp_path: Path, rewrite: Rewriting) -> None:
    path = FIGURES / f"block-{int(heading.split('.')[0])}.svg"
    draws_figure(drafted_state(STEPS[heading], tmp_path), path, BLOCKS, rewrite)


@pytest.mark.parametrize("heading", STEPS)
def test_its_seams_fit_in_every_size(heading: str, tmp_path: Path) -> None:
    found = drafted_state(STEPS[heading], tmp_path, sizes=None)
    assert len(found.garment.sizes) == 7
    assert not _errors(found)
    assert max(float(abs(walked.difference).max()) for walked in walk_seams(found.garment)) < 0.01


@pytest.mark.parametrize("state", YOURS, ids=lambda state: _about(state)[:32])
def test_what_is_proposed_can_be_drafted(state: State, tmp_path: Path) -> None:
    found = drafted_state(state, tmp_path, sizes=None)
    assert found.outcome.drafted.all()


def _errors(drafted: Drafted) -> list[str]:
    return [note.message for note in drafted.notes if note.severity is Severity.ERROR]
