"""What became of all orders, told as a table, as JSON, as sums to check files by, and in a few words."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from draft.base.as_data import Data, json_bytes
from draft.base.csvtext import csv_text
from draft.base.naming import plain
from draft.cloth.amount import in_metres
from draft.cloth.bolt import width_words
from draft.orders.batch import Batch, Row
from draft.orders.became import ClothLength, Made, Refused, became_data

HEAD = ("row", "order", "pattern", "became", "why", "what to do", "folder", "pages", "cloth", "estimated", "cautions",
        "files", "bytes")  # fmt: skip
_WAITS = "waits"
VERSION = 1


def told_files(batch: Batch) -> dict[str, bytes]:
    """`orders.csv`, `orders.json` and `SHA256SUMS`."""
    return {
        "orders.csv": csv_text([HEAD, *(_row(batch, row) for row in batch.rows)]),
        "orders.json": orders_json(batch),
        "SHA256SUMS": "".join(f"{line}\n" for line in _sums(batch)).encode(),
    }


def orders_json(batch: Batch) -> bytes:
    """What became of each order, as `became_data` says it, with its row and its pattern."""
    return json_bytes({"orders": VERSION, **_rows(batch)})


def orders_data(batch: Batch) -> Data:
    """The same, and what is said of all of them, for a program that started the command."""
    return {**_rows(batch), "settled_before": batch.before, "sentences": told_words(batch).splitlines()}


def _rows(batch: Batch) -> Data:
    return {"stopped": batch.stopped, "rows": [_data(batch, row) for row in batch.rows]}


def _data(batch: Batch, row: Row) -> dict[str, Any]:
    one = batch.became.get(row.order.key)
    told = {"became": _WAITS, "key": row.order.key} if one is None else became_data(one)
    return {"row": row.number, "order": row.called, "pattern": _pattern(row), **told}


def _pattern(row: Row) -> str:
    """Its name: a table tells nothing of a shop's folders."""
    return Path(row.order.pattern).stem


def _row(batch: Batch, row: Row) -> list[object]:
    one = batch.became.get(row.order.key)
    first = [row.number, row.called, _pattern(row)]
    if one is None:
        return [*first, _WAITS]
    if isinstance(one, Refused):
        became = "refused" if one.why == "order" else "broke off"
        return [*first, became, "; ".join(one.reasons), "; ".join(one.fixes)]
    pages = "; ".join(f"{count} of {paper}" for paper, count in one.pages.items())
    cloth = "; ".join(map(cloth_words, one.cloth))
    estimated = "; ".join(map(plain, one.estimates))
    size = sum(file.size for file in one.files)
    return [*first, "made", "", "", one.folder, pages, cloth, estimated, "; ".join(one.cautions), len(one.files), size]


def cloth_words(one: ClothLength) -> str:
    """`lining: 1.25 m, 58 in wide`."""
    named = f"{one.name}: " if one.name else ""
    return f"{named}{in_metres(one.length)}, {width_words(one.width)} wide"


def _sums(batch: Batch) -> Iterator[str]:
    """A line a file, as `sha256sum --check` reads them."""
    for row in batch.rows:
        one = batch.became.get(row.order.key)
        if isinstance(one, Made):
            yield from (f"{file.sha256}  {one.folder}/{file.name}" for file in one.files)


def told_words(batch: Batch) -> str:
    """How many were made and how many not, and what to do about those."""
    count = len(batch.rows)
    refused = [one for one in batch.became.values() if isinstance(one, Refused)]
    broke = sum(one.why == "broke" for one in refused)
    before = f"; {batch.before} were settled by an earlier start" if batch.before else ""
    said = [f"{len(batch.made)} of {count} orders are made{before}"]
    if len(refused) > broke:
        said.append(f"{len(refused) - broke} refused: `orders.csv` says why")
    if broke:
        said.append(f"{broke} broke off: the same command tries them again")
    if count > batch.done:
        said.append(f"{count - batch.done} wait: the same command goes on with them")
    if batch.changed:
        listed = ", ".join(batch.changed[:8]) + (" and others" if batch.changed[8:] else "")
        said.append(f"no more as they were made: {listed}; move a folder away to have it made again")
    if batch.damaged:
        said.append(f"{batch.damaged} lines of the journal could not be read, and those orders were looked at anew")
    return "\n".join(said)
