"""Effort is counted, not timed; and a person may stop a search and keep what was found."""

import signal

import pytest

from draft.base.units import MM_PER_INCH
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort, effort, stoppable
from draft.cloth.lays import lay_as
from draft.cloth.verify import faults
from tests.cloth.made_up import top

CLOTH = Cloth(58 * MM_PER_INCH)


def test_more_effort_never_needs_more_cloth():
    lengths = [lay_as("open", top(), CLOTH, Effort(looks, 2), Shelf()).length for looks in (5, 50, 500, 3000)]
    assert lengths == sorted(lengths, reverse=True)


def test_the_names_of_effort():
    quick, usual, long = (effort(name) for name in ("quick", "usual", "long"))
    assert quick.looks < usual.looks < long.looks and quick.places <= usual.places <= long.places
    assert not quick.outside and not usual.outside and long.outside


def test_a_stopped_search_still_lays_everything_once():
    spent = effort("usual")
    spent.stop.set()
    lay = lay_as("open", top(), CLOTH, spent, Shelf())
    assert lay.stopped and len(lay.copies()) == 5


def test_the_first_interrupt_only_stops_the_search_and_a_second_ends_the_program():
    before = signal.getsignal(signal.SIGINT)
    spent = effort("usual")
    with pytest.raises(KeyboardInterrupt), stoppable(spent):
        signal.raise_signal(signal.SIGINT)
        assert spent.stopped
        signal.raise_signal(signal.SIGINT)
    assert signal.getsignal(signal.SIGINT) is before


def test_a_search_stopped_midway_keeps_the_best_so_far(monkeypatch):
    """The keyboard's interrupt arrives while the tree is walked."""
    from draft.cloth import search

    spent, looked = effort("usual"), []
    places = search.lowest_of

    def interrupted(*args):
        looked.append(1)
        if len(looked) == 40:
            signal.raise_signal(signal.SIGINT)
        return places(*args)

    monkeypatch.setattr(search, "lowest_of", interrupted)
    cut_pieces = top()
    with stoppable(spent):
        lay = lay_as("open", cut_pieces, CLOTH, spent, Shelf())
    assert lay.stopped and faults(lay, cut_pieces) == [] and len(looked) < 400
