"""A journal gives back what was written down, wherever it was cut off."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.orders.journal import FILE, Begun, Journal
from tests.orders.worked import answered, orders

BEGUN = Begun("1", {"top/top.piece": "ab"}, 5, "cd")
MADE = [answered(one).became for one in orders(5)]


def _written(folder: Path) -> bytes:
    journal = Journal(folder)
    journal.begin(BEGUN)
    for one in MADE:
        journal.add(one)
    journal.close()
    return (folder / FILE).read_bytes()


def test_what_is_written_is_read_again(tmp_path: Path) -> None:
    whole = _written(tmp_path)
    again = Journal(tmp_path)
    assert again.begun == BEGUN and list(again.became.values()) == MADE and not again.damaged
    assert again.in_order(one.key for one in MADE) == whole
    again.close()


@settings(max_examples=25, deadline=None)
@given(st.floats(0, 1))
def test_cut_off_anywhere_the_whole_lines_stand_and_it_goes_on(tmp_path_factory, share: float) -> None:
    folder = tmp_path_factory.mktemp("cut")
    whole = _written(folder)
    cut = whole[: int(share * len(whole))]
    (folder / FILE).write_bytes(cut)
    again = Journal(folder)
    lines = cut.count(b"\n")
    assert (again.begun == BEGUN) == (lines > 0) and list(again.became.values()) == MADE[: max(lines - 1, 0)]
    again.begin(BEGUN)
    for one in MADE[max(lines - 1, 0) :]:
        again.add(one)
    again.close()
    assert (folder / FILE).read_bytes() == whole


def test_a_line_that_was_changed_is_as_if_it_were_not_there(tmp_path: Path) -> None:
    whole = _written(tmp_path)
    (tmp_path / FILE).write_bytes(whole.replace(b'"key":"A-1"', b'"key":"A-9"'))
    again = Journal(tmp_path)
    assert again.damaged == 1 and [*again.became] == ["A-0", "A-2", "A-3", "A-4"]
    again.close()


def test_another_file_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text("dear diary\nnothing\n")
    with pytest.raises(Problems):
        Journal(tmp_path)
    assert (tmp_path / FILE).read_text() == "dear diary\nnothing\n"
