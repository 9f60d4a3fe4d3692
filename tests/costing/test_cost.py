"""What a garment costs: sums that can be worked out by hand from the lay and the prices."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from pathlib import Path

import pytest

from draft.base.notes import Problems
from draft.cloth.effort import effort
from draft.cloth.needs import ClothNeed
from draft.costing.cost_lines import amount_of, as_cut, cloth_line, in_cents, notion_line
from draft.costing.cost_sheet import cost_csv, cost_report, cost_sheet, laid_on, missing_notes
from draft.costing.prices_found import prices_found
from draft.costing.printed import printed_pages
from draft.pack.pack import PackFacts, pack_files
from draft.pack.paper_request import PaperRequest
from draft.seams.bought import bought
from draft.studio.prices import Price, Prices
from draft.studio.studio_file import read_studio
from tests.asking import bundled

METRE = Price(Decimal("12.50"), "metre")
PRICES = Prices(
    "EUR", {"cloth": METRE, "interfacing": Price(Decimal("11"), "yard")},
    {"clear elastic": Price(Decimal("1.20"), "metre"), "buttons": Price(Decimal("2.40"), "each", 6)},
    {"label": Decimal("0.35")}, Decimal(24), Decimal("0.08"), 100.0,
)  # fmt: skip


def _need(length: float) -> ClothNeed:
    row = laid_on(bundled("marlpit", "M"), ["150 cm"], effort("quick"), "--width")[""]
    return replace(row[0], length=row[0].cloth.left(length))


def test_cloth_is_cut_off_the_bolt_in_the_shops_steps() -> None:
    assert as_cut(1001.0, PRICES, METRE) == pytest.approx(1100.0)
    assert as_cut(1001.0, Prices("EUR"), METRE) == pytest.approx(1050.0)  # shops that sell by the metre cut by 5 cm
    assert as_cut(1001.0, Prices("USD"), Price(Decimal(9), "yard")) == pytest.approx(9 * 114.3)  # by eighths of a yard
    line = cloth_line("", [_need(1001.0)], PRICES)
    assert line.amounts == ("1.10 m",) and line.money == (Decimal("13.75"),)
    yard = cloth_line("interfacing", [_need(1001.0)], Prices("USD", PRICES.cloth))
    assert yard.amounts == ("1.125 yd",) and yard.money == (Decimal("12.38"),)  # 1.125 x 11 = 12.375, halves up


def test_cloth_is_priced_by_its_name_then_as_what_it_is_then_as_any() -> None:
    prices = Prices("EUR", {"cloth": METRE, "moderate": Price(Decimal(20), "metre")})
    assert cloth_line("lining", [_need(1000.0)], prices, "moderate").money == (Decimal("20.00"),)
    assert cloth_line("lining", [_need(1000.0)], prices).money == (Decimal("12.50"),)
    assert cloth_line("lining", [_need(1000.0)], Prices("EUR")).money is None


def test_notions_are_sold_whole_or_by_length() -> None:
    buttons = next(one for one in bought(bundled("lockside", "M").garment) if one.name == "buttons")
    count, length = amount_of(buttons, 0)
    assert length is None and count == 8
    line = notion_line(buttons, PRICES, [0])
    assert line.money == (Decimal("4.80"),)  # two packs of six
    elastic = next(one for one in bought(bundled("marlpit", "M").garment) if one.name == "clear_elastic")
    _, long = amount_of(elastic, 0)
    assert long and notion_line(elastic, PRICES, [0]).money == (in_cents(Decimal("1.20") * Decimal(str(long)) / 1000),)


def test_the_sheet_adds_up_and_names_what_has_no_price(tmp_path: Path) -> None:
    sheet = cost_sheet(bundled("marlpit", "S", "M"), PRICES, ["150 cm"], effort("quick"), Decimal("2.5"), [12, 14])
    assert sheet.sizes == ("S", "M")
    money = [[line.money[k] for line in sheet.lines if line.money] for k in range(2)]
    assert sheet.totals() == (sum(money[0]), sum(money[1]))
    by_name = {line.what: line.money for line in sheet.lines}
    assert by_name["hours of work"] == (Decimal("60.00"),) * 2
    assert by_name["pages"] == (Decimal("0.96"), Decimal("1.12")) and by_name["label"] == (Decimal("0.35"),) * 2
    (note, *others) = missing_notes(sheet.lines)
    assert "`thread` has no price" in note.message and not others
    assert 'write `"thread" = 3.50` below `[prices.notions]`' in note.hints[0]
    assert "together without the lines marked ?" in cost_report(sheet)
    assert cost_csv(sheet).decode().splitlines()[0] == "what,S amount,S EUR,M amount,M EUR"


def test_pages_are_those_that_a_pack_prints() -> None:
    facts = PackFacts()
    drafted = bundled("marlpit", "M")
    pack_files(drafted, PaperRequest(("a4",), cloth=(), holds=("pages",)), facts=facts)
    assert printed_pages(drafted, PaperRequest(("a4", "letter"))) == [facts.pages["a4"] + 1]  # and the guide
    assert printed_pages(drafted, PaperRequest(())) is None


def test_prices_that_are_not_there_are_told(tmp_path: Path) -> None:
    with pytest.raises(Problems, match="there are no prices"):
        prices_found(None, None)
    file = tmp_path / "studio.toml"
    file.write_text('name = "Withy Bank"\n')
    with pytest.raises(Problems, match="says no prices"):
        prices_found(None, read_studio(file))
    file.write_text('name = "Withy Bank"\n[prices]\ncurrency = "EUR"\n[prices.cloth]\ncloth = 12.5\n')
    assert prices_found(file, None).currency == "EUR"
