"""The verb `orders`, as a shop types it."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path

from tests.command.run import Runner

TABLE = (
    "order;Name;bust cm;waist cm;hip cm;height cm;style neckline;language\r\n"
    "A-1;Ines Höfer;98,3;83;104;168;vee;de\r\n"
    "A-2;Ines Höfer;45,7;83;104;168;;de\r\n"
)


def test_orders_are_made_told_and_gone_on_with(run: Runner, tmp_path: Path) -> None:
    table, out = tmp_path / "people.csv", tmp_path / "out"
    table.write_bytes(TABLE.encode("cp1252"))
    words = ("orders", table, "--pattern", "marlpit", "--page", "none", "--cloth", "none", "--workers", 1, "--out", out)
    ran = run(*words)
    assert ran.code == 1 and "1 of 2 orders are made" in ran.out and "western Windows" in ran.err
    assert sorted(path.name for path in out.iterdir()) == [
        "A-1", "SHA256SUMS", "orders.csv", "orders.journal", "orders.json"
    ]  # fmt: skip
    for line in (out / "SHA256SUMS").read_text().splitlines():
        digest, _, name = line.partition("  ")
        assert hashlib.sha256((out / name).read_bytes()).hexdigest() == digest
    said = "".join((out / name).read_text() for name in ("orders.csv", "orders.json", "orders.journal", "SHA256SUMS"))
    for secret in ("Ines", "98.3", "98,3", "45.7", "45,7", "983", "457"):
        assert secret not in re.sub("[0-9a-f]{16,}", "", said) + ran.out + ran.err  # digests hold any digits
    again = run(*words, "--json")
    told = json.loads(again.out)
    assert again.code == 1 and [one["became"] for one in told["rows"]] == ["made", "refused"]
    assert "2 were settled by an earlier start" in told["sentences"][0] and told["settled_before"] == 2
    other = run(*words, "--language", "en")
    assert other.code == 1 and "with other options" not in other.out  # the row's own language stands
    other = run(*words, "--allowance", "1cm")
    assert other.code == 1 and "another table, or with other options" in other.err and "A-1" not in other.err


def test_a_folder_that_cannot_be_written_is_told(run: Runner, tmp_path: Path) -> None:
    table = tmp_path / "people.csv"
    table.write_text("order,size\nA-1,M\n")
    (tmp_path / "file").write_text("")
    ran = run("orders", table, "--pattern", "marlpit", "--out", tmp_path / "file" / "out")
    assert ran.code == 1 and "cannot be written" in ran.err
    ran = run("orders", table, "--pattern", "marlpitt", "--out", tmp_path / "out")
    assert ran.code == 1 and "no pattern called `marlpitt`" in ran.err and not (tmp_path / "out").exists()


STUDIO = """name = "Withy Bank"
[prices]
currency = "EUR"
sold_by = "10 cm"
hour = 24
[prices.cloth]
cloth = 12.50
[prices.notions]
clear_elastic = "1.20 per metre"
"""


def test_a_garment_and_a_table_of_orders_are_priced(run: Runner, tmp_path: Path) -> None:
    table, prices = tmp_path / "people.csv", tmp_path / "studio.toml"
    table.write_text("order,size\nA-1,S\nA-2,M\n")
    prices.write_text(STUDIO)
    ran = run("cost", "marlpit", "--sizes", "M", "--width", "150cm", "--prices", prices, "--hours", "2,5")
    assert ran.code == 0 and "hours of work" in ran.out and "60.00" in ran.out and "`thread` has no price" in ran.err
    told = json.loads(run("cost", "marlpit", "--sizes", "M", "--prices", prices, "--json").out)
    assert told["verb"] == "cost" and told["without_a_price"] == ["thread"] and told["sizes"][0]["size"] == "M"
    assert run("cost", "marlpit", "--sizes", "M", "--prices", prices, "--hours", "some").code == 2
    without = run("cost", "marlpit", "--sizes", "M")
    assert without.code == 1 and "no `studio.toml` lies beside the pattern" in without.err
    out = tmp_path / "out"
    words = ("cut", table, "--pattern", "marlpit", "--cloth", "150cm", "--prices", prices)
    ran = run(*words, "--json", "--out", out)
    assert ran.code == 0 and [one["order"] for one in json.loads(ran.out)["orders"]] == [
        "A-1",
        "A-2",
    ]
    assert {path.name for path in out.iterdir()} == {"cut-list.csv", "cloth.csv", "notions.csv", "cost.csv", "lays"}


def test_two_orders_of_one_number_are_told_apart(run: Runner, tmp_path: Path) -> None:
    table, out = tmp_path / "people.csv", tmp_path / "out"
    table.write_text("order,name,size\n7/1,Ines,XX\n7/1,Ines,XX\ncon,Jo,XX\n8,Jo,XX\n")
    ran = run("orders", table, "--pattern", "marlpit", "--workers", 1, "--out", out)
    assert ran.code == 1 and "they go by `7-1`, `7-1-2`, `order-con`" in ran.err
    rows = (out / "orders.csv").read_text().splitlines()[1:]
    assert [row.split(",")[:4] for row in rows] == [
        [str(k + 1), number, "marlpit", "refused"] for k, number in enumerate(("7/1", "7/1", "con", "8"))
    ]
    assert "there is no size `XX`" in rows[0] and [
        row["key"] for row in json.loads((out / "orders.json").read_text())["rows"]
    ] == ["7-1", "7-1-2", "order-con", "8"]
