"""A worker of a batch: it is told where the inputs lie, then makes one order after the other, and ends with its parent.

What goes wrong in an order is told as that order's; what breaks the process is seen by its parent, which starts
another. A pack is made in this one process: each of several workers has a core of its own.
"""

from __future__ import annotations

import gc
import os
import sys
from dataclasses import replace
from typing import TYPE_CHECKING, Any, BinaryIO

from draft.base.aside import in_this_process
from draft.base.framing import Message, file_message
from draft.base.worker_ways import end_with_parent, heard, limit, put, say, streams, where_broken
from draft.orders.became import Refused, became_data

if TYPE_CHECKING:
    from draft.orders.order_made import Packed, Plans

BROKE = "something broke that should not have"


def main() -> None:
    """Work until there are no more orders."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    limit(int(sys.argv[1]))
    asks, answers = streams()
    end_with_parent()
    in_this_process()
    gc.set_threshold(100_000, 50, 50)
    from draft.orders.order_made import Plans  # heavy: numpy and all rooms

    gc.freeze()
    given = heard(asks)
    if not isinstance(given, dict):
        return
    say(answers, {"ready": True})
    plans = Plans()
    while isinstance(ask := heard(asks), dict):
        _answer(ask, given, plans, answers)


def _answer(ask: Message, given: Message, plans: Plans, answers: BinaryIO) -> None:
    packed = _tried(ask, given, plans)
    if isinstance(packed, Refused):
        say(answers, became_data(packed))
        return
    for name, data in packed.files.items():
        put(answers, file_message(name, data))
    say(answers, became_data(packed.made))


def _tried(ask: Message, given: Message, plans: Plans) -> Packed | Refused:
    key = str(ask.get("key", ""))
    try:
        return _made(ask, given, plans)
    except MemoryError:
        return Refused(key, ("this takes more memory than a worker has",), why="broke")
    except (OSError, RecursionError) as reason:
        words = getattr(reason, "strerror", None) or type(reason).__name__
        return Refused(key, (f"the system refused something: {str(words).lower()}",), why="broke")
    except Exception as reason:  # a fault of ours: told by its name alone, for what it says may hold measures
        return Refused(key, (f"{BROKE} ({where_broken(reason)})",), ("report it, please",), "broke")


def _made(ask: Message, given: Message, plans: Plans) -> Packed | Refused:
    from draft.base.notes import Problems
    from draft.orders.order_data import order_from
    from draft.orders.order_made import pack_order

    try:
        order = order_from(ask)
    except Problems as problems:
        return Refused(str(ask.get("key", "")), tuple(note.message for note in problems.notes))
    pattern: Any = given["patterns"].get(order.pattern, order.pattern)
    cloth: Any = given["cloths"].get(order.cloth, order.cloth)
    return pack_order(replace(order, pattern=pattern, cloth=cloth), plans, called=order.pattern)


if __name__ == "__main__":
    main()
