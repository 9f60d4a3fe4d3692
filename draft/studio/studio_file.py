"""Finding and reading `studio.toml`: looked for beside a pattern, as its chart is.

    name      = "Withy Bank Patterns"
    mark      = "withy-bank.svg"
    address   = ["4 Osier Lane", "Saltmarsh"]
    link      = "https://withybank.example"
    licence   = "Sew as many as you like for yourself, and up to twenty a year to sell."
    terms     = "Please send others to our shop instead of a copy."
    languages = ["en", "de"]
    pages     = ["a4", "letter"]
    large_papers = ["a0"]
    units     = "both"
    cloth     = ["150 cm"]
    pack      = ["pages", "booklet", "html"]

    [colours]
    headings  = "#1d4f4b"
    lines     = "#2f7d77"

Prices are described in `draft/studio/prices.py`; `studio.de.toml` beside it has its texts in another language.
"""

from __future__ import annotations

from pathlib import Path
from typing import get_args

from draft.base.disk import is_beside, is_there
from draft.base.notes import Note, Span, error, stop_if_errors
from draft.base.textfile import read_source
from draft.base.toml import read_toml
from draft.base.units import Kind, QuantityError, read_quantity
from draft.studio.colours import LINES, TEXT, colour_of
from draft.studio.lines_read import Lines
from draft.studio.prices_read import prices_of
from draft.studio.studio import FILE, HELD, INK, KINDS, Assemble, Colours, Held, InUnits, Studio

LINE = 'name = "Withy Bank Patterns"'
_NAME, _SHORT, _LONG = 60, 120, 600
"""Letters of a name, of a line and of a paragraph: what a foot, a cover and a guide have room for."""
LONGEST_LINK = 362
"""Bytes in the largest code that the booklet has room for, as a pattern's own link."""


def studio_beside(folder: Path) -> Studio | None:
    """The studio of a folder of patterns; None where it has none. Raises `Problems` with all mistakes of its file."""
    file = folder / FILE
    return read_studio(file) if is_there(file) else None


def read_studio(file: Path) -> Studio:
    """The studio in a file. Raises `Problems` with every mistake in it, or with why it cannot be read."""
    source = read_source(file, "studio's file")
    table, notes = read_toml(source, LINE), list[Note]()
    lines = Lines(source, table, notes)
    studio = Studio(
        file=file,
        name=lines.text("name", _NAME, "Withy Bank Patterns"),
        mark=_mark(lines, file.parent),
        address=lines.texts("address", _NAME, '["4 Osier Lane", "Saltmarsh"]'),
        link=lines.read("link", _link, ""),
        licence=lines.text("licence", _LONG, "For private sewing"),
        terms=lines.texts("terms", _LONG, '"Please send others to our shop."'),
        languages=lines.texts("languages", _NAME, '["en", "de"]'),
        pages=_names(lines.texts("pages", _NAME, '["a4", "letter"]')),
        large_papers=_names(lines.texts("large_papers", _NAME, '["a0"]')),
        assemble=lines.choice("assemble", get_args(Assemble)),
        units=lines.choice("units", get_args(InUnits)),
        cloth=_widths(lines),
        pack=_held(lines),
        large_print=lines.flag("large_print"),
        colours=_colours(lines),
        prices=prices_of(lines.take("prices"), lines),
        places={key: span for key in table if (span := lines.at(key))},
    )
    lines.end()
    if not studio.name and not notes:
        notes.append(error(f"`{source.name}` does not say what the studio is called", None, f"add a line `{LINE}`"))
    stop_if_errors(notes)
    return studio


def _mark(lines: Lines, folder: Path) -> Path | None:
    """The file of the mark; what is in it is looked at when it is drawn."""
    name = lines.text("mark", _NAME, "withy-bank.svg")
    if not name:
        return None
    file = folder / name
    if Path(name).name != name or not name.lower().endswith(".svg"):
        lines.note(f"`{name}` is no SVG file beside this one", "mark", 'give its name, such as `mark = "mark.svg"`')
    elif not is_beside(file, folder):
        lines.note(f"there is no file `{name}` beside this one", "mark", "put it there, or take the line out")
    return file


def _link(given: object, key: str, span: Span | None) -> str | Note:
    text = given.strip() if isinstance(given, str) else ""
    plain = text.isprintable() and not any(letter.isspace() for letter in text)
    if not plain or not text.startswith(("https://", "http://")) or len(text) <= len("https://"):
        return error("a link begins with `https://` and holds no spaces", span, f'write `{key} = "https://..."`')
    if len(text.encode()) > LONGEST_LINK:
        return error(f"this link is longer than the {LONGEST_LINK} letters of the largest code that is printed", span)
    return text


def _names(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(text.lower() for text in texts))


def _widths(lines: Lines) -> tuple[str, ...]:
    found = lines.texts("cloth", _NAME, '["150 cm", "58 in"]')
    for text in found:
        try:
            quantity = read_quantity(text)
        except (QuantityError, OverflowError):
            quantity = None
        if quantity is None or quantity.kind is not Kind.LENGTH or not quantity.value > 0:
            lines.note(f"`{text}` is not a width of cloth", "cloth", 'write `cloth = ["150 cm"]`')
    return found


def _held(lines: Lines) -> tuple[Held, ...]:
    found = lines.choices("pack", KINDS)
    if found == ():
        lines.note("a pack that holds nothing is none", "pack", f"choose from {', '.join(KINDS)}")
    return HELD if found is None else found


def _colours(lines: Lines) -> Colours:
    given = lines.take("colours")
    if given is None:
        return Colours()
    table = Lines(lines.source, given, lines.notes, "colours")
    found = Colours(
        table.read("headings", lambda *line: colour_of(line[0], line[1], TEXT, line[2]), INK),
        table.read("lines", lambda *line: colour_of(line[0], line[1], LINES, line[2]), INK),
    )
    table.end()
    return found
