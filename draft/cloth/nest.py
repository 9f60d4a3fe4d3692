"""Many pieces at once, with a general solver where one is installed: the optional extra `nest`.

The solver works on single cloth, asks a clock, and is not trusted: its lay is settled again by our own no-fit regions,
which gives exact places on the true width, and is verified like every other. Its traps, as measured: a piece exactly
as wide as the cloth stops it, and two that fit exactly side by side double the length, so it is given a ten-thousandth
more width. It works in a process of its own, for the reasons in `nest_worker`.
"""

from __future__ import annotations

import contextlib
import json
import os
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from importlib.util import find_spec
from pathlib import Path

from draft.base.record import dataclass
from draft.cloth.batches import Batch, Shape, Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.compacted import compacted
from draft.cloth.compacted import installed as compacted_there
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.laid_beside import laid_beside
from draft.cloth.lay import Folding, Lay, Strip
from draft.cloth.lay_near import Wanted, lay_near
from draft.cloth.lays import lay_of
from draft.cloth.many_pieces import column_step
from draft.cloth.search import StripLay
from draft.cloth.settled import as_wanted, settled
from draft.cloth.shortest import MANY_PLACES, are_many
from draft.cloth.twins import opened, twins_of
from draft.cloth.verify import faults

INSTALL = "pip install 'plainseam[nest]'"
_ROUND, _ROUNDER = 3.0, 5.0
"""Outlines of many pieces grow by up to so many mm for the solver, and by more where it is to find many places."""
_MOST_ROUND = 80
_WIDER = 1.0001
_SEED = 1
_LISTEN = 0.2
_WORKER = Path(__file__).with_name("nest_worker.py")


def installed() -> bool:
    """Whether the general solver is there."""
    return find_spec("spyrrow") is not None


def nested(cut_pieces: Sequence[CutPiece], cloth: Cloth, effort: Effort, shelf: Shelf) -> Lay | None:
    """An open lay by the general solver, settled and verified; None where it found nothing that can be cut.

    Of many pieces the solver is given rounder outlines, and where it can be half of them on half of the cloth, so that
    its seconds suffice; where the library for it is there all pieces are moved together once more.
    """
    with Solving(cut_pieces, cloth, effort, shelf) as solving:
        return solving.lay()


class Solving:
    """The solver at work on an open lay beside the program, from when this is made until its lay is asked for.

    Where one half of the cloth mirrors the other and `foldings` has it, the lay is told as one of cloth folded once.
    Within `with` it is ended at last, whatever happens.
    """

    def __init__(
        self,
        cut_pieces: Sequence[CutPiece],
        cloth: Cloth,
        effort: Effort,
        shelf: Shelf,
        foldings: Sequence[Folding] = ("open",),
    ) -> None:
        self._folded = "one fold" in foldings
        self._many, self._cut_pieces, self._cloth, self._shelf = are_many(cut_pieces), cut_pieces, cloth, shelf
        self._twins = twins_of(cut_pieces, shelf, cloth.one_way, cloth.usable) if self._many else None
        self._width = cloth.usable / 2 if self._twins else cloth.usable
        self._batches = self._asked()
        self._effort, self._left = effort, threading.Event()
        self._answer: list[_Placed] | None = None
        self._thread = threading.Thread(target=self._work, daemon=True)
        self._thread.start()

    def _asked(self) -> Sequence[Batch]:
        """What the solver is to find places for, of many pieces by rounder outlines."""
        cut_pieces, one_way = self._cut_pieces, self._cloth.one_way
        if not self._many:
            return open_batches(cut_pieces, self._shelf, one_way)
        own = self._twins.batches if self._twins else open_batches(cut_pieces, self._shelf, one_way)
        round_ = Shelf(_ROUND if sum(batch.count for batch in own) <= _MOST_ROUND else _ROUNDER)
        return [
            Batch(tuple(round_.shape(one.cut_piece, one.across, one.along) for one in batch.shapes), batch.count)
            for batch in own
        ]

    def __enter__(self) -> Solving:
        return self

    def __exit__(self, *reason: object) -> None:
        self._left.set()
        self._thread.join()

    def _work(self) -> None:
        seconds, workers = self._effort.outside, _workers(self._batches)
        with contextlib.suppress(OSError):  # a process that cannot be started finds nothing
            self._answer = _solve(self._batches, self._width, seconds, workers, self._is_done)

    def _is_done(self) -> bool:
        return self._effort.stopped or self._left.is_set()

    def lay(self) -> Lay | None:
        """Its lay settled and verified, once it has ended; None where it found nothing that can be cut."""
        if self._many and compacted_there():
            import scipy.optimize  # noqa: F401  while there is time: it takes some
        while self._thread.is_alive():
            self._thread.join(_LISTEN)  # a wait without an end hears no keyboard where the system wakes another thread
        if self._answer is None:
            return None
        wanted = [_wanted(self._batches, placed, self._width) for placed in self._answer]
        wanted.sort(key=lambda one: (one.y, one.x))
        found = (lay for lay in self._laid(wanted) if lay and not faults(lay, self._cut_pieces))
        return next(found, None)

    def _laid(self, wanted: Sequence[Wanted]) -> Iterator[Lay | None]:
        """What may be made of where the solver has laid the shapes, the likely shortest first."""
        width, shelf = self._width, self._shelf
        if not self._many:
            near = lay_near(wanted, width, shelf)
            yield self._open(near) if near else None
            return
        if compacted_there():
            yield self._whole(compacted(StripLay.of(as_wanted(wanted, width, shelf)), width, shelf))
        yield self._whole(settled(wanted, width, shelf))

    def _whole(self, laid: StripLay) -> Lay | None:
        """The lay of all of the cloth that one of its half makes, with what has no twin beside it."""
        if not self._twins:
            return self._open(laid)
        width, shelf, left = self._cloth.usable, self._shelf, self._twins.left
        if self._folded and not left:
            return lay_of("one fold", width, [(Strip(0.0, width / 2, fold=width / 2), laid)], self._effort)
        puts = opened(laid.puts, width, shelf)
        beside = laid_beside(puts, left, width, column_step(width, self._cut_pieces)) if left else puts
        if beside is None:
            return None
        whole = StripLay.of(beside)
        return self._open(compacted(whole, width, shelf) if left and compacted_there() else whole)

    def _open(self, laid: StripLay) -> Lay:
        return lay_of("open", self._cloth.usable, [(Strip(0.0, self._cloth.usable), laid)], self._effort)


@dataclass(frozen=True)
class _Placed:
    """One item as the solver has placed it: turned by 0 or 180 degrees, then moved along and across its strip."""

    batch: int
    turned: bool
    along: float
    across: float


def _solve(
    batches: Sequence[Batch], width: float, seconds: float, workers: int = 1, done: Callable[[], bool] = bool
) -> list[_Placed] | None:
    """The solver's best lay, or its best so far once it is to be done; None where it has none."""
    items = [_item(number, batch) for number, batch in enumerate(batches)]
    question = {
        "width": width * _WIDER,
        "seconds": seconds,
        "seed": _SEED,
        "workers": workers,
        "items": items,
        "parent": os.getpid(),
    }
    lines: list[str] = []
    with subprocess.Popen(
        [sys.executable, str(_WORKER)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        start_new_session=True,  # so that the keyboard's interrupt reaches us alone
    ) as worker:
        reader = threading.Thread(target=lambda: lines.extend(worker.stdout or ()), daemon=True)
        reader.start()
        try:
            _ask(worker, question)
            while reader.is_alive() and not done():
                reader.join(_LISTEN)
        finally:
            worker.kill()  # also where the keyboard ends the program: leaving this block waits for the worker
        reader.join()
    return _read(lines[-1]) if lines else None


def _workers(batches: Sequence[Batch]) -> int:
    """Threads of the solver: of many pieces two, where there are two cores, though our own search wants one of them."""
    return min(os.cpu_count() or 1, 2) if sum(batch.count for batch in batches) > MANY_PLACES else 1


def _ask(worker: subprocess.Popen[str], question: object) -> None:
    assert worker.stdin
    with contextlib.suppress(OSError):  # a worker that has died already answers nothing
        worker.stdin.write(json.dumps(question))
        worker.stdin.close()


def _read(line: str) -> list[_Placed]:
    return [_Placed(int(id_), abs(turn) > 90.0, along, across) for id_, turn, along, across in json.loads(line)]


def _item(number: int, batch: Batch) -> dict[str, object]:
    """The first shape of a batch as the solver wants it: along the strip, then across; turned end for end or not."""
    points = [(float(y), float(-x)) for x, y in batch.shapes[0].ring]
    turns = [0.0, 180.0][: len(batch.shapes)]
    return {"id": str(number), "points": points, "count": batch.count, "turns": turns}


def _wanted(batches: Sequence[Batch], placed: _Placed, width: float) -> Wanted:
    """Where a placed item lies on our strip, as a move of the batch's own shape."""
    shapes = batches[placed.batch].shapes
    shape: Shape = shapes[1 if placed.turned else 0]
    ring = shapes[0].ring * (-1.0 if placed.turned else 1.0)
    low = ring.min(axis=0) - shape.ring.min(axis=0)
    return Wanted(placed.batch, shape, width - placed.across + float(low[0]), placed.along + float(low[1]))
