"""Tables of orders as spreadsheets of several countries save them, and what is odd in them."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.orders.batch import rows_of
from draft.orders.became import Refused
from draft.orders.one_order import Order
from draft.orders.orders_table import Offered, read_orders

OFFERED = Offered(
    {"marlpit": "marlpit", "tidemill": "tidemill"}, {"moderate": "moderate", "own": "cloths/own.toml"},
    {"pattern": "marlpit", "pages": ["a4"]},
)  # fmt: skip
INES = Order(
    "A-1", "marlpit", {"bust_girth": "98.5 cm", "waist_girth": "83 cm", "stature": "168 cm"},
    styles={"neckline": "vee"}, pages=("a4",),
)  # fmt: skip


def _read(path: Path, text: str | bytes, offered: Offered = OFFERED) -> list[Order | Refused]:
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return read_orders(path, offered)[0]


ENGLISH = "order,name,bust cm,waist_girth (cm),Height [cm],style neckline\nA-1,Ines,98.5,83,168,vee\n"
GERMAN = "order;name;bust cm;waist_girth (cm);Height [cm];style neckline\r\nA-1;Inés Ümlaut;98,5;83;168;vee\r\n"


@pytest.mark.parametrize(
    "data",
    [
        ENGLISH.encode(),
        b"\xef\xbb\xbf" + ENGLISH.encode(),
        GERMAN.encode("cp1252"),
        GERMAN.encode("utf-16"),
        b"sep=;\r\n" + GERMAN.encode(),
        GERMAN.replace(";", "\t").encode(),
        ENGLISH.replace("98.5", '"98,5"').encode(),
        ENGLISH.replace("98.5", "98 1/2").replace("\n", "\n\n,,,,,\n").encode(),
        ENGLISH.replace("bust cm", "bust").replace("98.5", "98.5 cm").replace("A-1,", '"A-1" ,').encode(),
    ],
)
def test_one_order_however_it_is_saved(tmp_path: Path, data: bytes) -> None:
    (order,) = _read(tmp_path / "people.csv", data)
    assert isinstance(order, Order)
    bust = order.measures["bust_girth"].replace("98 1/2", "98.5")
    assert Order(**{**vars_of(order), "measures": {**order.measures, "bust_girth": bust}}) == INES


def vars_of(order: Order) -> dict:
    return {name: getattr(order, name) for name in order.__dataclass_fields__}


def test_every_word_of_an_order_has_its_column(tmp_path: Path) -> None:
    head = (
        "order;pattern;size;chart;style;cloth;width;unwashed;allowance;page;paper;assemble;language;units;one way;"
        "selvedge;repeat;large print"
    )
    row = "7;tidemill;M, L;petite;neckline=vee, sleeve=30,5 cm;own;140,5 cm; ja;1,5 cm;a4+letter;a0;Butt;DE;cm;x;"
    row = f"{row}2cm;4cm;no"
    (order,) = _read(tmp_path / "people.csv", f"{head}\n{row}\n")
    assert order == Order(
        "7", "tidemill", sizes=("M", "L"), chart="petite", styles={"neckline": "vee", "sleeve": "30.5 cm"},
        cloth="cloths/own.toml", widths=("140.5 cm",), unwashed=True, allowance="1.5 cm", pages=("a4", "letter"),
        large=("a0",), assemble="butt", language="de", units="cm", one_way=True, selvedge="2cm", repeat="4cm",
        large_print=False,
    )  # fmt: skip


def test_a_row_wins_over_the_options(tmp_path: Path) -> None:
    text = "order,pattern,size,page\n1,tidemill,M,\n2,tidemill,M,a3\n3,,M,\n4,,M,none\n"
    pages = [one.pages for one in _read(tmp_path / "people.csv", text) if isinstance(one, Order)]
    assert pages == [("a4",), ("a3",), ("a4",), ()]
    first, *_, last = _read(tmp_path / "people.csv", text, Offered(OFFERED.patterns, {}, {}))
    assert isinstance(first, Order) and first.pages is None
    assert isinstance(last, Refused) and "names no pattern" in last.reasons[0]


@pytest.mark.parametrize(
    ("row", "told"),
    [
        ("1,../secret,M,,", "no pattern `../secret` among those offered"),
        ("1,marlpit,M,/etc/passwd,", "no cloth `/etc/passwd`"),
        ("1,marlpit,M,,perhaps", "neither yes nor no"),
        ("1,marlpit,M,,yes,more", "more cells than the first line"),
        ("1,tidemil,M,,", "no pattern `tidemil`"),
        ("1,marlpit," + "M" * 300 + ",,", "no list of texts"),
    ],
)
def test_an_odd_row_is_refused_by_itself(tmp_path: Path, row: str, told: str) -> None:
    text = f"order,pattern,size,cloth,one way\n{row}\n2,marlpit,M,,\n"
    refused, fine = _read(tmp_path / "people.csv", text)
    assert isinstance(refused, Refused) and told in refused.reasons[0] and refused.key == "1"
    assert isinstance(fine, Order)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "is empty"),
        ("order,size\n", "no orders below it"),
        ("shoe,hat\n1,2\n", "no column that orders know"),
        ("order,bust_grith cm\n1,98\n", "`bust_grith cm` is none that is known"),
        ("order,bust deg\n1,98\n", "wrong unit"),
        ("order,bust cm,bust_girth in\n1,98,38\n", "`bust_girth` has two columns"),
        ("order,patern\n1,marlpit\n", "`patern` is none that is known"),
        ('order,size\n1,"M\n' + "2,M\n" * 400, "does not close"),
        (b"order\0size", "no table in plain text"),
    ],
)
def test_a_table_that_is_none_is_told(tmp_path: Path, text: str | bytes, told: str) -> None:
    with pytest.raises(Problems) as problems:
        _read(tmp_path / "people.csv", text)
    assert told in str(problems.value)


def test_columns_that_nothing_is_made_of_are_told_once(tmp_path: Path) -> None:
    path = tmp_path / "people.csv"
    path.write_text("order,name,size,shoe colour,paid\n1,Ines,M,red,yes\n2,Ines,M,,\n")
    orders, notes = read_orders(path, OFFERED)
    assert [note.message for note in notes] == ["nothing is made of these columns: `shoe colour`, `paid`"]
    assert [one.key for one in orders] == ["1", "2"] and "Ines" not in repr(orders)


def test_rows_without_a_number_go_by_their_place(tmp_path: Path) -> None:
    found = _read(tmp_path / "people.csv", "name,size\nInes,M\nInes,M\n")
    assert [one.key for one in found] == ["order-0001", "order-0002"]


_HEADS = st.sampled_from(
    ["order", "bust cm", "Size", "style", "style neckline", "one way", "page", "width", "name", "x", ""]
)
_CELLS = st.one_of(
    st.text(max_size=12), st.sampled_from(["98,5", "M", "neckline=vee", '"', "ja", "../x", "=1+1", "\x00", "∞"])
)


@settings(max_examples=150, deadline=None)
@given(st.lists(_HEADS, max_size=6), st.lists(st.lists(_CELLS, max_size=7), max_size=5), st.sampled_from(";,\t"))
def test_odd_tables_are_told_or_read(tmp_path_factory, head, rows, parted) -> None:
    path = tmp_path_factory.mktemp("odd") / "people.csv"
    _read_or_told(path, "\r\n".join(parted.join(cells) for cells in [head, *rows]).encode("utf-8", "surrogatepass"))


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=200))
def test_odd_bytes_are_told_or_read(tmp_path_factory, data: bytes) -> None:
    _read_or_told(tmp_path_factory.mktemp("odd") / "people.csv", b"order,size\n" + data)


def _read_or_told(path: Path, data: bytes) -> None:
    try:
        found = _read(path, data)
    except Problems as problems:
        assert problems.notes
    else:
        assert found and len({row.order.key.casefold() for row in rows_of(found)}) == len(found)
