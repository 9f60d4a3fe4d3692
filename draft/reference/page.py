"""The reference as a page in Markdown; `plainseam words --page pieces/WORDS.md` writes it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from draft.base.units import UNITS, in_words
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.fabrics.properties import PROPERTIES
from draft.reference.entries import ReferenceEntry, entries, grouped
from draft.reference.result import result
from draft.reference.unit_names import unit_in_words
from draft.words.example import EXAMPLE

_HEAD = """\
# The words of the language

Everything that a piece file can say. Words in capitals stand for what you write yourself; what stands in brackets may
be left out; a bar stands between words of which one is written. `plainseam words WORD` shows what there is on one.

What stands under a line is indented by four spaces more. A line that is too long goes on below in the same way where
nothing stands under it. A remark begins with `#` and ends with its line.

<!-- Written by `plainseam words --page pieces/WORDS.md` from the records that the program itself reads. -->
"""
_VALUES = """\
These give a value or a point. Their examples are lines of the front of this small draft, under `let` where they have an
`=`, else under `points`:

```
{example}```
"""


def words_page() -> str:
    """The whole page."""
    groups = grouped(entries())
    forms = [group for group, found in groups.items() if not found[0].value]
    words = [group for group in groups if group not in forms]
    titles = [*forms, "the words for values and points", *words, "units", "body measures", "properties of cloth"]
    parts = [_HEAD, "\n".join(f"- [{_title(title)}](#{title.replace(' ', '-')})" for title in titles) + "\n"]
    parts += [_section(group, *(_form(entry) for entry in groups[group])) for group in forms]
    parts.append(_section("the words for values and points", _VALUES.format(example=EXAMPLE)))
    parts += [_section(group, _words(groups[group])) for group in words]
    parts += [_section("units", _units()), _section("body measures", _measures())]
    parts.append(_section("properties of cloth", _properties()))
    return "\n".join(parts)


def _section(title: str, *parts: str) -> str:
    return f"## {_title(title)}\n\n" + "\n".join(parts)


def _title(title: str) -> str:
    return title[0].upper() + title[1:]


def _form(entry: ReferenceEntry) -> str:
    where = f" Under `{entry.inside}`:" if entry.inside else ""
    return f"### {_title(entry.name)}\n\n```\n{entry.form}\n```\n\n{entry.words}{where}\n\n```\n{entry.example}\n```\n"


def _words(found: Iterable[ReferenceEntry]) -> str:
    rows = [(f"`{e.form}`", e.words, f"`{' '.join(e.example.split())}`", result(e.example)) for e in found]
    return _table(("write", "what it is", "example", "comes to"), rows)


def _units() -> str:
    return _table(("unit", "for", ""), [(f"`{name}`", UNITS[name][0].value, unit_in_words(name)) for name in UNITS])


def _measures() -> str:
    rows = [(f"`{m.name}`", m.how, *_limits(m), m.clause) for m in MEASURES.values()]
    return _table(("measure", "how it is taken", "from", "to", "ISO 8559-1:2017"), rows)


def _limits(measure: BodyMeasure) -> tuple[str, str]:
    return in_words(measure.low, measure.kind), in_words(measure.high, measure.kind)


def _properties() -> str:
    return _table(
        ("property", "how it is found", "as in"), [(f"`{p.name}`", p.how, p.example) for p in PROPERTIES.values()]
    )


def _table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)
