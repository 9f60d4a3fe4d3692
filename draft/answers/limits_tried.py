"""The limits of a pattern told: each cause of a fault as one note, a table of the ends, every case as a row."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from draft.base.csvtext import Row, csv_text
from draft.base.naming import plain
from draft.base.notes import Note
from draft.base.text_columns import in_columns
from draft.paper.drawing.svg import svg
from draft.paper.pictures.ends_drawing import ends_drawing
from draft.paper.pictures.worst_drawing import WorstCase, worst_drawing
from draft.trying.causes import Case, Cause
from draft.trying.limits import Limits
from draft.trying.settings import Setting

SHOWN = 3  # settings that bring a fault about; the table has them all
AS_IT_STANDS = "as it stands"


def limits_report(limits: Limits) -> str:
    """What was tried, and for each style how many bodies it fails at each of its ends."""
    settings, bodies = limits.settings, limits.bodies
    said = [f"{limits.title}: {_many(len(limits.offers), 'style')}"]
    said += [f"each alone at its ends, for {_many(len(bodies), 'body')}: {_many(1 + len(settings.alone), 'setting')}"]
    if settings.pairs:
        how = "pairs of ends, too many to try one by one, many at a time" if settings.covering else "each pair of ends"
        said += [f"{how}, for {' '.join(limits.ends.names)}: {_many(len(settings.pairs), 'setting')}"]
    rows = list(_rows(limits))
    if len(rows) > 1:
        said += ["", in_columns(rows)]
    return "\n".join([*said, "", _result(limits)])


def _result(limits: Limits) -> str:
    errors = sum(cause.is_error for cause in limits.causes)
    weighed = len(limits.causes) - errors
    fails = f"{_many(errors, 'thing')} {'fails' if errors == 1 else 'fail'}" if errors else "nothing fails"
    return f"{fails}; {weighed} to be weighed" if weighed else fails


def _rows(limits: Limits) -> Iterator[tuple[str, ...]]:
    """A row for each end alone: how many bodies it fails, and of how many there is something to weigh."""
    counted = {is_error: _concerned(limits, is_error) for is_error in (True, False)}
    ends = [((), (AS_IT_STANDS, "")), *((o.at(end), (o.name, end)) for o in limits.offers for end in o.ends)]
    yield ("style", "end", "fails", "to weigh")
    for setting, words in ends:
        yield (*words, *(str(counts.get(setting, "-")) for counts in (counted[True], counted[False])))


def _concerned(limits: Limits, is_error: bool) -> dict[Setting, int]:
    """For each setting in which there is anything, how many bodies it is of: all where nothing could be planned."""
    whom: dict[Setting, set[str]] = {}
    for case in (case for cause in limits.causes if cause.is_error == is_error for case in cause.cases):
        whom.setdefault(case.setting, set()).update([case.body] if case.body else limits.bodies.names)
    return {setting: len(bodies) for setting, bodies in whom.items()}


def limits_notes(limits: Limits) -> list[Note]:
    """A note for each cause: its line, how many settings and bodies, the worst case, and what brings it about."""
    return [_note(cause) for cause in limits.causes]


def _note(cause: Cause) -> Note:
    assert cause.worst
    where = f"in {_many(len(cause.settings), 'setting')}"
    whom = f", for {_many(len(cause.bodies), 'body')}" if cause.bodies else ""
    figures = [hint for hint in cause.note.hints if hint.startswith(("at worst", "it changes", "of "))][:1]
    fixes = [hint for hint in cause.note.hints if hint not in figures]
    worst = f"the worst is {cause.worst.body}, {said(cause.worst.setting)}" if cause.worst.body else ""
    alone = cause.least == (cause.worst.setting,)
    hints = [*figures, worst, "" if alone else f"it comes with {_least(cause)}", *fixes]
    return replace(cause.note, message=f"{cause.fact}, {where}{whom}", hints=tuple(filter(None, hints)), off=None)


def _least(cause: Cause) -> str:
    least = sorted(cause.least, key=len)
    more = f"; and {len(least) - SHOWN} more" if len(least) > SHOWN else ""
    return "; ".join(said(setting) for setting in least[:SHOWN]) + more


def said(setting: Setting) -> str:
    """A setting in words: `sleeve=cap with bust_ease=-6 cm`."""
    return " with ".join(f"{name}={text}" for name, text in setting) or AS_IT_STANDS


def limits_files(limits: Limits) -> dict[str, bytes]:
    """Every case as a row, the worst case of each cause drawn, and the ends of each style in outline."""
    files = {"limits.csv": csv_text(_table(limits))}
    worst = [_drawn(limits, cause) for cause in limits.causes if cause.drawn is not None]
    if worst:
        files["worst.svg"] = svg(worst_drawing(limits.title, worst)).encode()
    usual = limits.drawn.get(())
    if usual is not None:
        ends = [(said(setting), limits.drawn[setting]) for setting in limits.settings.alone if setting in limits.drawn]
        files["ends.svg"] = svg(ends_drawing(limits.title, usual, ends, limits.middle)).encode()
    return files


def _drawn(limits: Limits, cause: Cause) -> WorstCase:
    assert cause.worst and cause.drawn is not None
    figures = [hint for hint in cause.note.hints if hint.startswith("at worst")][:1]
    words = (cause.fact.replace("`", ""), *figures, f"{cause.worst.body}, {said(cause.worst.setting)}")
    return WorstCase(cause.drawn, cause.note.span, words, cause.is_error)


def _table(limits: Limits) -> Iterator[Row]:
    yield ("what", "found by", "fact", "file", "line", "setting", "body", "off")
    for cause in limits.causes:
        kind = "fails" if cause.is_error else "to weigh"
        for case in cause.cases:
            yield (kind, plain(cause.found_by), cause.fact, *_place(cause), said(case.setting), case.body, _off(case))


def _place(cause: Cause) -> tuple[object, object]:
    span = cause.note.span
    return (span.source.name, span.source.place(span.start)[0]) if span else ("", "")


def _off(case: Case) -> str:
    return f"{case.off:.4g}" if case.body else ""


def _many(count: int, word: str) -> str:
    words = {"body": "bodies"}.get(word, f"{word}s")
    return f"{count} {word if count == 1 else words}"
