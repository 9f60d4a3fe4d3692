"""What was found of the same arrays before is given again: a draft asks for the length of one edge many times.

Arrays are the same where every number in them is: a few numbers tell where to look, and all are compared. They are of
floats, as all of this room's are.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from threading import Lock
from typing import Any, ParamSpec, TypeVar

import numpy as np

from draft.base.arrays import Floats

Given = ParamSpec("Given")
Found = TypeVar("Found")

MOST_BYTES = 1 << 24
"""Of arrays given and found, for each function: those of some hundred edges of a study's lot."""
PLACES = 5
"""Numbers of an array that tell it from most others."""

Key = tuple[object, ...]


def known_again(find: Callable[Given, Found]) -> Callable[Given, Found]:
    """A function of arrays, whose results are arrays or tuples of them, that finds nothing twice while it is kept.

    It gives what the function would, to the last bit, in arrays of the caller's own.
    """
    memory = _Memory()

    @wraps(find)
    def again(*given: Given.args, **named: Given.kwargs) -> Found:
        if named:
            return find(*given, **named)
        key = tuple(_told(one) for one in given)
        found = memory.of(key, given)
        if found is None:
            found = find(*given, **named)
            memory.keep(key, given, found)
        copied: Found = _own(found)
        return copied

    return again


class _Memory:
    def __init__(self) -> None:
        self._kept: dict[Key, tuple[tuple[Any, ...], Any, int]] = {}
        self._bytes = 0
        self._lock = Lock()

    def of(self, key: Key, given: tuple[Any, ...]) -> Any:
        """What was found of the same; None where nothing was."""
        with self._lock:
            kept = self._kept.get(key)
            if kept is None or not all(_same(one, other) for one, other in zip(kept[0], given, strict=True)):
                return None
            self._kept[key] = self._kept.pop(key)  # asked for last, given up last
            return kept[1]

    def keep(self, key: Key, given: tuple[Any, ...], found: Any) -> None:
        """Keep it in the place of another of that key, and of those that nobody has asked for longest."""
        own = _own(given)
        size = _size(own) + _size(found)
        if size > MOST_BYTES // 8:
            return
        with self._lock:
            self._drop(key)
            self._kept[key] = own, _own(found), size
            self._bytes += size
            while self._bytes > MOST_BYTES:
                self._drop(next(iter(self._kept)))

    def _drop(self, key: Key) -> None:
        before = self._kept.pop(key, None)
        self._bytes -= before[2] if before else 0


def _told(one: object) -> object:
    if not isinstance(one, np.ndarray):
        return one
    flat, last = one.flat, one.size - 1
    return one.shape, *(float(flat[last * k // (PLACES - 1)]) for k in range(PLACES if one.size else 0))


def _same(one: Any, other: Any) -> bool:
    """Whether two are the same to the last bit: a zero has a sign, which the angle of a vector leans on."""
    if not isinstance(one, np.ndarray):
        return bool(one == other)
    return bool(one.shape == other.shape and (one.view(np.int64) == other.view(np.int64)).all())


def _own(what: Any) -> Any:
    """Arrays that nobody else changes."""
    if isinstance(what, tuple):
        return tuple(map(_own, what))
    return np.array(what) if isinstance(what, np.ndarray) else what


def _size(what: Any) -> int:
    parts: tuple[Floats, ...] = what if isinstance(what, tuple) else (what,)
    return sum(getattr(part, "nbytes", 0) for part in parts)
