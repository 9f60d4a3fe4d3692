"""The reference in a terminal: all of it in groups, or what there is on one word."""

from __future__ import annotations

from textwrap import fill, wrap

from draft.base.notes import Problems, error, nearest
from draft.base.units import UNITS, in_words
from draft.bodies.measures import MEASURES, BodyMeasure
from draft.fabrics.properties import PROPERTIES
from draft.reference.entries import ReferenceEntry, entries, entries_about, grouped
from draft.reference.result import result
from draft.reference.trade import TRADE
from draft.reference.unit_names import unit_in_words

WIDTH = 100  # columns: a line that the eye finds its way back from
COLUMN = 44  # columns for the form; a longer one has its sentence on the next line


def words_report() -> str:
    """Every form and word with its sentence."""
    parts = [
        f"{group}\n" + "\n".join(_row(e.title, _short(e.words)) for e in es) for group, es in grouped(entries()).items()
    ]
    units = f"units\n  {', '.join(UNITS)}"
    more = "`plainseam words WORD` says more, with an example; `plainseam measures` lists the body measures"
    return "\n\n".join([*parts, units, more])


def word_report(word: str) -> str:
    """All that there is on one word. Raises `Problems` for a word that the language does not have."""
    if word in MEASURES:
        return _measure(MEASURES[word])
    if word in PROPERTIES:
        return f"{word}: a property of cloth\n\n{_indented(PROPERTIES[word].how)}"
    if word in UNITS:
        return f"{word}: a unit for {UNITS[word][0].value}\n\n  {unit_in_words(word)}"
    first, other = entries_about(word)
    if not first and word.lower() in TRADE:
        return f"{word}: a word of the trade, not of the language\n\n{_indented(TRADE[word.lower()])}"
    if not first:
        raise Problems([error(f"`{word}` is not a word of the language", None, *(_near(word) or (_LIST,)))])
    also = "also in\n" + "\n".join(_row(e.with_words(word.split()), _short(e.words)) for e in other)
    more = f"in the trade\n{_indented(TRADE.get(word.lower(), ''))}"
    return "\n\n".join(
        [*(_entry(e) for e in first), *([also] if other else []), *([more] if word.lower() in TRADE else [])]
    )


_LIST = "`plainseam words` lists them all"


def _near(word: str) -> tuple[str, ...]:
    known = {keyword for entry in entries() for keyword in entry.keywords} | {
        e.name.replace("_", " ") for e in entries()
    }
    return nearest(word, known | set(MEASURES) | set(PROPERTIES) | set(UNITS))


def _short(words: str) -> str:
    """The first sentence."""
    return f"{words.removesuffix('.').split('. ')[0]}."


def _row(form: str, words: str) -> str:
    sentence = wrap(words, WIDTH - COLUMN - 2)
    if len(form) > COLUMN - 2:
        return "\n".join([f"  {form}", *(" " * (COLUMN + 2) + row for row in sentence)])
    rows = [f"  {form.ljust(COLUMN)}{sentence[0]}", *(" " * (COLUMN + 2) + row for row in sentence[1:])]
    return "\n".join(rows)


def _indented(words: str) -> str:
    return fill(words, WIDTH, initial_indent="  ", subsequent_indent="  ")


def _entry(entry: ReferenceEntry) -> str:
    parts = [entry.form, _indented(entry.words)]
    facts = [("takes", entry.takes), ("gives", entry.gives), ("fails", entry.fails)]
    known = "\n".join(f"  {label}  {said}" for label, said in facts if said)
    where = f", under `{entry.inside}`" if entry.inside else ""
    comes = f"\n\n  comes to {result(entry.example)}" if entry.value else ""
    example = "\n".join(f"    {line}" for line in entry.example.split("\n"))
    return "\n\n".join([*parts, *([known] if known else []), f"  an example{where}\n\n{example}{comes}"])


def _measure(measure: BodyMeasure) -> str:
    low, high = in_words(measure.low, measure.kind), in_words(measure.high, measure.kind)
    clause = f"ISO 8559-1:2017, {measure.clause}" if measure.clause else "a term of the trade"
    return f"{measure.name}: a body measure ({clause})\n\n{_indented(measure.how)}\n  from {low} to {high}"
