"""A whole cost sheet of a drafted garment: cloth, notions, what each garment costs besides, pages and hours."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from draft.base.as_data import Data
from draft.base.csvtext import csv_text
from draft.base.notes import Note, caution
from draft.base.text_columns import in_columns
from draft.cloth.effort import Effort
from draft.cloth.needs import ClothNeed
from draft.cloth.of_one import of_each_cloth
from draft.costing.cost_lines import CostLine, CostSheet, cloth_line, in_cents, notion_lines
from draft.drafting.drafting import Drafted
from draft.laying.asked import usual_width, washing, widths_asked
from draft.laying.in_booklet import Bolts
from draft.laying.lay_sizes import lay_sizes
from draft.paper.pages.sheet import drafted_bodies
from draft.studio.prices import Prices


def cost_sheet(
    drafted: Drafted,
    prices: Prices,
    widths: Sequence[str],
    effort: Effort,
    hours: Decimal | None = None,
    pages: Sequence[int] | None = None,
) -> CostSheet:
    """What the drafted sizes cost, on cloth of these `widths` such as `150 cm` or `lining=140 cm`.

    `hours` of work are priced where they are given, and `pages` for each size. Raises `Problems` for cloth that cannot
    be, or does not hold a piece.
    """
    garment = drafted.to_cut
    bodies = drafted_bodies(garment)
    sizes = tuple(garment.sizes[body] for body in bodies)
    lines = [
        cloth_line(name, row, prices, fabric_name(drafted))
        for name, row in laid_on(drafted, widths, effort, "--width").items()
    ]
    lines += notion_lines(garment, prices, bodies)
    lines += [
        CostLine(name, ("1",) * len(sizes), (in_cents(each),) * len(sizes)) for name, each in prices.garment.items()
    ]
    lines += _by_number("pages", prices.page, pages)
    lines += _by_number("hours of work", prices.hour, None if hours is None else [hours] * len(sizes))
    return CostSheet(sizes, tuple(lines), prices.currency)


def _by_number(what: str, price: Decimal | None, numbers: Sequence[Decimal | int] | None) -> list[CostLine]:
    if price is None or numbers is None:
        return []
    return [CostLine(what, tuple(map(str, numbers)), tuple(in_cents(price * number) for number in numbers))]


def fabric_name(drafted: Drafted) -> str:
    """What the fabric is called that a garment is drafted for; nothing where none was named."""
    return drafted.planned.fabric.name if drafted.planned and drafted.planned.fabric else ""


def laid_on(
    drafted: Drafted, widths: Sequence[str], effort: Effort, option: str, one_way: bool = False
) -> Mapping[str, tuple[ClothNeed, ...]]:
    """What the sizes need of each cloth by its name, of the first width that is asked for or the usual one."""
    parts = of_each_cloth(drafted.to_cut)
    asked = widths_asked(widths, list(parts), option)
    found = {}
    for number, (name, part) in enumerate(parts.items()):
        bolts = Bolts({}) if number else Bolts(washing(drafted), one_way)
        width = asked.get(name, [usual_width(part.cloth)])[0]
        (found[name],) = lay_sizes(part, [bolts.cloth(width)], effort)
    return found


def missing_notes(lines: Sequence[CostLine]) -> list[Note]:
    """A caution for each thing without a price, with the line that would give it one."""
    notes: dict[str, Note] = {}
    for line in lines:
        if line.money is None:
            name = line.wanted[0]
            example = "12.50" if line.table == "prices.cloth" else "3.50"
            by_length = any(" cm" in amount for amount in line.amounts) and line.table == "prices.notions"
            said = '"1.20 per metre"' if by_length else example
            fix = f'write `"{name}" = {said}` below `[{line.table}]` in the studio\'s file'
            notes.setdefault(name, caution(f"`{name}` has no price, and is in no sum", None, fix))
    return list(notes.values())


def cost_report(sheet: CostSheet) -> str:
    """The sheet as columns, a size each: amounts and money beside one another."""
    head = ["", *(word for size in sheet.sizes for word in (size, sheet.currency))]
    rows = [head]
    for line in sheet.lines:
        money = [f"{each:.2f}" for each in line.money] if line.money else ["?"] * len(sheet.sizes)
        rows.append([line.what, *(word for pair in zip(line.amounts, money, strict=True) for word in pair)])
    without = " without the lines marked ?" if sheet.missing else ""
    rows.append([f"together{without}", *(word for total in sheet.totals() for word in ("", f"{total:.2f}"))])
    return in_columns(rows)


def cost_data(sheet: CostSheet) -> Data:
    """The sheet for a program: for each size its lines with amounts in words and money as text, and their sum."""
    sizes = [
        {
            "size": size,
            "lines": [
                {"what": line.what, "amount": line.amounts[k], "money": str(line.money[k]) if line.money else None}
                for line in sheet.lines
            ],
            "together": str(total),
        }
        for k, (size, total) in enumerate(zip(sheet.sizes, sheet.totals(), strict=True))
    ]
    without = [line.wanted[0] for line in sheet.missing]
    return {"currency": sheet.currency, "sizes": sizes, "without_a_price": without}


def cost_csv(sheet: CostSheet) -> bytes:
    """The sheet as a table: a row a line, two columns a size."""
    head = ["what", *(word for size in sheet.sizes for word in (f"{size} amount", f"{size} {sheet.currency}"))]
    rows: list[list[str]] = [head]
    for line in sheet.lines:
        money = [f"{each:.2f}" for each in line.money] if line.money else [""] * len(sheet.sizes)
        rows.append([line.what, *(word for pair in zip(line.amounts, money, strict=True) for word in pair)])
    rows.append(["together", *(word for total in sheet.totals() for word in ("", f"{total:.2f}"))])
    return csv_text(rows)
