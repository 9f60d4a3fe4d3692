"""Many pieces at once, with a general solver where one is installed: the optional extra `nest`.

The solver works on single cloth, asks a clock, and is not trusted: its lay is settled again by our own no-fit regions,
which gives exact places on the true width, and is verified like every other. Its traps, as measured: a piece exactly
as wide as the cloth stops it, and two that fit exactly side by side double the length, so it is given a ten-thousandth
more width. It works in a process of its own, for the reasons in `nest_worker`.
"""

from __future__ import annotations

import contextlib
import json
import subprocess
import sys
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from draft.cloth.bolt import Cloth
from draft.cloth.effort import Effort
from draft.cloth.layout import Layout, Strip
from draft.cloth.lays import layout_of
from draft.cloth.parts import Part
from draft.cloth.settle import Wanted, settle
from draft.cloth.shapes import Block, Shape, Shelf, open_blocks
from draft.cloth.verify import faults

INSTALL = "pip install 'plainseam[nest]'"
_WIDER = 1.0001
_SEED = 1
_LISTEN = 0.2
_WORKER = Path(__file__).with_name("nest_worker.py")


def installed() -> bool:
    """Whether the general solver is there."""
    return find_spec("spyrrow") is not None


def nested(parts: Sequence[Part], cloth: Cloth, effort: Effort, shelf: Shelf) -> Layout | None:
    """An open lay by the general solver, settled and verified; None where it found nothing that can be cut."""
    blocks = open_blocks(parts, shelf, cloth.one_way)
    answer = _solve(blocks, cloth.usable, effort)
    if answer is None:
        return None
    wanted = sorted((_wanted(blocks, placed, cloth.usable) for placed in answer), key=lambda one: (one.y, one.x))
    laid = settle(wanted, cloth.usable, shelf)
    if laid is None:
        return None
    layout = layout_of("open", cloth.usable, [(Strip(0.0, cloth.usable), laid)], effort)
    return None if faults(layout, parts) else layout


@dataclass(frozen=True)
class _Placed:
    """One item as the solver has placed it: turned by 0 or 180 degrees, then moved along and across its strip."""

    block: int
    turned: bool
    along: float
    across: float


def _solve(blocks: Sequence[Block], width: float, effort: Effort) -> list[_Placed] | None:
    """The solver's best lay, or its best so far once a person has stopped the search; None where it has none."""
    items = [_item(number, block) for number, block in enumerate(blocks)]
    question = {"width": width * _WIDER, "seconds": effort.outside, "seed": _SEED, "items": items}
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
        _ask(worker, question)
        while reader.is_alive() and not effort.stopped:
            reader.join(_LISTEN)
        worker.kill()
        reader.join()
    return _read(lines[-1]) if lines else None


def _ask(worker: subprocess.Popen[str], question: object) -> None:
    assert worker.stdin
    with contextlib.suppress(OSError):  # a worker that has died already answers nothing
        worker.stdin.write(json.dumps(question))
        worker.stdin.close()


def _read(line: str) -> list[_Placed]:
    return [_Placed(int(id_), abs(turn) > 90.0, along, across) for id_, turn, along, across in json.loads(line)]


def _item(number: int, block: Block) -> dict[str, object]:
    """The first shape of a block as the solver wants it: along the strip, then across; turned end for end or not."""
    points = [(float(y), float(-x)) for x, y in block.shapes[0].ring]
    turns = [0.0, 180.0][: len(block.shapes)]
    return {"id": str(number), "points": points, "count": block.count, "turns": turns}


def _wanted(blocks: Sequence[Block], placed: _Placed, width: float) -> Wanted:
    """Where a placed item lies on our strip, as a move of the block's own shape."""
    shapes = blocks[placed.block].shapes
    shape: Shape = shapes[1 if placed.turned else 0]
    ring = shapes[0].ring * (-1.0 if placed.turned else 1.0)
    low = ring.min(axis=0) - shape.ring.min(axis=0)
    return Wanted(placed.block, shape, width - placed.across + float(low[0]), placed.along + float(low[1]))
