"""The sound inputs, and those with known mistakes, that odd ones are made of."""

from __future__ import annotations

import random
import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from draft.base.resources import folder
from tests.project.checkout import ROOT

Files = dict[str, bytes]
"""What lies in the folder of a case, by its name."""


@dataclass(frozen=True)
class Text:
    """A pattern, and the files beside it that it names."""

    name: str
    text: str
    beside: tuple[tuple[str, bytes], ...]


@cache
def bundled() -> tuple[Text, ...]:
    """The patterns and templates that come with the command."""
    return _texts_in(folder("pieces"))


@cache
def good() -> tuple[Text, ...]:
    """Small garments that draft clean."""
    return _texts_in(ROOT / "tests" / "good")


def small(chance: random.Random) -> Text:
    """One of the small garments by chance, a short text more often than a long one."""
    some = good()
    (found,) = chance.choices(some, [1 / (200 + len(text.text)) for text in some])
    return found


@cache
def bad() -> tuple[Text, ...]:
    """Patterns with known mistakes."""
    return _texts_in(ROOT / "tests" / "bad")


def _texts_in(place: Path) -> tuple[Text, ...]:
    return tuple(_text(path) for path in sorted(place.glob("*.piece")))


def _text(path: Path) -> Text:
    text = path.read_text(encoding="utf-8")
    named = sorted(set(re.findall(r'"([\w-]+\.\w+)"', text)))
    beside = [(name, (path.parent / name).read_bytes()) for name in named if (path.parent / name).is_file()]
    return Text(path.name, text, tuple(beside))


@cache
def charts() -> tuple[str, ...]:
    """Size charts."""
    places = (folder("pieces") / "women.csv", *sorted((ROOT / "tests").glob("*/*.csv")))
    return tuple(place.read_text(encoding="utf-8") for place in places)


@cache
def cloths() -> tuple[str, ...]:
    """Files about cloth, and one that says everything that there is to say."""
    whole = (
        'name = "cotton jersey"\nstretch_across = "50 %"\nstretch_down = "25 %"\nrecovery = "95 %"\n'
        'width = "150 cm"\nshrinkage_across = "3 %"\nshrinkage_down = "6 %"\n'
    )
    bundled_ones = sorted((folder("pieces") / "fabrics").glob("*.toml"))
    return (whole, *(path.read_text(encoding="utf-8") for path in bundled_ones))


@cache
def people() -> tuple[str, ...]:
    """Files of one person's measures, made from columns of the bundled chart."""
    rows = [line.split(",") for line in (folder("pieces") / "women.csv").read_text(encoding="utf-8").splitlines()]
    columns = range(2, len(rows[0]))
    whole = ['name = "Ines"\n\n[measures]\n' + _measures(rows[1:], column) for column in columns]
    bare = 'units = "cm"\n[measures]\nbust_girth = 98\nwaist_girth = 80.5\nhip_girth = "40 1/2 in"\nstature = 170\n'
    return (*whole, bare, 'measures.bust_girth = "98 cm"\nmeasures.hip_girth = "104 cm"\n')


def _measures(rows: list[list[str]], column: int) -> str:
    return "".join(f'{row[0]} = "{row[column]} {row[1]}"\n' for row in rows)


@cache
def crowds() -> tuple[str, ...]:
    """Tables of many bodies."""
    rows = [line.split(",") for line in (folder("pieces") / "women.csv").read_text(encoding="utf-8").splitlines()]
    head = ",".join(["name", *(f"{row[0]} {row[1]}" for row in rows[1:])])
    bodies = [",".join([name, *(row[2 + k] for row in rows[1:])]) for k, name in enumerate(rows[0][2:])]
    few = "name,bust_girth cm,waist_girth (in),hip_girth cm\nAda,98,31 1/2,104\n,88,28,96\nEva,x,30,99\n"
    return ("\n".join([head, *bodies, ""]), few)


REMNANT = "0 cm, 0 cm\n150 cm, 0 cm\n150 cm, 80 cm\n90 cm, 80 cm\n90 cm, 140 cm\n0 cm, 140 cm\n"
"""The corners of what is left of a cloth."""
PRICES = """name = "Withy Bank"
[prices]
currency = "EUR"
sold_by = "10 cm"
hour = 24
page = 0.08
[prices.cloth]
cloth = 12.50
interfacing = "7.90 per metre"
[prices.notions]
clear_elastic = "1.20 per metre"
buttons = "2.40 per 6"
[prices.garment]
label = 0.35
"""
"""What a studio says of its prices."""
PICTURES = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><rect x="5" y="5" width="30" height="20" rx="3" fill='
    '"none" stroke="#000"/><text x="3" y="9" font-size="4">pin here</text></svg>',
    '<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="30mm" viewBox="0 0 60 30"><defs><linearGradient '
    'id="g"><stop offset="0" stop-color="#fff"/><stop offset="1" stop-color="#888"/></linearGradient><clipPath id="c">'
    '\n<circle cx="20" cy="15" r="12"/></clipPath></defs><g clip-path="url(#c)" transform="rotate(10 20 15)">\n'
    '<path d="M2 2 C10 20 30 20 38 2 A5 5 0 0 1 20 28 Z" fill="url(#g)" stroke="red" stroke-width="0.4" '
    'stroke-dasharray="2 1"/></g>\n<polyline points="1,1 5,9 12,4" fill="none" stroke="black"/>\n<g '
    'transform="translate(30,4) scale(0.5)"><ellipse cx="5" cy="5" rx="4" ry="2"/><text>a<tspan dx="2">b</tspan></text>'
    "</g>\n<style>path { opacity: 0.5 }</style></svg>",
)
"""Pictures as a designer draws them."""


@cache
def translations() -> str:
    return (folder("pieces") / "marlpit.de.toml").read_text(encoding="utf-8")
