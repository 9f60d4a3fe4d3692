"""A table of orders from its file to a folder of packs: what the verb `orders` calls."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

from draft.base.notes import Note, Problems, error
from draft.base.resources import folder as resources
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known
from draft.drafting.planned import plan_for
from draft.drafting.request import Request
from draft.orders.batch import Batch, Step, rows_of, run_batch
from draft.orders.hands import Work
from draft.orders.kept_inputs import keep_inputs
from draft.orders.orders_table import Offered, read_orders
from draft.orders.orders_told import told_files
from draft.plan.library import bundled_patterns, find


def run_orders(
    table: Path, offered: Offered, folder: Path, work: Work, step: Step, warn: Callable[[Sequence[Note]], object]
) -> Batch:
    """Make the orders of a table in a folder, going on with what is there.

    `warn` is called with what there is to say of the table before anything is made. Raises `Problems` for a table, a
    pattern or a folder with which nothing can be begun, and where nothing can be written any more.
    """
    orders, notes = read_orders(table, offered, _known(offered))
    warn(notes)
    rows = rows_of(orders)
    fine = [row.order for row in rows if not row.fault]
    kept = keep_inputs([one.pattern for one in fine], [one.cloth for one in fine if one.cloth])
    return run_batch(rows, kept, folder, work, step, told_files)


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
