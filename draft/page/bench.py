"""What a worker has at hand between two asks: what it has drafted lately, and the way back to who asks."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from dataclasses import field
from pathlib import Path
from typing import Any, TypeAlias, TypeVar

from draft.base.record import dataclass

T = TypeVar("T")
KEPT = 24
"""Things of one sort that a worker remembers: garments in a few styles, for some people."""

Asked: TypeAlias = Mapping[str, Any]
Gave: TypeAlias = dict[str, Any]


def _nobody(*said: object) -> None:
    pass


@dataclass
class Bench:
    """A worker's own place: `keep` remembers, `step` says how far a long ask is, `hand_over` gives a file.

    `people` is the folder of measures that are kept, and `file` the pattern that a designer opened; None where there
    is none.
    """

    people: Path | None = None
    file: Path | None = None
    step: Callable[[str], object] = _nobody
    hand_over: Callable[[str, bytes], object] = _nobody
    _shelves: dict[Hashable, OrderedDict[Hashable, Any]] = field(default_factory=dict)

    def keep(self, key: Hashable, make: Callable[[], T]) -> T:
        """What was made under this key, or is made now; a key's first part is its sort, of which the oldest goes."""
        shelf = self._shelves.setdefault(key[0] if isinstance(key, tuple) else key, OrderedDict())
        if key in shelf:
            shelf.move_to_end(key)
        else:
            shelf[key] = make()
            while len(shelf) > KEPT:
                shelf.popitem(last=False)
        found: T = shelf[key]
        return found


Verb: TypeAlias = Callable[[Asked, Bench], Gave]
