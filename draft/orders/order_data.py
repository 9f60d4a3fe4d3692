"""An order as JSON and back, for a worker in another process or a shop's own program."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import MISSING, fields
from typing import Any

from draft.base.notes import Note, error, nearest, stop_if_errors
from draft.orders.one_order import Order

_TEXT_LISTS = ("sizes", "pages", "large", "widths", "holds")
_TEXT_TABLES = ("measures", "styles")
_FLAGS = ("unwashed", "one_way", "large_print")
_ONE_OF = {"assemble": ("overlap", "butt"), "units": ("both", "in", "cm")}
LONGEST = 200
"""Letters of a text in an order, and the most texts in one of its lists or tables."""


def order_data(order: Order) -> dict[str, Any]:
    """Plain data that JSON holds; what is as usual is left out."""
    found: dict[str, Any] = {}
    for one in fields(order):
        value = getattr(order, one.name)
        usual = one.default_factory() if one.default_factory is not MISSING else one.default
        if value != usual:
            kept = dict(value) if isinstance(value, Mapping) else value
            found[one.name] = list(kept) if isinstance(kept, tuple) else kept
    return found


def order_from(data: Mapping[str, Any]) -> Order:
    """The order that such data say. Raises `Problems` with everything in them that an order does not say."""
    names = [one.name for one in fields(Order)]
    notes = [error(f"an order has no `{key[:60]}`", None, *nearest(key, names)) for key in data if key not in names]
    known = {key: value for key, value in data.items() if key in names}
    notes += [note for key, value in known.items() if (note := _fault(key, value))]
    notes += [error(f"the order does not say its `{key}`") for key in ("key", "pattern") if not known.get(key)]
    stop_if_errors(notes)
    given: dict[str, Any] = {key: tuple(value) if isinstance(value, list) else value for key, value in known.items()}
    return Order(**given)


def _fault(key: str, value: object) -> Note | None:
    if value is None and key not in ("key", "pattern"):
        return None
    if key in _FLAGS:
        return None if isinstance(value, bool) else error(f"`{key}` of an order is neither true nor false")
    if key in _TEXT_LISTS:
        fine = isinstance(value, list | tuple) and len(value) <= LONGEST and all(map(_is_text, value))
        return None if fine else error(f"`{key}` of an order is no list of texts")
    if key in _TEXT_TABLES:
        fine = isinstance(value, Mapping) and len(value) <= LONGEST and all(map(_is_text, [*value, *value.values()]))
        return None if fine else error(f"`{key}` of an order is no table of texts")
    if not _is_text(value):
        return error(f"`{key}` of an order is no text, or has more than {LONGEST} letters")
    if key in _ONE_OF and value not in _ONE_OF[key]:
        return error(f"`{key}` of an order is one of {', '.join(_ONE_OF[key])}")
    return None


def _is_text(value: object) -> bool:
    return isinstance(value, str) and len(value) <= LONGEST
