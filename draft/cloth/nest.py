"""Many pieces at once, with a general solver where one is installed: the optional extra `nest`.

The solver works on single cloth, asks a clock, and is not trusted: its lay is settled again by our own no-fit regions,
which gives exact places on the true width, and is verified like every other. Its traps, as measured: a piece exactly
as wide as the cloth stops it, and two that fit exactly side by side double the length, so it is given a ten-thousandth
more width; what it dislikes it reports by an exception outside of `Exception`; and it does not hear the keyboard, so it
works in a thread.
"""

from __future__ import annotations

import threading
from collections.abc import Sequence
from dataclasses import dataclass, field
from importlib.util import find_spec
from typing import Any

import numpy as np
from numpy.typing import NDArray

from draft.cloth.effort import Effort
from draft.cloth.fabric import Cloth
from draft.cloth.layout import Layout, Strip
from draft.cloth.lays import layout_of
from draft.cloth.parts import Part
from draft.cloth.settle import Wanted, settle
from draft.cloth.shapes import Block, Shape, Shelf, open_blocks
from draft.cloth.verify import faults

Floats = NDArray[np.float64]

INSTALL = "pip install 'plainseam[nest]'"
_WIDER = 1.0001
_SEED = 1
_LISTEN = 0.2


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


@dataclass
class _Job:
    """What the solver's thread leaves behind."""

    placed: list[Any] = field(default_factory=list)
    done: threading.Event = field(default_factory=threading.Event)


def _solve(blocks: Sequence[Block], width: float, effort: Effort) -> list[Any] | None:
    """The solver's placed items, or those of its best report so far once a person has stopped the search."""
    import spyrrow

    items = [_item(spyrrow, number, block) for number, block in enumerate(blocks)]
    queue, job = spyrrow.ProgressQueue(), _Job()
    config = spyrrow.StripPackingConfig(total_computation_time=effort.outside, num_workers=1, seed=_SEED)

    def work() -> None:
        try:
            instance = spyrrow.StripPackingInstance("lay", width * _WIDER, items)
            job.placed = list(instance.solve(config, queue).placed_items)
        except BaseException:  # the solver's own kind of panic is no Exception
            job.placed = []
        finally:
            job.done.set()

    threading.Thread(target=work, daemon=True).start()
    best: list[Any] = []
    while not job.done.wait(_LISTEN) and not effort.stopped:
        for kind, report in queue.drain():
            if kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas):
                best = list(report.placed_items)
    return (job.placed if job.done.is_set() else best) or None


def _item(spyrrow: Any, number: int, block: Block) -> Any:
    """The first shape of a block as the solver wants it: along the strip, then across; turned end for end or not."""
    ring = block.shapes[0].ring
    points = [(float(y), float(-x)) for x, y in ring]
    return spyrrow.Item(str(number), points, block.count, [0.0, 180.0][: len(block.shapes)])


def _wanted(blocks: Sequence[Block], placed: Any, width: float) -> Wanted:
    """Where a placed item lies on our strip, as a move of the block's own shape."""
    number = int(placed.id)
    turned = abs(float(placed.rotation)) > 90.0
    block = blocks[number]
    shape: Shape = block.shapes[1 if turned else 0]
    ring = block.shapes[0].ring * (-1.0 if turned else 1.0)
    low = ring.min(axis=0) - shape.ring.min(axis=0)
    along, across = placed.translation
    return Wanted(number, shape, width - float(across) + float(low[0]), float(along) + float(low[1]))
