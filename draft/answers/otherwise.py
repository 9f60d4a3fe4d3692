"""What came out otherwise than was chosen, said on a terminal as a sewist reads it."""

from __future__ import annotations

import numpy as np

from draft.base.arrays import Bools, Floats
from draft.base.naming import and_list, listed, plain
from draft.base.units import Kind, in_words
from draft.drafting.drafting import Drafted
from draft.drafting.gave_way import GaveWay, gave_way, measured_elsewhere


def otherwise_report(drafted: Drafted) -> str:
    """A line for each, or an empty text."""
    sizes = drafted.garment.sizes
    lines = [_said(one, sizes) for one in gave_way(drafted)]
    for name, there, girth, where in measured_elsewhere(drafted):
        body, own = (_range(values, Kind.LENGTH, where) for values in (there, girth))
        at = f"the body is {body} round there, and {own} at the {plain(name)} itself"
        lines.append(f"the {plain(name)} is measured where the garment ends{_whose(sizes, where)}: {at}")
    return "\n".join(lines)


def _said(one: GaveWay, sizes: tuple[str, ...]) -> str:
    is_, wanted = _range(one.values, one.kind, one.where), _range(one.wanted, one.kind, one.where)
    whose = _whose(sizes, one.where)
    if one.is_room:
        return f"room at the {plain(one.words)}: {is_} and not {wanted}, as this shape comes out{whose}"
    reason = f", so that {and_list(one.reasons)}" if one.reasons else ""
    return f"{one.words}: {is_} and not {wanted}{whose}{reason}"


def _range(values: Floats, kind: Kind, where: Bools) -> str:
    least, most = (in_words(float(value), kind) for value in (np.min(values[where]), np.max(values[where])))
    return least if least == most else f"{least} to {most}"


def _whose(sizes: tuple[str, ...], where: Bools) -> str:
    """` (2XL and 3XL)`, nothing where it is so of all."""
    return "" if where.all() else f" ({listed(sizes, where)})"
