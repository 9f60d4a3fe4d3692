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
"""Things of all sorts that a worker remembers: a garment in a few styles, for two people."""

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
    _kept: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)

    def keep(self, key: Hashable, make: Callable[[], T]) -> T:
        """What was made under this key, made now if it is not remembered; the oldest is forgotten."""
        if key in self._kept:
            self._kept.move_to_end(key)
        else:
            self._kept[key] = make()
            while len(self._kept) > KEPT:
                self._kept.popitem(last=False)
        found: T = self._kept[key]
        return found


Verb: TypeAlias = Callable[[Asked, Bench], Gave]
