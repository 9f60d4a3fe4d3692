"""A table of orders from its file to a folder of packs: what the verb `orders` calls."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from draft.base.notes import Note, Problems, error, remark
from draft.base.resources import folder as resources
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.costing.prices_found import prices_found
from draft.drafting.drafting import Drafted
from draft.drafting.planned import plan_for
from draft.drafting.request import Request
from draft.orders.batch import Batch, Row, Step, rows_of, run_batch
from draft.orders.became import Refused
from draft.orders.hands import Work
from draft.orders.kept_inputs import keep_inputs
from draft.orders.one_order import Order
from draft.orders.orders_table import Offered, read_orders
from draft.orders.orders_told import told_files
from draft.plan.library import bundled_patterns, find
from draft.studio.prices import NO_PRICES, Prices


def run_orders(
    table: Path, offered: Offered, folder: Path, work: Work, step: Step, warn: Callable[[Sequence[Note]], object]
) -> Batch:
    """Make the orders of a table in a folder, going on with what is there.

    `warn` is called with what there is to say of the table before anything is made. Raises `Problems` for a table, a
    pattern or a folder with which nothing can be begun, and where nothing can be written any more.
    """
    rows = _rows(table, offered, warn)
    fine = [row.order for row in rows if not row.fault]
    kept = keep_inputs([one.pattern for one in fine], [one.cloth for one in fine if one.cloth])
    return run_batch(rows, kept, folder, work, step, told_files)


def _rows(table: Path, offered: Offered, warn: Callable[[Sequence[Note]], object]) -> list[Row]:
    """The rows of a table, each under a key of its own; where that is not the order's own number it is told."""
    orders, notes = read_orders(table, offered, _known(offered))
    rows = rows_of(orders)
    other = [f"`{row.order.key}`" for row in rows if row.order.key != row.called and row.called]
    if other:
        listed = ", ".join(other[:8]) + (" and others" if other[8:] else "")
        fact = "a folder cannot be called by the number of some orders, or another order has that number"
        notes.append(remark(f"{fact}: they go by {listed}"))
    warn(notes)
    return rows


def fine_orders(
    table: Path, offered: Offered, warn: Callable[[Sequence[Note]], object]
) -> tuple[list[Order], dict[str, Refused]]:
    """The orders of a table that can be tried, and those that cannot. Raises `Problems` as `run_orders` does."""
    rows = _rows(table, offered, warn)
    return [row.order for row in rows if not row.fault], {row.order.key: row.fault for row in rows if row.fault}


def prices_of(file: Path | None) -> Callable[[Drafted], Prices]:
    """The prices of a file, or those of the studio of each garment; none at all where neither says any.

    Raises `Problems` with the mistakes of the file, or where it has no prices.
    """
    if file:
        named = prices_found(file, None)
        return lambda drafted: named

    def of_studio(drafted: Drafted) -> Prices:
        studio = drafted.planned.studio if drafted.planned else None
        return studio.prices if studio else NO_PRICES

    return of_studio


def offered_by(patterns: Sequence[str], cloths: Sequence[str], usual: Mapping[str, Any]) -> Offered:
    """What rows may name: the bundle's, and files that are given; one that is given alone is that of rows without one.

    Raises `Problems` for a pattern that is not there, two of one name.
    """
    fabrics = {file.stem: file.stem for file in sorted((resources("pieces") / "fabrics").glob("*.toml"))}
    for place in patterns:
        find(place)
    found = {name: name for name in bundled_patterns()} | _by_name(patterns, "pattern")
    cloth = fabrics | _by_name(cloths, "fabric")
    alone = {word: given[0] for word, given in (("pattern", patterns), ("cloth", cloths)) if len(given) == 1}
    return Offered(found, cloth, {**usual, **alone})


def _by_name(given: Sequence[str], option: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for place in dict.fromkeys(given):
        name = Path(place).stem
        if name in found:
            fact = f"`{found[name]}` and `{place}` have one name"
            raise Problems([error(fact, None, f"rename one, so that rows can ask for it (`--{option}`)")])
        found[name] = place
    return found


def _known(offered: Offered) -> Known:
    """The measures that a column may be of: everybody's, and those that a pattern which was given declares itself."""
    known = dict(MEASURES)
    for name, place in offered.patterns.items():
        if place != name or place == offered.usual.get("pattern"):
            known |= plan_for(Request(place)).plan.known
    return known
