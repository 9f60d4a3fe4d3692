"""Memory is tidied up while nobody looks at a moving line: it takes as long as half a drawing."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count

MOST = 25
"""Drawings in a row, some megabytes each, after which it is tidied up all the same."""
_drawings = count(1)


@contextmanager
def undisturbed() -> Iterator[None]:
    """Nothing is tidied up meanwhile, nor afterwards until `at_rest`."""
    gc.disable()
    yield
    if next(_drawings) % MOST == 0:
        gc.collect()


def at_rest() -> None:
    """The lines rest: from here on memory is tidied up as usual."""
    gc.enable()
