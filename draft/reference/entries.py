"""Every record of the language in one list: forms of the structure, words for values and points."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from draft.base.record import dataclass
from draft.base.units import Kind
from draft.language.forms import FORMS
from draft.words import arithmetic, directions, measuring, points, rows
from draft.words.word import Takes, Word

_WORDS = {
    "amounts": arithmetic.WORDS,
    "lengths and angles": measuring.WORDS,
    "directions": directions.WORDS,
    "points and lines": (*points.WORDS, *rows.WORDS),
}


@dataclass(frozen=True)
class ReferenceEntry:
    """One record as the reference shows it; `takes`, `gives` and `fails` are empty for a form of the structure."""

    name: str
    group: str
    form: str
    words: str
    example: str
    inside: str = ""
    takes: str = ""
    gives: str = ""
    fails: str = ""

    @property
    def value(self) -> bool:
        """Whether it gives a value or a point, so that its example has a result."""
        return bool(self.gives)

    @property
    def keywords(self) -> tuple[str, ...]:
        """The words and marks of the form that are written as they stand."""
        return tuple(re.findall(r"\b[a-z]+\b|(?<=A )[-+*/](?= B)", self.form))

    def with_words(self, words: Sequence[str]) -> str:
        """The line of the form in which keywords stand, after the word that heads it."""
        rows = self.form.split("\n")
        row = next((row for row in rows if set(words) <= set(re.findall(r"[a-z]+", row))), rows[0])
        return row if row == rows[0] else f"{rows[0].split()[0]}: {row.strip()}"

    @property
    def title(self) -> str:
        """The form on one line."""
        return self.form.split("\n")[0]


def entries() -> list[ReferenceEntry]:
    """All records, group by group."""
    forms = [
        ReferenceEntry(f.name, group, f.form, f.words, f.example, f.inside) for group, fs in FORMS.items() for f in fs
    ]
    return forms + [_entry(group, word) for group, words in _WORDS.items() for word in words]


def _entry(group: str, word: Word) -> ReferenceEntry:
    block = "let" if word.example.split()[1] == "=" else "points"
    gives = word.gives.value if isinstance(word.gives, Kind) else "what goes with it"
    takes = "; ".join(_kinds(takes) for takes in word.takes)
    more = "; ..." if word.repeats else ""
    return ReferenceEntry(word.name, group, word.form, word.words, word.example, block, takes + more, gives, word.fails)


def _kinds(takes: Takes) -> str:
    if callable(takes):
        return "what goes with it"
    *most, last = [kind.value for kind in Kind if kind in takes]
    return f"{', '.join(most)} or {last}" if most else last


def grouped(found: Iterable[ReferenceEntry]) -> dict[str, list[ReferenceEntry]]:
    """Entries by their group, in order."""
    groups: dict[str, list[ReferenceEntry]] = {}
    for entry in found:
        groups.setdefault(entry.group, []).append(entry)
    return groups


def entries_about(word: str) -> tuple[list[ReferenceEntry], list[ReferenceEntry]]:
    """The entries that a word begins or names, and those that it stands in besides."""
    asked = tuple(word.split())
    first, other = [], []
    for entry in entries():
        keywords = entry.keywords
        if keywords[: len(asked)] == asked or " ".join(asked) in (entry.name, entry.name.replace("_", " ")):
            first.append(entry)
        elif any(keywords[k : k + len(asked)] == asked for k in range(len(keywords))):
            other.append(entry)
    return (first, other) if first else (other, [])
