"""What a column of a table of orders is for, told by its head: a word of orders, a style, or a measure in its unit."""

from __future__ import annotations

import re
from collections.abc import Sequence

from draft.base.notes import Note, error, nearest, remark
from draft.base.record import dataclass
from draft.base.units import UNITS
from draft.bodies.measures import MEASURES
from draft.bodies.own_measure import Known

WORDS = (
    "order", "pattern", "size", "like", "figure", "chart", "style", "cloth", "width", "unwashed", "allowance", "page",
    "paper", "assemble", "language", "units", "one way", "selvedge", "repeat", "large print",
)  # fmt: skip
"""Heads that say what an order says; all else is a measure, a style, or nobody's business here."""
UNREAD = ("name", "customer", "email", "address", "phone", "note", "notes", "date")
"""Heads that a shop's own table often has, and that nothing is made of: not read, and not told of each."""
SHORT = {
    "bust": "bust_girth", "chest": "bust_girth", "waist": "waist_girth", "hip": "hip_girth", "hips": "hip_girth",
    "height": "stature",
}  # fmt: skip
_ALSO = {
    "order number": "order", "order no": "order", "sizes": "size", "styles": "style", "fabric": "cloth",
    "widths": "width", "pages": "page", "papers": "paper", "unit": "units", "large": "paper",
}  # fmt: skip
_STYLE = re.compile(r"style[: ]+(\w+)")


@dataclass(frozen=True)
class Column:
    """What a column holds: `word` of an order, the `style` of a name, or the `measure` of a name in a unit."""

    word: str = ""
    style: str = ""
    measure: str = ""
    unit: str = ""


def columns_of(head: Sequence[str], known: Known = MEASURES) -> tuple[list[Column | None], list[Note]]:
    """A column for each head, None where nothing is made of it; and what is wrong with them, or left out."""
    columns: list[Column | None] = []
    notes: list[Note] = []
    left: list[str] = []
    for cell in head:
        found = column_of(cell, known)
        columns.append(found if isinstance(found, Column) else None)
        if isinstance(found, Note):
            notes.append(found)
        elif found is None and cell and _plain(cell) not in UNREAD:
            left.append(cell)
    notes += _twice(columns)
    if left:
        listed = ", ".join(f"`{cell[:40]}`" for cell in left[:12]) + (" and others" if left[12:] else "")
        notes.append(remark(f"nothing is made of these columns: {listed}"))
    return columns, notes


def column_of(cell: str, known: Known = MEASURES) -> Column | Note | None:
    """What a head is for; None for nothing that orders know, and a note where it was meant to be."""
    plain = _plain(cell)
    word = _ALSO.get(plain, plain)
    if word in WORDS:
        return Column(word)
    if plain in UNREAD:
        return None
    if found := _STYLE.fullmatch(_folded(cell).replace("_", "_")):
        return Column(style=found[1])
    return _measure(cell, known)


def _measure(cell: str, known: Known) -> Column | Note | None:
    words = re.sub(r"[()\[\]]", " ", _folded(cell)).split()
    unit = words.pop() if len(words) > 1 and words[-1] in UNITS else ""
    name = "_".join("_".join(words).split())
    name = SHORT.get(name, name)
    if name in known:
        if unit and UNITS[unit][0] is not known[name].kind:
            example = known[name].example.rpartition(" ")[2]
            return error(f"the column `{cell[:40]}` is in a wrong unit", None, f"try `{name} {example}`")
        return Column(measure=name, unit=unit)
    close = nearest(name, [*known, *SHORT, *WORDS, *_ALSO]) or nearest(name.replace("_", " "), [*WORDS, *_ALSO])
    if unit and not close:
        close = ("`plainseam measures` lists the names of all",)
    return error(f"the column `{cell[:40]}` is none that is known", None, *close) if close else None


def _twice(columns: Sequence[Column | None]) -> list[Note]:
    seen = [(one.word, one.style, one.measure) for one in columns if one and one.word != "style"]
    twice = [names for k, names in enumerate(seen) if names in seen[:k]]
    return [error(f"`{next(filter(None, names))}` has two columns", None, "take one of them out") for names in twice]


def _folded(cell: str) -> str:
    return " ".join(cell.lower().split())


def _plain(cell: str) -> str:
    return _folded(cell.replace("_", " "))
