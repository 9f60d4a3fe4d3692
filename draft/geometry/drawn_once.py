"""Lines drawn once: a solve asks for the same line again and again, and so does a draft after a change."""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock

import numpy as np

from draft.base.arrays import Floats

FEW = 60
"""Bodies: a chart's sizes. A study's thousands are drawn once anyway."""
MOST = 256
"""Lines: those of a few garments, a megabyte or two."""

Key = tuple[object, ...]


class DrawnOnce:
    """A function of arrays, the first of which has the bodies `(B, ...)`; what it drew is given again, unchanged."""

    def __init__(self, draw: Callable[..., Floats]) -> None:
        self._draw = draw
        self._kept: dict[Key, Floats] = {}
        self._lock = Lock()

    def __call__(self, *given: Floats | None) -> Floats:
        """What the function draws of these arrays, to the last bit."""
        assert given[0] is not None
        if len(given[0]) > FEW:
            return self._draw(*given)
        key = tuple(None if part is None else (part.shape, np.ascontiguousarray(part).tobytes()) for part in given)
        with self._lock:
            found = self._kept.pop(key, None)
        if found is None:
            found = self._draw(*given)
            found.flags.writeable = False
        self._keep(key, found)
        return found

    def _keep(self, key: Key, found: Floats) -> None:
        with self._lock:
            self._kept[key] = found
            while len(self._kept) > MOST:
                self._kept.pop(next(iter(self._kept)))
