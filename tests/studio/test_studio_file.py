"""A studio's file: what it says, and every mistake in it with its place and a fix."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from draft.base.notes import Problems
from draft.studio.colours import LINES, TEXT, contrast, darker
from draft.studio.prices import Price
from draft.studio.studio import HELD, Studio
from draft.studio.studio_file import read_studio, studio_beside

WHOLE = """name = "Withy Bank Patterns"
mark = "withy.svg"
address = ["4 Osier Lane", "Saltmarsh"]
link = "https://withybank.example"
licence = "For private sewing."
terms = "Please send others to our shop."
languages = ["en", "de"]
pages = ["A4", "letter", "a4"]
large_papers = ["a0"]
assemble = "butt"
units = "cm"
cloth = ["150 cm", "58 in"]
pack = ["pages", "booklet"]
large_print = true

[colours]
headings = "#1D4F4B"
lines = "#37b"

[prices]
currency = "EUR"
sold_by = "10 cm"
hour = 24

[prices.cloth]
cloth = 12.50
"rib knit" = "9,20 per yard"

[prices.notions]
elastic = "1.20 per metre"
buttons = "2.40 per 6"
zip = 3.5

[prices.garment]
label = 0.35
parcel = "4.20"
"""


def _read(folder: Path, text: str) -> Studio:
    (folder / "withy.svg").write_text("<svg/>", encoding="utf-8")
    (folder / "studio.toml").write_text(text, encoding="utf-8")
    found = studio_beside(folder)
    assert found
    return found


def _notes(folder: Path, text: str) -> list[tuple[str, str, str]]:
    with pytest.raises(Problems) as caught:
        _read(folder, text)
    return [(str(note.span), note.message, note.hints[0] if note.hints else "") for note in caught.value.notes]


def test_all_that_a_studio_says_is_read(tmp_path: Path) -> None:
    studio = _read(tmp_path, WHOLE)
    assert (studio.name, studio.mark) == ("Withy Bank Patterns", tmp_path / "withy.svg")
    assert studio.address == ("4 Osier Lane", "Saltmarsh")
    assert studio.terms == ("Please send others to our shop.",)
    assert studio.languages == ("en", "de") and studio.pages == ("a4", "letter")
    assert studio.large_papers == ("a0",) and studio.assemble == "butt" and studio.units == "cm"
    assert studio.pack == ("pages", "booklet") and studio.large_print
    assert (studio.colours.headings, studio.colours.lines) == ("#1d4f4b", "#3377bb")
    assert str(studio.places["units"]) == "studio.toml:11:1"


def test_what_is_not_said_is_usual_and_a_folder_may_have_no_studio(tmp_path: Path) -> None:
    assert studio_beside(tmp_path) is None
    studio = _read(tmp_path, 'name = "Withy Bank"')
    assert studio.pack == HELD and studio.large_papers == () and not studio.prices.currency


def test_prices_are_decimal_and_of_a_length_or_of_things(tmp_path: Path) -> None:
    prices = _read(tmp_path, WHOLE).prices
    assert prices.currency == "EUR" and prices.sold_by == 100.0 and prices.hour == 24
    assert prices.of_cloth("jersey") == Price(Decimal("12.5"), "metre")
    rib = prices.of_cloth("rib knit")
    assert rib and rib.of_length(914.4) == Decimal("9.20")  # a yard is 0.9144 m exactly (agreement of 1959)
    assert prices.notions["elastic"].of_length(500) == Decimal("0.6")
    assert prices.notions["buttons"].of_count(7) == Decimal("4.80")  # two cards of six
    assert prices.notions["zip"].of_count(2) == 7
    assert prices.each_garment == Decimal("4.55")
    for wrong in (lambda: prices.notions["zip"].of_length(1), lambda: prices.notions["elastic"].of_count(1)):
        with pytest.raises(ValueError, match="this price is of a"):
            wrong()


@pytest.mark.parametrize(
    ("line", "fact", "fix"),
    [
        ('nme = "x"', "`nme` is nothing that a studio's file says", "try `name`"),
        ("address = 4", "`address` is not a text in quotes", 'write `address = ["4 Osier Lane", "Saltmarsh"]`'),
        ('link = "withybank"', "a link begins with `https://` and holds no spaces", 'write `link = "https://..."`'),
        ('link = "https://a b"', "a link begins with `https://` and holds no spaces", 'write `link = "https://..."`'),
        ('units = "metric"', "`metric` is nothing that `units` may be", "choose from both, in, cm"),
        ('pack = ["bookled"]', "`bookled` is nothing that `pack` may be", "try `booklet`"),
        ("large_print = 1", "`large_print` is neither true nor false", "write `large_print = true`, without quotes"),
        ('cloth = "wide"', "`wide` is not a width of cloth", 'write `cloth = ["150 cm"]`'),
        ('cloth = "30 deg"', "`30 deg` is not a width of cloth", 'write `cloth = ["150 cm"]`'),
        (
            'mark = "../x.svg"',
            "`../x.svg` is no SVG file beside this one",
            'give its name, such as `mark = "mark.svg"`',
        ),
        ('mark = "x.png"', "`x.png` is no SVG file beside this one", 'give its name, such as `mark = "mark.svg"`'),
        ('mark = "gone.svg"', "there is no file `gone.svg` beside this one", "put it there, or take the line out"),
        ("colours = 3", "`colours` is not a table", "write `[colours]` in a line of its own, lines below it"),
        ("prices = 3", "`prices` is not a table", "write `[prices]` in a line of its own, lines below it"),
    ],
)
def test_a_mistake_has_its_place_and_a_fix(tmp_path: Path, line: str, fact: str, fix: str) -> None:
    assert _notes(tmp_path, f'name = "Withy Bank"\n{line}')[0] == ("studio.toml:2:1", fact, fix)


@pytest.mark.parametrize(
    ("lines", "fact"),
    [
        ('hour = "much"', "`hour` is no price"),
        ("hour = -3", "`hour` is no price"),
        ("hour = inf", "`hour` is no price"),
        ('sold_by = "3 deg"', "`sold_by` is not a length"),
        ('[prices.cloth]\nlining = "3 each"', "`lining` is no price of a length"),
        ('[prices.notions]\nzip = "2 per 0"', "`zip` is no price"),
        ('[prices.notions]\nzip = "2 per 3 yards"', "`zip` is no price"),
        ("[prices.cost]\nx = 1", "`cost` is nothing that `[prices]` says"),
    ],
)
def test_a_price_that_is_none_is_told(tmp_path: Path, lines: str, fact: str) -> None:
    assert fact in [one[1] for one in _notes(tmp_path, f'name = "W"\n[prices]\ncurrency = "EUR"\n{lines}')]


def test_every_mistake_is_told_at_once_and_no_more_than_help(tmp_path: Path) -> None:
    many = _notes(tmp_path, 'name = "W"\n' + "\n".join(f"key{k} = {k}" for k in range(300)))
    assert len(many) == 20
    assert _notes(tmp_path, "")[0][1] == "`studio.toml` does not say what the studio is called"
    assert _notes(tmp_path, f'name = "{"x" * 61}"')[0][1].startswith("`name` has 61 letters, more than the 60")
    assert _notes(tmp_path, 'name = "a\\u202eb"')[0][1] == "`name` holds what cannot be seen"
    assert _notes(tmp_path, 'name = "W"\n[prices]\nhour = 3')[0][1] == "the prices have no currency"


def test_a_colour_that_is_too_light_is_refused_with_its_figure_and_one_that_is_not(tmp_path: Path) -> None:
    found = _notes(tmp_path, 'name = "W"\n[colours]\nheadings = "#88c0d0"\nlines = "teal"')
    assert found[0][:2] == (
        "studio.toml:3:1",
        "#88c0d0 is too light for words on white paper: its contrast is 2.0 : 1, not 4.5 : 1",
    )
    assert found[0][2].startswith("try `headings = ")
    assert found[1][1] == "`lines` is not a colour"


def test_contrast_is_that_of_wcag() -> None:
    """WCAG 2.2: black on white is 21 : 1; #767676 is the lightest grey that has 4.5 : 1 (well-known, from memory)."""
    assert contrast("#000000") == pytest.approx(21.0)
    assert contrast("#ffffff") == pytest.approx(1.0)
    assert contrast("#767676") >= TEXT > contrast("#777777")
    assert contrast("#ff0000") == pytest.approx(3.998, abs=0.001)  # by its formula: 1.05 / (0.2126 + 0.05)


@given(st.integers(0, 0xFFFFFF), st.sampled_from([TEXT, LINES]))
def test_the_suggestion_is_readable_and_a_shade_of_the_colour(number: int, least: float) -> None:
    colour = f"#{number:06x}"
    found = darker(colour, least)
    assert contrast(found) >= least
    assert contrast(found) >= contrast(colour) or contrast(colour) >= least


def test_a_file_that_is_no_toml_is_told(tmp_path: Path) -> None:
    (tmp_path / "studio.toml").write_text("name: Withy", encoding="utf-8")
    with pytest.raises(Problems, match="this is not TOML"):
        read_studio(tmp_path / "studio.toml")


_KEYS = [
    "name",
    "mark",
    "address",
    "link",
    "licence",
    "terms",
    "languages",
    "pages",
    "units",
    "cloth",
    "pack",
    "colours",
    "prices",
]
_VALUES = [
    '"x"',
    "3",
    "true",
    "[]",
    '["a4", 3]',
    "{}",
    "{cloth = 3}",
    '{headings = "#fff"}',
    "1979-05-27",
    '""',
    "nan",
    '"\\u202e"',
]


@settings(deadline=None, max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.dictionaries(st.sampled_from(_KEYS), st.sampled_from(_VALUES)))
def test_an_odd_file_is_read_or_told(tmp_path: Path, lines: dict[str, str]) -> None:
    text = "\n".join(f"{key} = {value}" for key, value in lines.items())
    try:
        assert _read(tmp_path, text).name
    except Problems as problems:
        assert all(note.message for note in problems.notes)
