"""What a studio says once: who it is, how its documents look, what a pack of it holds, and its prices."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from pathlib import Path
from typing import Literal, get_args

from draft.base.notes import Span
from draft.base.record import dataclass
from draft.studio.prices import NO_PRICES, Prices

FILE = "studio.toml"
Held = Literal["pages", "booklet", "html", "flat", "svg", "tables", "epub"]
"""What a pack may hold: documents for a home printer, the booklet as PDF, HTML and EPUB, the garment drawn flat, a
drawing a size, tables. Large papers are there when they are asked for."""
KINDS: tuple[Held, ...] = get_args(Held)
HELD: tuple[Held, ...] = tuple(kind for kind in KINDS if kind != "epub")
"""What one holds if nothing is said."""
Assemble = Literal["overlap", "butt"]
InUnits = Literal["both", "in", "cm"]
INK = "#000000"


@dataclass(frozen=True)
class Colours:
    """Of headings and of the lines under them, as `#rrggbb`; lines of a pattern stay black."""

    headings: str = INK
    lines: str = INK


@dataclass(frozen=True)
class Studio:
    """A studio. What it does not say is empty, and usual.

    `address` and `terms` are lines and paragraphs in the order written; `languages`, `pages` and `large_papers` are
    names as options take them, `cloth` widths such as `150 cm`. `places` are where its keys stand in the file, for
    who finds out later that one cannot be had.
    """

    file: Path
    name: str
    mark: Path | None = None
    address: tuple[str, ...] = ()
    link: str = ""
    licence: str = ""
    terms: tuple[str, ...] = ()
    languages: tuple[str, ...] = ()
    pages: tuple[str, ...] = ()
    large_papers: tuple[str, ...] = ()
    assemble: Assemble | None = None
    units: InUnits | None = None
    cloth: tuple[str, ...] = ()
    pack: tuple[Held, ...] = HELD
    large_print: bool = False
    colours: Colours = Colours()
    prices: Prices = NO_PRICES
    places: Mapping[str, Span] = field(default_factory=dict, compare=False, repr=False, hash=False)
