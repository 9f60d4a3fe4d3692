"""Work beside this process gives what it would have given here."""

from __future__ import annotations

import multiprocessing
import os
import signal
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from draft.base.aside import aside, each_aside
from draft.base.notes import Problems, error


def test_the_result_is_fetched() -> None:
    assert aside(lambda: sum(range(1000)))() == 499500


def test_several_results_are_fetched_while_it_goes_on(tmp_path: Path) -> None:
    def work() -> Iterator[object]:
        yield bytes(300_000)  # more than what waits for a reader where nothing is said about it
        (tmp_path / "went on").touch()
        yield "second"

    each = each_aside(work)
    first = next(each)
    while not (tmp_path / "went on").exists():
        time.sleep(0.01)
    assert [first, *each] == [bytes(300_000), "second"]


def test_what_was_given_before_it_was_ended_is_not_given_again() -> None:
    here = os.getpid()

    def work() -> Iterator[int]:
        yield 1
        if os.getpid() != here:
            os._exit(1)
        yield 2

    assert list(each_aside(work)) == [1, 2]


def test_problems_of_a_later_result_are_raised_where_that_is_fetched() -> None:
    def work() -> Iterator[int]:
        yield 1
        raise Problems([error("the cloth is too narrow")])

    each = each_aside(work)
    assert next(each) == 1
    with pytest.raises(Problems, match="the cloth is too narrow"):
        next(each)


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


def test_what_the_other_process_raises_is_raised_here_and_said_nowhere(capfd: pytest.CaptureFixture[str]) -> None:
    def work() -> int:
        raise MemoryError("here too")

    with pytest.raises(MemoryError, match="here too"):
        aside(work)()
    assert capfd.readouterr() == ("", "")


def test_the_keyboard_interrupts_only_whoever_began_the_work(capfd: pytest.CaptureFixture[str]) -> None:
    here = os.getpid()

    def work() -> int:
        if os.getpid() != here:
            os.kill(os.getpid(), signal.SIGINT)
        return os.getpid()

    assert (aside(work)() == here) is (aside(os.getpid)() == here)
    assert capfd.readouterr() == ("", "")


def test_where_no_process_can_be_begun_the_work_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> int:
        raise BlockingIOError(11, "Resource temporarily unavailable")

    monkeypatch.setattr(os, "fork", refuse)
    assert aside(lambda: 7)() == 7


def _numbers() -> list[int]:
    return [os.getpid(), aside(os.getpid)()]


def test_a_process_of_a_pool_does_all_itself() -> None:
    """Such processes may have no others: a shop's own program may make orders in them."""
    with multiprocessing.get_context("spawn").Pool(1) as pool:
        mine, beside = pool.apply(_numbers)
    assert mine == beside != os.getpid()
