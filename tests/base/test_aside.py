"""Work beside this process gives what it would have given here."""

from __future__ import annotations

import os

import pytest

from draft.base.aside import aside
from draft.base.notes import Problems, error


def test_the_result_is_fetched() -> None:
    assert aside(lambda: sum(range(1000)))() == 499500


def test_problems_are_raised_where_it_is_fetched() -> None:
    def work() -> int:
        raise Problems([error("the cloth is too narrow")])

    with pytest.raises(Problems, match="the cloth is too narrow") as caught:
        aside(work)()
    assert caught.value.notes[0].message == "the cloth is too narrow"


def test_work_that_was_ended_from_outside_is_done_here() -> None:
    here = os.getpid()

    def work() -> int:
        if os.getpid() != here:
            os._exit(1)
        return 7

    assert aside(work)() == 7
