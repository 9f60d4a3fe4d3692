"""Runs of segments in the words of a file, all of a drawing in one go: what a line is written with, and no more."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from draft.base.arrays import Bools, Floats


def runs_in_words(
    lengths: Sequence[int], points: Floats, straight: Bools, words: Callable[[Floats], Sequence[str]]
) -> Iterator[tuple[str, list[tuple[str, ...]]]]:
    """Of each run its first point, and of each of its segments the last: with its two handles if it is curved.

    `points` `(n, 4, 2)` are those of all runs, so many segments each, one behind the other; of these some are
    `straight` `(n,)`. `words` says each of some points `(m, 2)`.
    """
    said = np.zeros((*straight.shape, 4), dtype=bool)
    said[:, 3] = True
    said[~straight, 1:3] = True
    said[_starts(lengths), 0] = True
    found, lines = iter(words(points[said])), iter(straight.tolist())
    for length in lengths:
        first = next(found)
        yield first, [(next(found),) if next(lines) else (next(found), next(found), next(found)) for _ in range(length)]


def _starts(lengths: Sequence[int]) -> NDArray[np.int64]:
    return np.cumsum([0, *lengths[:-1]])
