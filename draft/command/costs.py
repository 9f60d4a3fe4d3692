"""The verbs about money: what a garment costs by the studio's own prices, and what a table of orders takes."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from pathlib import Path
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from draft.command.console import print_notes, print_text, progress, write
from draft.command.drafted import drafted_for_sewing
from draft.command.group import commands
from draft.command.options import PLACE, Given, all_of, drafting_options, out, request_of
from draft.command.order_books import OrdersGiven, orders_options, usual_of
from draft.command.told_as_data import AS_JSON, tell

if TYPE_CHECKING:
    from draft.cloth.effort import EffortName


class PricedGiven(TypedDict):
    """The prices and the cloth, as they were typed."""

    prices: Path | None
    widths: tuple[str, ...]
    hours: str | None
    effort: EffortName
    folder: Path | None


class CostGiven(Given, PricedGiven):
    """For whom a pattern is drafted, and by which prices it is reckoned."""


priced_options = all_of(
    click.option("--prices", type=PLACE, metavar="FILE", help="The studio's file with prices, if not the pattern's."),
    click.option("--width", "widths", multiple=True, metavar="WIDTH",
                 help="Of the cloth, or of one of several (lining=140cm): else the studio's, as known, or 58 in."),
    click.option("--hours", metavar="NUMBER", help="Of work in a garment, where the studio prices an hour."),
    click.option("--effort", type=click.Choice(["quick", "usual", "long"]), default="quick",
                 help="More time for less cloth; quick as in booklets."),
)  # fmt: skip


@commands.command()
@drafting_options
@priced_options
@out("Write the sheet as CSV there.")
@AS_JSON
def cost(**given: Unpack[CostGiven]) -> None:
    """Reckon what a garment costs by the studio's own prices: cloth as it is laid and sold, notions, each size."""
    from draft.cloth.effort import effort
    from draft.costing.cost_sheet import cost_csv, cost_data, cost_report, cost_sheet, missing_notes
    from draft.costing.prices_found import prices_found
    from draft.costing.printed import printed_pages
    from draft.drafting.planned import plan_for
    from draft.pack.studio_paper import studio_paper

    request = request_of(given)
    studio = plan_for(request).studio
    prices = prices_found(given["prices"], studio)
    drafted, say = drafted_for_sewing(request, details=False), progress()
    say("laying its pieces")
    widths = given["widths"] or (studio.cloth if studio else ())
    pages = None if prices.page is None else printed_pages(drafted, studio_paper(studio))
    sheet = cost_sheet(drafted, prices, widths, effort(given["effort"]), _hours(given["hours"]), pages)
    say("")
    print_text(cost_report(sheet))
    tell(lambda: cost_data(sheet))
    print_notes(missing_notes(sheet.lines))
    if given["folder"]:
        write(given["folder"], {"tables/cost.csv": cost_csv(sheet)})


@commands.command()
@click.argument("table", metavar="ORDERS.csv", type=PLACE)
@orders_options
@click.option("--prices", type=PLACE, metavar="FILE", help="The studio's file with prices, if not the pattern's.")
@click.option("--at-once", type=click.IntRange(1, 50), default=4, show_default=True, help="Garments in one lay.")
@click.option(
    "--effort", type=click.Choice(["quick", "usual", "long"]), default="quick", help="More time for less cloth."
)
@out("Write the cut list, the tables and the lays there.")
@AS_JSON
def cut(
    table: Path,
    prices: Path | None,
    at_once: int,
    effort: EffortName,
    folder: Path | None,
    **given: Unpack[OrdersGiven],
) -> None:
    """List what is cut for a table of orders: cloth by its width, several garments laid together, what each costs."""
    from draft.cloth.effort import effort as effort_named
    from draft.costing.cost_sheet import missing_notes
    from draft.orders.cut_for_orders import cutting_of
    from draft.orders.cutting_told import cutting_data, cutting_files, cutting_report, refused_notes
    from draft.orders.ordering import fine_orders, offered_by, prices_of

    offered = offered_by(given["patterns"], given["fabrics"], usual_of(given))
    orders, refused = fine_orders(table, offered, print_notes)
    say = progress()
    cutting = cutting_of(
        orders, prices_of(prices), effort_named(effort), at_once, lambda done: say(f"{done} of {len(orders)} drafted")
    )
    cutting.refused |= refused
    say("")
    print_text(cutting_report(cutting))
    tell(lambda: cutting_data(cutting))
    print_notes(refused_notes(cutting))
    if cutting.currency:
        print_notes(missing_notes([line for lines in cutting.costs.values() for line in lines]))
    if folder:
        write(folder, cutting_files(cutting))
    if cutting.refused:
        raise SystemExit(1)


def _hours(text: str | None) -> Decimal | None:
    """Raises UsageError for what is no number of hours."""
    if text is None:
        return None
    try:
        hours = Decimal(text.strip().removesuffix("h").strip().replace(",", "."))
    except InvalidOperation:
        hours = Decimal(-1)
    if not (hours.is_finite() and 0 <= hours <= 1000):
        raise click.UsageError(f"`--hours {text}` is no number of hours, as in `--hours 2.5`")
    return hours
