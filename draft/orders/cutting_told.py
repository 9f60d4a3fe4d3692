"""What a table of orders takes, told: tables for the cutter, the buyer and the books, lays as pictures, a report."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from pathlib import Path

from draft.base.as_data import Data
from draft.base.csvtext import csv_text
from draft.base.notes import Note, error
from draft.base.text_columns import in_columns
from draft.cloth.amount import in_metres
from draft.cloth.bolt import Cloth, width_words
from draft.laying.lay_sizes import picture_file
from draft.laying.picture import together_picture
from draft.orders.cut_for_orders import Cutting, Together

_SHOWN = 20
_FIRST = ("pattern", "cloth", "width cm")
_Key = tuple[str, str, Cloth]


def cutting_files(cutting: Cutting) -> dict[str, bytes]:
    """Tables of cuts, cloth, notions and costs, and a picture of every lay of several garments in `lays/`."""
    files = {
        "cut-list.csv": csv_text(_cut_list(cutting)),
        "cloth.csv": csv_text(_cloth(cutting)),
        "notions.csv": csv_text(_notions(cutting)),
        "cost.csv": csv_text(_costs(cutting)),
    }
    for number, lay in enumerate(cutting.lays, 1):
        if len(lay.orders) > 1:
            files[f"lays/{number:03d}.svg"] = picture_file(together_picture(lay.garment, lay.need))
    return files


def cutting_data(cutting: Cutting) -> Data:
    """The same for a program: lengths in mm, money as text."""
    return {
        "currency": cutting.currency,
        "orders": [
            {
                "order": order,
                "lines": [
                    {"what": line.what, "amount": line.amounts[0], "money": str(line.money[0]) if line.money else None}
                    for line in lines
                ],
                "together": str(cutting.total_of(order)),
            }
            for order, lines in cutting.costs.items()
        ],
        "notions": [
            {
                "what": one.what,
                "each_mm": one.long,
                "count": one.count or None,
                "length_mm": round(one.length, 1) or None,
                "money": None if one.money is None else str(one.money),
            }
            for one in cutting.notions.values()
        ],
        "refused": [{"order": one.key, "reasons": one.reasons, "fixes": one.fixes} for one in cutting.refused.values()],
        "lays": [
            {
                "pattern": Path(lay.pattern).stem,
                "cloth": lay.cloth,
                "width_mm": lay.need.cloth.width,
                "orders": lay.orders,
                "together_mm": round(lay.need.bought, 1),
                "alone_mm": round(lay.alone, 1),
            }
            for lay in cutting.lays
        ],
    }


def _cut_list(cutting: Cutting) -> Iterator[Sequence[object]]:
    yield ("order", "pattern", "cloth", "piece", "cut")
    for one in cutting.cut_list:
        yield (one.order, Path(one.pattern).stem, one.cloth, one.piece, one.count)


def _cloth(cutting: Cutting) -> Iterator[Sequence[object]]:
    """Each lay, and behind them what all of one pattern, cloth and width come to."""
    yield (*_FIRST, "one way", "garments", "together cm", "each alone cm", "used %", "lay", "orders")
    for number, lay in enumerate(cutting.lays, 1):
        used = f"{100 * lay.need.lay.used:.0f}"
        yield (*_of(lay), len(lay.orders), *_lengths([lay]), used, f"{number:03d}", " ".join(lay.orders))
    for some in _alike(cutting).values():
        yield (*_of(some[0]), sum(len(lay.orders) for lay in some), *_lengths(some), "", "all", "")


def _of(lay: Together) -> tuple[str, str, str, str]:
    cloth = lay.need.cloth
    return Path(lay.pattern).stem, lay.cloth, f"{cloth.width / 10:.1f}", "yes" if cloth.one_way else "no"


def _lengths(lays: Sequence[Together]) -> tuple[str, str]:
    together, alone = sum(lay.need.bought for lay in lays), sum(lay.alone for lay in lays)
    return f"{together / 10:.0f}", f"{alone / 10:.0f}"


def _alike(cutting: Cutting) -> dict[_Key, list[Together]]:
    found: dict[_Key, list[Together]] = {}
    for lay in cutting.lays:
        found.setdefault((lay.pattern, lay.cloth, lay.need.cloth), []).append(lay)
    return found


def _notions(cutting: Cutting) -> Iterator[Sequence[object]]:
    yield ("notion", "each cm", "count", "length cm", cutting.currency or "money")
    for one in cutting.notions.values():
        long = "" if one.long is None else f"{one.long / 10:g}"
        length = f"{one.length / 10:.0f}" if one.length else ""
        yield (one.what, long, one.count or "", length, "" if one.money is None else f"{one.money:.2f}")


def _costs(cutting: Cutting) -> Iterator[Sequence[object]]:
    yield ("order", "what", "amount", cutting.currency or "money")
    for order, lines in cutting.costs.items():
        for line in lines:
            yield (order, line.what, line.amounts[0], f"{line.money[0]:.2f}" if line.money else "")
        yield (order, "together", "", f"{cutting.total_of(order):.2f}")
    for one in cutting.refused.values():
        yield (one.key, f"refused: {'; '.join(one.reasons)}", "", "")


def refused_notes(cutting: Cutting) -> list[Note]:
    """Why orders are refused and what to do, of the first of them; `cost.csv` says it of all."""
    notes = [
        error(f"order `{one.key}` is refused: {'; '.join(one.reasons)}", None, *one.fixes)
        for one in cutting.refused.values()
    ]
    more = [error(f"{len(notes) - _SHOWN} more orders are refused", None, "`--out DIR` writes why of each")]
    return notes[:_SHOWN] + (more if notes[_SHOWN:] else [])


def cutting_report(cutting: Cutting) -> str:
    """Cloth by pattern and width, each alone and together, and what all orders cost."""
    rows: list[Sequence[str]] = [("cloth", "garments", "each alone", "together", "saved")]
    for (pattern, cloth, on), lays in _alike(cutting).items():
        together, alone = sum(lay.need.bought for lay in lays), sum(lay.alone for lay in lays)
        named = f"{Path(pattern).stem}, {cloth}" if cloth else Path(pattern).stem
        count = sum(len(lay.orders) for lay in lays)
        saved = f"{100 * (1 - together / alone):.0f} %"
        rows.append(
            (f"{named}, {width_words(on.width)} wide", str(count), in_metres(alone), in_metres(together), saved)
        )
    said = [in_columns(rows)]
    if cutting.currency and cutting.costs:
        total = sum(map(cutting.total_of, cutting.costs), Decimal(0))
        mean = total / len(cutting.costs)
        words = f"{total:.2f} {cutting.currency}, {mean:.2f} each"
        said.append(f"{len(cutting.costs)} orders, each cut alone: {words}")
    if cutting.refused:
        listed = list(cutting.refused)
        said.append(f"refused: {', '.join(listed[:_SHOWN])}{' and others' if listed[_SHOWN:] else ''}")
    return "\n".join(said)
