"""What a table of orders takes: a cut list, cloth by its width, several garments laid together, what each costs.

Garments of one pattern that are cut alike, of one cloth and width, are laid together so many at a time: pieces of one
fill the gaps of another. Each order is also laid by itself, as its maker would, so that both lengths stand side by
side.
"""

from __future__ import annotations

import string
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field, replace
from decimal import Decimal

from draft.base.naming import plain
from draft.base.notes import Problems
from draft.base.record import dataclass
from draft.cloth.batches import Shelf
from draft.cloth.bolt import Cloth
from draft.cloth.cut_pieces import CutPiece, stop_if_too_many
from draft.cloth.effort import Effort
from draft.cloth.lays import best_lay
from draft.cloth.needs import ClothNeed, Size
from draft.cloth.of_one import of_each_cloth
from draft.costing.cost_lines import (
    CostLine,
    amount_of,
    cloth_line,
    in_cents,
    money_for,
    notion_lines,
    notion_price,
    wanted_of,
)
from draft.costing.cost_sheet import fabric_name, laid_on
from draft.costing.printed import printed_pages
from draft.drafting.checked import draft_planned
from draft.drafting.drafting import Drafted
from draft.garment.garment import Garment
from draft.laying.lay_sizes import sizes_of
from draft.orders.became import Refused
from draft.orders.one_order import Order, paper_of_order, request_of_order
from draft.orders.order_made import Plans, refused_for
from draft.seams.bought import bought
from draft.studio.prices import Prices

AT_ONCE = 4
"""Garments in one lay: a home table and a roll of cloth hold some, and more save little."""


@dataclass(frozen=True)
class CutPieceOf:
    """One line of a cut list: so often a piece of a cloth, for one order."""

    order: str
    pattern: str
    cloth: str
    piece: str
    count: int


@dataclass(frozen=True)
class Together:
    """Several orders as one lay: the garment that its pieces are called by, the orders, and what they need."""

    pattern: str
    cloth: str
    garment: Garment
    orders: tuple[str, ...]
    need: ClothNeed
    alone: float
    """What they need each by itself, all of them, mm to buy."""


@dataclass
class NotionTotal:
    """What all orders take of one notion: so many, or so much, and what that costs bought at once."""

    what: str
    long: float | None
    """How long each is, mm, of a notion that is counted and has a length."""
    count: int = 0
    length: float = 0.0
    money: Decimal | None = None


@dataclass
class Cutting:
    """What all orders of a table come to."""

    cut_list: list[CutPieceOf] = field(default_factory=list)
    costs: dict[str, tuple[CostLine, ...]] = field(default_factory=dict)
    refused: dict[str, Refused] = field(default_factory=dict)
    lays: list[Together] = field(default_factory=list)
    notions: dict[tuple[str, float | None], NotionTotal] = field(default_factory=dict)
    currency: str = ""

    def total_of(self, order: str) -> Decimal:
        """What one order costs, but for what has no price."""
        return sum((line.money[0] for line in self.costs[order] if line.money), Decimal(0))


@dataclass(frozen=True)
class _Alike:
    """What garments must have in common to be laid together."""

    pattern: str
    pieces: tuple[str, ...]
    cloth: str
    bolt: Cloth


@dataclass(frozen=True)
class _Waiting:
    order: str
    garment: Garment
    cut_pieces: tuple[CutPiece, ...]
    need: ClothNeed


def cutting_of(
    orders: Sequence[Order],
    prices: Callable[[Drafted], Prices],
    effort: Effort,
    at_once: int = AT_ONCE,
    step: Callable[[int], object] = lambda done: None,
) -> Cutting:
    """Draft every order, lay it alone and with others, and price it; `step` is told how many are drafted.

    `prices` gives those of a drafted garment's studio, and raises `Problems` where it has none. What cannot be drafted
    or laid is refused by itself.
    """
    found, waiting = Cutting(), dict[_Alike, list[_Waiting]]()
    plans = Plans()
    for number, order in enumerate(orders):
        _take(order, plans, prices, effort, found, waiting)
        step(number + 1)
    for alike, some in waiting.items():
        for first in range(0, len(some), at_once):
            found.lays.append(_together(alike, some[first : first + at_once], effort))
    return found


def _take(
    order: Order,
    plans: Plans,
    prices: Callable[[Drafted], Prices],
    effort: Effort,
    found: Cutting,
    waiting: dict[_Alike, list[_Waiting]],
) -> None:
    drafted: Drafted | None = None
    try:
        planned = plans.of(request_of_order(order))
        paper = paper_of_order(order, planned.studio)
        drafted = draft_planned(planned, whole=True)
        needs = laid_on(drafted, paper.cloth or (), effort, "width", order.one_way)
    except Problems as problems:
        found.refused[order.key] = refused_for(order, drafted, problems.notes)
        return
    known = prices(drafted)
    found.currency = known.currency
    pages = None if known.page is None else printed_pages(drafted, paper)
    found.costs[order.key] = tuple(_lines(drafted, needs, known, pages))
    _add_notions(drafted.to_cut, known, found.notions)
    for name, garment in of_each_cloth(drafted.to_cut).items():
        row = needs[name]
        found.cut_list += _listed(order, name, garment)
        for size, need in zip(sizes_of(garment), row, strict=True):
            pieces = tuple(f"{piece.name} {piece.cut}" for piece in garment.pieces)
            alike = _Alike(order.pattern, pieces, name or fabric_name(drafted), need.cloth)
            called = order.key if len(row) == 1 else f"{order.key} {size.name}"
            waiting.setdefault(alike, []).append(_Waiting(called, garment, size.cut_pieces, need))


def _lines(
    drafted: Drafted, needs: Mapping[str, tuple[ClothNeed, ...]], prices: Prices, pages: Sequence[int] | None
) -> Iterator[CostLine]:
    """The lines of one order: of several sizes together."""
    for name, row in needs.items():
        yield _summed([cloth_line(name, [need], prices, fabric_name(drafted)) for need in row])
    bodies = range(len(drafted.to_cut.sizes))
    for line in notion_lines(drafted.to_cut, prices, bodies):
        parts = [replace(line, amounts=(line.amounts[k],), money=line.money and (line.money[k],)) for k in bodies]
        yield _summed(parts)
    for name, each in prices.garment.items():
        yield CostLine(name, (str(len(bodies)),), (in_cents(each * len(bodies)),))
    if pages and prices.page is not None:
        yield CostLine("pages", (str(sum(pages)),), (in_cents(prices.page * sum(pages)),))


def _add_notions(garment: Garment, prices: Prices, found: dict[tuple[str, float | None], NotionTotal]) -> None:
    """Add what a garment takes; packs are bought for all orders at once."""
    for one in bought(garment):
        price = notion_price(wanted_of(one), prices)
        for body in range(len(garment.sizes)):
            count, length = amount_of(one, body)
            long = length if one.count is not None else None
            total = found.setdefault((one.name, long), NotionTotal(plain(one.name), long))
            if length is None or long is not None:
                total.count += count
            else:
                total.length += length
            money = money_for(price, total.count or 1, total.length or long)
            total.money = None if money is None else in_cents(money)


def _summed(parts: Sequence[CostLine]) -> CostLine:
    """One line for one garment, or for several of an order."""
    money = [part.money[0] for part in parts if part.money]
    whole = (sum(money, Decimal(0)),) if len(money) == len(parts) else None
    return replace(parts[0], amounts=(" + ".join(part.amounts[0] for part in parts),), money=whole)


def _listed(order: Order, cloth: str, garment: Garment) -> Iterator[CutPieceOf]:
    sizes = garment.sizes if order.sizes else (order.key,)
    for size in sizes:
        called = order.key if len(sizes) == 1 else f"{order.key} {size}"
        for piece in garment.pieces:
            if piece.cut:
                yield CutPieceOf(called, order.pattern, cloth, piece.title, piece.cut)


def _together(alike: _Alike, some: Sequence[_Waiting], effort: Effort) -> Together:
    """Several garments as one lay; pieces bear a letter for their order, whose number has no room on a narrow one."""
    alone = sum(one.need.bought for one in some)
    letters = [string.ascii_lowercase[k % 26] * (k // 26 + 1) for k in range(len(some))]
    named = list(zip(letters, some, strict=True))
    cut_pieces = tuple(replace(piece, size=letter) for letter, one in named for piece in one.cut_pieces)
    whole = Size(", ".join(f"{letter} = {one.order}" for letter, one in named), cut_pieces, Shelf())
    stop_if_too_many(whole.cut_pieces)
    found = best_lay(whole.cut_pieces, alike.bolt, effort, whole.shelf)
    assert found, "every piece is narrower than the cloth, so there is a lay"
    need = ClothNeed(whole.name, alike.bolt, found, found.length)
    return Together(alike.pattern, alike.cloth, some[0].garment, tuple(one.order for one in some), need, alone)
