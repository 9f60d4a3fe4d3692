"""The verb about orders of customers: a table of them made into packs, stopped and gone on with as one likes."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypedDict, Unpack

import click

from draft.command.console import print_notes, print_text, progress
from draft.command.group import commands
from draft.command.options import OUT, PLACE, all_of, style, styles_of
from draft.command.told_as_data import AS_JSON, tell
from draft.pack.paper_request import names_in

if TYPE_CHECKING:
    from draft.base.notes import Note
    from draft.orders.batch import Batch
    from draft.orders.hands import Work


class OrdersGiven(TypedDict):
    """What stands for rows that do not say it themselves, as it was typed."""

    patterns: tuple[str, ...]
    fabrics: tuple[str, ...]
    styles: tuple[str, ...]
    pages: str | None
    papers: str | None
    language: str | None
    units: str | None
    cloth: str | None
    allowance: str | None


orders_options = all_of(
    click.option("--pattern", "patterns", multiple=True, metavar="PATTERN",
                 help="The pattern of rows that name none; several times, those that the column `pattern` names."),
    click.option("--fabric", "fabrics", multiple=True, metavar="FILE",
                 help="The cloth of rows that name none; several times, those that the column `cloth` names."),
    style("A style of all rows that do not choose it; may be repeated."),
    click.option("--page", "pages", metavar="SIZES", help="Paper of customers' printers: letter,a4 or one of them."),
    click.option("--paper", "papers", metavar="SIZES", help="Large paper as well: a0, roll-36in, projector."),
    click.option("--language", metavar="CODE", help="Language of printed words."),
    click.option("--units", type=click.Choice(["both", "in", "cm"]), help="Of lengths in print."),
    click.option("--cloth", metavar="WIDTHS", help="Widths of cloth to give lengths for; none to save time."),
    click.option("--allowance", metavar="WIDTH", help="Outside all seams, hems excepted: 1cm, 5/8in or none."),
)  # fmt: skip


@commands.command()
@click.argument("table", metavar="ORDERS.csv", type=PLACE)
@orders_options
@OUT
@click.option("--workers", type=click.IntRange(1, 512), help="So many at once on this machine; else as it has cores.")
@click.option("--scheduler", metavar="ADDRESS", help="Have workers of Dask's scheduler there make them; or local.")
@AS_JSON
def orders(
    table: Path,
    folder: Path,
    workers: int | None,
    scheduler: str | None,
    **given: Unpack[OrdersGiven],
) -> None:
    """Make customers' orders, a row each: a pack in a folder of its own, and a table of what became of each.

    ORDERS.csv has a column a measure, such as `bust cm`, or a column `size`; besides `order` for its number, and what
    else differs: `pattern`, `style neckline`, `cloth`, `page`, `language`. It may be stopped at any moment: the same
    command goes on where it was. Names of customers are not read.
    """
    from draft.orders.ordering import offered_by, run_orders
    from draft.orders.orders_told import orders_data, told_words

    offered = offered_by(given["patterns"], given["fabrics"], usual_of(given))
    say = progress()
    warn: Callable[[Sequence[Note]], object] = print_notes
    batch = run_orders(table, offered, folder, _work(workers, scheduler), _told_on(say), warn)
    say("")
    print_text(told_words(batch))
    tell(lambda: orders_data(batch))
    if len(batch.made) < len(batch.rows):
        raise SystemExit(1)


def usual_of(given: OrdersGiven) -> dict[str, Any]:
    """What was typed, as an order says it."""
    said: dict[str, Any] = {
        "styles": styles_of(given["styles"]),
        "language": given["language"],
        "units": given["units"],
    }
    said["allowance"] = given["allowance"]
    for word, text in (("pages", given["pages"]), ("large", given["papers"]), ("widths", given["cloth"])):
        said[word] = None if text is None else list(names_in(text))
    return {word: value for word, value in said.items() if value is not None}


def _work(workers: int | None, scheduler: str | None) -> Work:
    if scheduler is None:
        from draft.orders.hands import by_hands

        return by_hands(workers or cores())
    from draft.orders.on_dask import LOCAL, by_scheduler

    if workers and scheduler != LOCAL:
        raise click.UsageError("`--workers` are of this machine: those of a scheduler are started beside it")
    return by_scheduler(scheduler, workers or cores(), warn=lambda note: print_notes([note]))


def cores() -> int:
    """How many processes this one may use at once."""
    if sys.platform == "linux":
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def _told_on(say: Callable[[str], None]) -> Callable[[Batch], None]:
    """Says how many orders are done and how long the rest takes, by what those of this run took."""
    begun = time.monotonic()

    def told(batch: Batch) -> None:
        done, left = batch.done - batch.before, len(batch.rows) - batch.done
        still = f", {_time((time.monotonic() - begun) / done * left)} left" if done and left else ""
        say(f"{batch.done} of {len(batch.rows)}, {batch.done - len(batch.made)} not made{still}")

    return told


def _time(seconds: float) -> str:
    if seconds < 90:
        return f"{seconds:.0f} s"
    return f"{seconds / 60:.0f} min" if seconds < 5400 else f"{seconds / 3600:.1f} h"
