"""The lines of a cost sheet: each with its amount and its money for every size, rounded as a shop does.

Cloth is cut off the bolt in steps and notions are sold whole, so amounts are rounded up before they are priced; money
is rounded to the cent once, at the end of a line, halves up (common practice).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import ROUND_HALF_UP, Decimal

import numpy as np

from draft.base.naming import plain
from draft.base.record import dataclass
from draft.cloth.amount import EIGHTH_YARD, FIVE_CENTIMETRES, rounded_up
from draft.cloth.bolt import width_words
from draft.cloth.needs import ClothNeed
from draft.garment.garment import Garment
from draft.seams.bought import Bought, bought
from draft.studio.prices import ANY_CLOTH, Price, Prices

_CENT = Decimal("0.01")
_YARD = EIGHTH_YARD * 8
_TENTHS = 10


@dataclass(frozen=True)
class CostLine:
    """One line: what it is, how much of it each size takes in words, and what that costs; None where it has no price.

    `wanted` are the names under which a price was looked for.
    """

    what: str
    amounts: tuple[str, ...]
    money: tuple[Decimal, ...] | None
    wanted: tuple[str, ...] = ()
    table: str = ""
    """The table of a studio's file that a missing price belongs into."""


@dataclass(frozen=True)
class CostSheet:
    """What the sizes of a garment cost, line by line."""

    sizes: tuple[str, ...]
    lines: tuple[CostLine, ...]
    currency: str

    @property
    def missing(self) -> tuple[CostLine, ...]:
        """The lines without a price."""
        return tuple(line for line in self.lines if line.money is None)

    def totals(self) -> tuple[Decimal, ...]:
        """The sum of all lines that have a price, for each size."""
        priced = [line.money for line in self.lines if line.money is not None]
        return tuple(sum((money[k] for money in priced), Decimal(0)) for k in range(len(self.sizes)))


def in_cents(money: Decimal) -> Decimal:
    """Rounded to the cent, halves up."""
    return money.quantize(_CENT, ROUND_HALF_UP)


def cloth_line(name: str, row: Sequence[ClothNeed], prices: Prices, fabric: str = "") -> CostLine:
    """What one cloth costs: the length that a shop cuts for each size, by its price by length.

    It is priced by its `name` in the pattern, or as the `fabric` that it is, or as any cloth.
    """
    wanted = tuple(dict.fromkeys(one for one in (name, fabric, ANY_CLOTH) if one))
    price = next((prices.cloth[one] for one in wanted if one in prices.cloth), None)
    lengths = [as_cut(need.bought, prices, price) for need in row]
    what = f"{name or ANY_CLOTH}, {width_words(row[0].cloth.width)} wide"
    money = tuple(in_cents(price.of_length(length)) for length in lengths) if price else None
    return CostLine(what, tuple(length_words(length, price) for length in lengths), money, wanted, "prices.cloth")


def as_cut(length: float, prices: Prices, price: Price | None) -> float:
    """A length in mm as it is cut off the bolt: up to the studio's own step, or what shops cut that sell so."""
    by_yard = price is not None and price.per == "yard"
    return rounded_up(length, prices.sold_by or (EIGHTH_YARD if by_yard else FIVE_CENTIMETRES))


def length_words(mm: float, price: Price | None) -> str:
    """`1.25 m`, or `1.375 yd` where it is priced by the yard."""
    return f"{mm / _YARD:.3f} yd" if price is not None and price.per == "yard" else f"{mm / 1000:.2f} m"


def notion_lines(garment: Garment, prices: Prices, bodies: Sequence[int]) -> Iterator[CostLine]:
    """A line for each notion of a garment, for these bodies of it."""
    for one in bought(garment):
        yield notion_line(one, prices, bodies)


def notion_line(one: Bought, prices: Prices, bodies: Sequence[int]) -> CostLine:
    """What so many, or so much, of a notion costs; one where the pattern says no amount."""
    wanted = wanted_of(one)
    price = notion_price(wanted, prices)
    amounts = [amount_of(one, body) for body in bodies]
    money = [money_for(price, count, length) for count, length in amounts]
    sums = tuple(in_cents(each) for each in money if each is not None)
    words = tuple(notion_words(count, length) for count, length in amounts)
    return CostLine(plain(one.name), words, sums if len(sums) == len(bodies) else None, wanted, "prices.notions")


def wanted_of(one: Bought) -> tuple[str, ...]:
    """The names under which the price of a notion is looked for: a zip's sort too."""
    zips = (one.sort, "zip") if one.sort else ()
    return tuple(dict.fromkeys(name for name in (one.name, *zips) if name))


def notion_price(wanted: Sequence[str], prices: Prices) -> Price | None:
    """The first price that there is under some names."""
    known = {_alike(name): price for name, price in prices.notions.items()}
    return next((known[_alike(name)] for name in wanted if _alike(name) in known), None)


def _alike(name: str) -> str:
    """Names that mean the same: `clear_elastic` and `Clear elastic`."""
    return plain(name).casefold()


def amount_of(one: Bought, body: int) -> tuple[int, float | None]:
    """How many of a notion a body takes, and how long each is, mm; None where it has no length."""
    count = 1 if one.count is None else round(float(np.asarray(one.count)[body]))
    length = None if one.length is None else float(np.asarray(one.length)[body])
    return count, length


def notion_words(count: int, length: float | None) -> str:
    """`2`, `90 cm` or `2 of 20 cm`."""
    if length is None:
        return str(count)
    long = f"{round(length / 10 * _TENTHS) / _TENTHS:g} cm"
    return long if count == 1 else f"{count} of {long}"


def money_for(price: Price | None, count: int, length: float | None) -> Decimal | None:
    """What so many of a notion cost, each so long; None where nothing says so much."""
    if price is None:
        return None
    if not price.by_length:
        return price.of_count(count)
    return None if length is None else price.of_length(length * count)
