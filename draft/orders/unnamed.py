"""Words about an order without the figures of anybody's body: what stands in tables and journals tells no measure."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress

from draft.base.units import MM_PER_INCH, QuantityError, read_quantity

HERS = "…"
"""What stands in the place of a customer's own figure."""
_NUMBER = re.compile(r"(?<![\w.])[-+]?\d+(?:[.,]\d+)?(?:\s+\d+/\d+)?(?![\w/]|[.,]\d)")
_NEAR, _PLACE = 0.0006, 0.051
"""Messages round to four figures, or to a tenth."""


def figures_of(measures: Mapping[str, str], values: Iterable[float] = ()) -> frozenset[float]:
    """The figures of an order's measures, and of `values` in mm or rad, as they may stand in a message."""
    typed = [_figure(found) for text in measures.values() for found in _NUMBER.findall(text)]
    found = [*_read(measures.values()), *values]
    ways = (1.0, 0.1, 1 / MM_PER_INCH, 180 / math.pi)
    return frozenset([*map(abs, typed), *(abs(value) * way for value in found for way in ways)])


def _read(texts: Iterable[str]) -> Iterator[float]:
    for text in texts:
        with suppress(QuantityError, OverflowError):
            yield read_quantity(text.replace(",", ".")).value


def without_figures(text: str, figures: frozenset[float]) -> str:
    """The text with a sign in the place of each number that is one of these figures."""
    return _NUMBER.sub(lambda found: HERS if _is_hers(_figure(found[0]), figures) else found[0], text)


def _is_hers(number: float, figures: frozenset[float]) -> bool:
    return any(abs(abs(number) - figure) <= max(_NEAR * figure, _PLACE) for figure in figures) if number else False


def _figure(text: str) -> float:
    whole, _, part = text.strip().replace(",", ".").partition(" ")
    over, _, under = part.strip().partition("/")
    return float(whole) + (float(over) / float(under) if under and float(under) else 0.0)
