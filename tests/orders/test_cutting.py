"""What a table of orders takes: everything is cut once, and together it takes no more cloth than each alone."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from decimal import Decimal

import pytest

from draft.base.as_data import json_bytes
from draft.cloth.effort import effort
from draft.orders.cut_for_orders import Cutting, cutting_of
from draft.orders.cutting_told import cutting_data, cutting_files, cutting_report, refused_notes
from draft.orders.one_order import Order
from draft.studio.prices import NO_PRICES, Price, Prices

PRICES = Prices(
    "EUR",
    {"cloth": Price(Decimal("10"), "metre")},
    {"thread": Price(Decimal("2.40"), "each", 2)},
    {"label": Decimal("0.35")},
)
HERS = {"waist": "83 cm", "hip": "104 cm", "stature": "168 cm"}
ORDERS = [
    *(Order(f"A-{k}", "marlpit", {**HERS, "bust": f"{90.37 + k} cm"}, widths=("150 cm",)) for k in range(3)),
    Order("A-3", "marlpit", {**HERS, "bust": "9037 cm"}),
    Order("A-4", "marlpit", sizes=("S", "M"), widths=("150 cm",)),
]


@pytest.fixture(scope="module")
def cutting() -> Cutting:
    return cutting_of(ORDERS, lambda drafted: PRICES, effort("quick"), at_once=3)


def test_every_piece_is_cut_once_in_a_lay(cutting: Cutting) -> None:
    wanted = sum(one.count for one in cutting.cut_list)
    assert wanted == 5 * 5  # back, front, neckband, two sleeve bands of five garments
    assert sum(not copy.spare for lay in cutting.lays for copy in lay.need.lay.copies()) == wanted
    assert [lay.orders for lay in cutting.lays] == [("A-0", "A-1", "A-2"), ("A-4 S", "A-4 M")]


def test_together_they_take_less_cloth(cutting: Cutting) -> None:
    assert all(lay.need.bought < lay.alone for lay in cutting.lays)


def test_each_order_is_priced_as_it_is_cut_alone(cutting: Cutting) -> None:
    cloth, _, thread, label = cutting.costs["A-4"]
    assert thread.money == (Decimal("4.80"),)  # a pack of two for each garment, when each is bought for alone
    first, _, second = cloth.amounts[0].partition(" + ")
    assert cloth.money == (sum(Decimal(one.removesuffix(" m")) * 10 for one in (first, second)),)
    assert label.amounts == ("2",) and label.money == (Decimal("0.70"),)
    assert cutting.total_of("A-4") == cloth.money[0] + Decimal("5.50")
    assert "outside" in cutting.refused["A-3"].reasons[0] and "9037" not in str(cutting.refused["A-3"])


def test_notions_are_bought_for_all_orders_at_once(cutting: Cutting) -> None:
    rows = list(csv.DictReader(io.StringIO(cutting_files(cutting)["notions.csv"].decode())))
    elastic, thread = ({name: row[name] for name in row} for row in rows)
    assert thread == {"notion": "thread", "each cm": "", "count": "5", "length cm": "", "EUR": "7.20"}  # three packs
    alone = [line.amounts[0] for lines in cutting.costs.values() for line in lines if line.what == "clear elastic"]
    whole = sum(int(part.removesuffix(" cm")) for amounts in alone for part in amounts.split(" + "))
    assert (elastic["length cm"], elastic["count"], elastic["EUR"]) == (str(whole), "", "")


def test_it_is_told_in_tables_and_pictures(cutting: Cutting) -> None:
    files = cutting_files(cutting)
    assert [*files] == ["cut-list.csv", "cloth.csv", "notions.csv", "cost.csv", "lays/001.svg", "lays/002.svg"]
    rows = list(csv.DictReader(io.StringIO(files["cloth.csv"].decode())))
    assert [row["lay"] for row in rows] == ["001", "002", "all"] and rows[-1]["garments"] == "5"
    assert ">a = A-0, b = A-1, c = A-2" in files["lays/001.svg"].decode()
    assert 'A-3,"refused: `bust_girth` is … cm' in files["cost.csv"].decode()
    said = cutting_report(cutting)
    assert "marlpit, 150 cm" in said and "4 orders, each cut alone:" in said and "refused: A-3" in said
    (note,) = refused_notes(cutting)
    assert "order `A-3` is refused: `bust_girth` is … cm" in note.message and note.hints
    for text in (note.message.encode(), *files.values(), json_bytes(cutting_data(cutting))):
        assert b"90.37" not in text and b"9037" not in text


def test_pages_are_priced_where_the_studio_prices_them() -> None:
    prices = Prices("EUR", page=Decimal("0.10"))
    found = cutting_of([replace(ORDERS[0], pages=("a4",))], lambda drafted: prices, effort("quick"))
    line = found.costs["A-0"][-1]
    assert line.what == "pages" and line.money == (Decimal(line.amounts[0]) / 10,)


def test_without_prices_it_says_what_is_cut_and_no_money() -> None:
    found = cutting_of(ORDERS[:1], lambda drafted: NO_PRICES, effort("quick"))
    assert "each cut alone" not in cutting_report(found) and len(found.cut_list) == 4
