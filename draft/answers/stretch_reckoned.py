"""The stretch that a cloth must have, reckoned before the reader's eyes: what by what, and by whose rule."""

from __future__ import annotations

import numpy as np

from draft.base.text_columns import in_columns
from draft.base.units import in_centimetres
from draft.base.worst import worst_of
from draft.fabrics.properties import TO_MEASURE, percent
from draft.fit.stretch import AT_REST, FURTHEST, MOVING, Least, NeededStretch, least, needed_stretches
from draft.garment.garment import Garment

WAYS = ("across", "along its length")
PASSES = "what is put on or sewn may use all of it, for a moment"
HALF = "twice that, for while it is worn half of the stretch is left for moving (common practice)"
MOVES = "times {moving:.2f}, for {share:.0%} are left for moving (Kirk and Ibrahim 1966, from memory)"


def stretch_report(garment: Garment, details: bool = False) -> str:
    """The least stretch across and along the length, what asks for it and how it is reckoned; or all that asks."""
    found = needed_stretches(garment)
    lines = []
    for way, asked in zip(WAYS, least(garment, found), strict=True):
        lines.append(f"the cloth must stretch {way} by {_least(garment, found, asked)}")
        lines += _reckoned(found, asked)
    if len(lines) > len(WAYS):
        lines.append(f"  {TO_MEASURE}")
    table = _all(garment, found) if details else ""
    return "\n".join(lines) + (f"\n\n{table}" if table else "")


def _least(garment: Garment, found: tuple[NeededStretch, ...], asked: Least) -> str:
    worst = worst_of(asked.share)
    if asked.share[worst] <= 0:
        return "nothing"
    need = found[int(asked.asking[worst])]
    where = f" ({garment.sizes[worst]})" if len(garment.sizes) > 1 else ""
    if asked.share[worst] >= FURTHEST:
        return f"more than any cloth does: {need.why}{where}"
    worn = f", stretched by {percent(float(need.share[worst]))} while it is worn" if need.reason == "worn" else ""
    return f"{percent(float(asked.share[worst]))} at least: {need.why}{worn}{where}"


def _reckoned(found: tuple[NeededStretch, ...], asked: Least) -> list[str]:
    """`  56.1 cm by 46.9 cm is 19.6 % more: what is put on may use all of it`."""
    worst = worst_of(asked.share)
    if asked.share[worst] <= 0:
        return []
    need = found[int(asked.asking[worst])]
    worn = HALF if _halves(need, worst) else MOVES.format(moving=1 + MOVING, share=MOVING).replace("%", " %")
    return [f"  {_ratio(need, worst)}: {worn if need.reason == 'worn' else PASSES}"]


def _ratio(need: NeededStretch, body: int) -> str:
    asked, own = (in_centimetres(float(values[body])) for values in (need.asked, need.own))
    return f"from {own} to {asked} is {percent(float(need.share[body]))} more"


def _halves(need: NeededStretch, body: int) -> bool:
    """Whether the half that may be used is what decides, and not what moving leaves."""
    share = float(need.share[body])
    return share / AT_REST >= (1 + share) * (1 + MOVING) - 1


def _all(garment: Garment, found: tuple[NeededStretch, ...]) -> str:
    """Each thing that asks for stretch, of the body that asks most, what the cloth gives and what is allowed."""
    rows: list[tuple[str, ...]] = [("asks for stretch", "", "by", "allowed", "of the cloth's")]
    for need in found:
        worst = worst_of(need.share)
        if need.share[worst] > 0:
            shares = (need.share[worst], need.limit[worst], need.given[worst])
            size = f" ({garment.sizes[worst]})" if len(garment.sizes) > 1 else ""
            rows.append((f"{need.why}{size}", _ratio(need, worst).rpartition(" is ")[0], *_percents(*shares)))
    return in_columns(rows) if len(rows) > 1 else ""


def _percents(*shares: np.floating) -> tuple[str, ...]:
    return tuple(percent(float(share)) for share in shares)
