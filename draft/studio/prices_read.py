"""Reading the table `[prices]` of a studio's file."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation

from draft.base.notes import Note, Span, error
from draft.base.units import Kind, QuantityError, read_quantity
from draft.studio.lines_read import Lines
from draft.studio.prices import NO_PRICES, Per, Price, Prices

_PRICE = re.compile(r"(?P<amount>[\d.,]+)\s*(?:(?:per|/|a)\s*(?P<count>\d+)?\s*(?P<per>[a-z]*))?", re.IGNORECASE)
_PER: dict[str, Per] = {
    "metre": "metre", "meter": "metre", "m": "metre", "yard": "yard", "yd": "yard",
    "each": "each", "piece": "each", "pieces": "each",
}  # fmt: skip
_MOST = Decimal(1_000_000)
_NAME = 60


def prices_of(given: object, lines: Lines) -> Prices:
    """The prices in a table; what is wrong with it is noted in `lines`, those of the whole file."""
    if given is None:
        return NO_PRICES
    source, notes = lines.source, lines.notes
    table = Lines(source, given, notes, "prices")
    tables = {name: Lines(source, _table(table.take(name)), notes, f"prices.{name}") for name in _TABLES}
    found = Prices(
        currency=table.text("currency", 8, "EUR"),
        cloth=tables["cloth"].each(_by_length),
        notions=tables["notions"].each(_of_thing),
        garment=tables["garment"].each(_money),
        hour=table.read("hour", _maybe_money, None),
        page=table.read("page", _maybe_money, None),
        sold_by=table.read("sold_by", _step, None),
    )
    table.end()
    if not found.currency and given:
        table.note("the prices have no currency", "prices", 'write `currency = "EUR"` below `[prices]`')
    return found


_TABLES = ("cloth", "notions", "garment")


def _table(given: object) -> object:
    return {} if given is None else given


def _maybe_money(given: object, key: str, span: Span | None) -> Decimal | Note | None:
    return _money(given, key, span)


def _money(given: object, key: str, span: Span | None) -> Decimal | Note:
    amount = _amount(given)
    return error(f"`{key}` is no price", span, f"write `{key} = 4.20`") if amount is None else amount


def _by_length(given: object, key: str, span: Span | None) -> Price | Note:
    found = _price(given, "metre")
    if found is None or not found.by_length:
        return error(f"`{key[:_NAME]}` is no price of a length", span, f'write `{_quoted(key)} = "12.50 per metre"`')
    return found


def _of_thing(given: object, key: str, span: Span | None) -> Price | Note:
    fix = f'write `{_quoted(key)} = 3.50` for one, or `"1.20 per metre"`, or `"2.40 per 6"`'
    return _price(given, "each") or error(f"`{key[:_NAME]}` is no price", span, fix)


def _quoted(key: str) -> str:
    return key if re.fullmatch(r"[\w-]+", key, re.ASCII) else f'"{key[:_NAME]}"'


def _price(given: object, usual: Per) -> Price | None:
    """A number, or a text such as `1.20 per metre` or `2.40 per 6`."""
    if not isinstance(given, str):
        amount = _amount(given)
        return None if amount is None else Price(amount, usual)
    found = _PRICE.fullmatch(given.strip())
    amount = _amount(found["amount"]) if found else None
    if not found or amount is None:
        return None
    word, count = (found["per"] or "").lower(), int((found["count"] or "1")[:6])
    per = _PER.get(word) if word else "each" if found["count"] else usual
    if per is None or count < 1 or (per != "each" and found["count"]):
        return None
    return Price(amount, per, count)


def _amount(given: object) -> Decimal | None:
    """Money from a number or a text with a point or a comma; None for anything else."""
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        return None
    try:
        amount = Decimal(str(given).strip().replace(",", "."))
    except InvalidOperation:
        return None
    return amount if amount.is_finite() and 0 <= amount < _MOST else None


def _step(given: object, key: str, span: Span | None) -> float | Note | None:
    try:
        found = read_quantity(str(given))
    except (QuantityError, OverflowError):
        found = None
    if isinstance(given, bool) or found is None or found.kind is not Kind.LENGTH or not 0 < found.value <= 10_000:
        return error(f"`{key}` is not a length", span, f'write `{key} = "10 cm"`')
    return found.value
