"""The roomiest setting of a section with which it takes no more pages than with the closest one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

Size = TypeVar("Size")
Made = TypeVar("Made")


def roomiest(sizes: Sequence[Size], make: Callable[[Size], Made], pages: Callable[[Made], float]) -> Made:
    """What is made of the first size that takes as few pages as the last; of sizes that become smaller and smaller."""
    closest = make(sizes[-1])
    fewest = pages(closest)
    wider = (make(size) for size in sizes[:-1])
    return next((made for made in wider if pages(made) <= fewest), closest)
