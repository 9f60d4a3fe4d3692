"""The tutorial is true: each step's lines, put into the file as it says, draw its figure and bring its messages.

`pytest tests/tutorial --update` draws the figures anew and quotes the messages anew; read both before committing them.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from draft.answers.seam_walk import seam_report
from draft.base.notes import Note, Problems, Severity, show
from draft.drafting.checked import draft_and_check
from draft.drafting.drafting import Drafted
from draft.pack.printed_files import svg_files
from tests.asking import asked
from tests.rewriting import Rewriting
from tests.tutorial.reading import TUTORIAL, State, states

FIGURES = Path(__file__).parents[2] / "renders" / "tutorial"
NAME = "saltpan.piece"
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
LAST_DIGIT = 0.02  # mm: other versions of numpy round the last printed digit another way

STATES = tuple(states(TUTORIAL.read_text(encoding="utf-8")))
STEPS = {
    state.block.heading: state
    for state in STATES
    if re.match(r"\d+\. ", state.block.heading) and state.block.purpose in ("", "whole")
}
YOURS = tuple(state for state in STATES if state.block.purpose == "yours")
QUOTES = tuple(state for state in STATES if state.block.language == "text")
SIZES = ("M",)


def drafted_state(state: State, folder: Path, sizes: tuple[str, ...] | None = SIZES) -> Drafted:
    path = folder / NAME
    path.write_text(state.file, encoding="utf-8")
    return draft_and_check(asked(path, sizes=sizes))


def _notes(state: State, folder: Path) -> tuple[Note, ...]:
    try:
        return drafted_state(state, folder).notes
    except Problems as problems:
        return problems.notes


def _said(state: State, folder: Path) -> str:
    if state.block.purpose == "walk":
        return seam_report(drafted_state(state, folder, sizes=None).garment) + "\n"
    return show(_notes(state, folder)) + "\n"


def test_it_has_ten_steps() -> None:
    assert [heading.split(".")[0] for heading in STEPS] == [str(k) for k in range(1, 11)]


def draws_figure(drafted: Drafted, path: Path, tutorial: Path, rewrite: Rewriting) -> None:
    """Hold a step's figure to what is drawn, and the tutorial to its figure."""
    (drawn,) = svg_files(drafted.garment).values()
    rewrite(path, new := drawn.decode())
    kept = path.read_text(encoding="utf-8")
    assert NUMBER.sub("n", new) == NUMBER.sub("n", kept)
    pairs = zip(NUMBER.findall(new), NUMBER.findall(kept), strict=True)
    assert all(abs(float(a) - float(b)) <= LAST_DIGIT for a, b in pairs)
    assert f"](../renders/tutorial/{path.name})" in tutorial.read_text(encoding="utf-8")


@pytest.mark.parametrize("heading", STEPS)
def test_each_step_draws_its_figure(heading: str, tmp_path: Path, rewrite: Rewriting) -> None:
    path = FIGURES / f"step-{int(heading.split('.')[0]):02}.svg"
    draws_figure(drafted_state(STEPS[heading], tmp_path), path, TUTORIAL, rewrite)


def test_its_messages_are_what_is_said(tmp_path: Path, rewrite: Rewriting) -> None:
    text = TUTORIAL.read_text(encoding="utf-8")
    for state in reversed(QUOTES):
        text = text[: state.block.start] + _said(state, tmp_path) + text[state.block.end :]
    rewrite(TUTORIAL, text)
    assert text == TUTORIAL.read_text(encoding="utf-8")


@pytest.mark.parametrize("heading", [heading for heading in STEPS if not heading.startswith("3.")])
def test_nothing_is_said_against_a_step(heading: str, tmp_path: Path) -> None:
    assert _notes(STEPS[heading], tmp_path) == ()


def test_the_top_drafts_in_all_sizes(tmp_path: Path) -> None:
    found = drafted_state(STEPS[list(STEPS)[-1]], tmp_path, sizes=None)
    assert len(found.garment.sizes) == 7
    assert found.notes == ()


@pytest.mark.parametrize("state", YOURS, ids=lambda state: state.block.text.split("\n")[2].strip()[:24])
def test_what_is_proposed_at_the_end_can_be_drafted(state: State, tmp_path: Path) -> None:
    found = drafted_state(state, tmp_path, sizes=None)
    assert found.outcome.drafted.all()
    assert not [note for note in found.notes if note.severity is Severity.ERROR]


def test_mistakes_are_mistakes(tmp_path: Path) -> None:
    wrong = [state for state in STATES if state.block.purpose == "mistake"]
    assert len(wrong) == 2
    for state in wrong:
        assert any(note.severity is Severity.ERROR for note in _notes(state, tmp_path))
