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
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from draft.cloth.batches import Batch, Shape, Shelf, open_batches
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece
from draft.cloth.effort import Effort
from draft.cloth.lay import Lay, Strip
from draft.cloth.lay_near import Wanted, lay_near
from draft.cloth.lays import lay_of
from draft.cloth.settled import settled
from draft.cloth.shortest import MANY_PLACES, are_many
from draft.cloth.verify import faults

INSTALL = "pip install 'plainseam[nest]'"
ROUND = 5.0
"""Outlines of many pieces grow by up to so many mm for the solver."""
_WIDER = 1.0001
_SEED = 1
_LISTEN = 0.2
_WORKER = Path(__file__).with_name("nest_worker.py")


def installed() -> bool:
    """Whether the general solver is there."""
    return find_spec("spyrrow") is not None


def nested(cut_pieces: Sequence[CutPiece], cloth: Cloth, effort: Effort, shelf: Shelf) -> Lay | None:
    """An open lay by the general solver, settled and verified; None where it found nothing that can be cut.

    Of many pieces the solver is given rounder outlines, so that its seconds suffice; settling takes that back.
    """
    many = are_many(cut_pieces)
    batches = open_batches(cut_pieces, Shelf(ROUND) if many else shelf, cloth.one_way)
    answer = _solve(batches, cloth.usable, effort)
    if answer is None:
        return None
    wanted = sorted((_wanted(batches, placed, cloth.usable) for placed in answer), key=lambda one: (one.y, one.x))
    laid = settled(wanted, cloth.usable, shelf) if many else lay_near(wanted, cloth.usable, shelf)
    if laid is None:
        return None
    lay = lay_of("open", cloth.usable, [(Strip(0.0, cloth.usable), laid)], effort)
    return None if faults(lay, cut_pieces) else lay


@dataclass(frozen=True)
class _Placed:
    """One item as the solver has placed it: turned by 0 or 180 degrees, then moved along and across its strip."""

    batch: int
    turned: bool
    along: float
    across: float


def _solve(batches: Sequence[Batch], width: float, effort: Effort) -> list[_Placed] | None:
    """The solver's best lay, or its best so far once a person has stopped the search; None where it has none."""
    items = [_item(number, batch) for number, batch in enumerate(batches)]
    question = {
        "width": width * _WIDER,
        "seconds": effort.outside,
        "seed": _SEED,
        "workers": _workers(batches),
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
            while reader.is_alive() and not effort.stopped:
                reader.join(_LISTEN)
        finally:
            worker.kill()  # also where the keyboard ends the program: leaving this block waits for the worker
        reader.join()
    return _read(lines[-1]) if lines else None


def _workers(batches: Sequence[Batch]) -> int:
    """Threads of the solver: of many pieces, two where there are two cores."""
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
