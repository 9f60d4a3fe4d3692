"""Batches worked without drafting: each order gets a small pack that follows from it, so that many stops are tried."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Iterator
from pathlib import Path

from draft.orders.became import ClothLength, Made, MadeFile, Refused
from draft.orders.hands import Answer
from draft.orders.kept_inputs import Kept
from draft.orders.one_order import Order

KEPT = Kept({"pattern-0/top.piece": b"pattern top"}, {"top": "pattern-0/top.piece"})


def orders(count: int) -> list[Order | Refused]:
    """Orders, every seventh of which cannot be read."""
    return [
        Refused(f"A-{k}", ("no such style",)) if k % 7 == 6 else Order(f"A-{k}", "top", {"bust": f"{90 + k} cm"})
        for k in range(count)
    ]


def answered(order: Order) -> Answer:
    """Every fifth is refused; a pack has two files."""
    if int(order.key.rpartition("-")[2]) % 5 == 4:
        return Answer(Refused(order.key, ("it does not fit",), ("take another",)), {})
    files = {"pattern.pdf": f"plainseam {order.key}".encode(), "svg/one.svg": order.key.encode() * 9}
    listed = tuple(MadeFile(name, len(data), hashlib.sha256(data).hexdigest()) for name, data in files.items())
    made = Made(order.key, order.key, listed, {"a4": 3}, (ClothLength("", 1400.0, 900.0),), ("stature",), ("mind it",))
    return Answer(made, files)


def at_once(kept: Kept, some: Iterable[Order]) -> Iterator[Answer]:
    """All of them, in their order."""
    return map(answered, some)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below a folder, and every folder, by its place there."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else b""
        for path in sorted(folder.rglob("*"))
    }
