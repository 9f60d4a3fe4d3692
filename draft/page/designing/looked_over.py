"""What there is to say about a text and its drawing, with places, and mends that have been tried."""

from __future__ import annotations

from typing import Any

from draft.base.notes import MOST_SHOWN, Note, Problems, Severity, Span
from draft.base.visible import shortly, visible
from draft.editor.drafted_notes import can_be_drafted
from draft.editor.mending import mendings
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import Desk, desk, made_ready
from draft.page.designing.browser_offsets import from_browser, to_browser
from draft.page.designing.whom_asked import styles_asked, whom_drawn

ORDER = list(Severity)


def checks(asked: Asked, bench: Bench) -> Gave:
    """All `notes` on a `text`: `severity`, `message`, `hints`, where it is, and from `start` to `end`; errors first.

    Of a text that can be drafted also what its drawing tells, for the bodies that are looked at; `drawn` says whether.
    """
    at = desk(asked, bench)
    drawn = _look_at_drawing(at, asked)
    told = sorted(at.file.notes(), key=lambda each: (ORDER.index(each[0].severity), each[1].start))
    notes = [_told(at, note, span) for note, span in told[:MOST_SHOWN]]
    made_ready(asked, bench)
    return {"notes": notes, "more": len(told) - len(notes), "drawn": drawn}


def mend(asked: Asked, bench: Bench) -> Gave:
    """What mends the notes between `start` and `end`: a `text` in the place of each stretch, and its note."""
    at = desk(asked, bench)
    text = at.file.text
    start, end = (from_browser(text, asked.get(name)) for name in ("start", "end"))
    found = [
        {
            "message": shortly(visible(mending.note.message)),
            "start": to_browser(text, mending.span.start),
            "end": to_browser(text, mending.span.end),
            "text": mending.text,
        }
        for mending in mendings(at.file, start, end)
    ]
    return {"mends": found}


def _look_at_drawing(at: Desk, asked: Asked) -> bool:
    """Have the file know what its drawing tells; whether there is one."""
    at.file.drafted = ()
    if not can_be_drafted(at.file.now):
        return False
    try:
        notes: tuple[Note, ...] = at.at_hand(styles_asked(asked), whom_drawn(asked)).checked.notes
        drawn = True
    except Problems as problems:
        notes, drawn = problems.notes, False
    own = set(at.file.now.notes)
    at.file.drafted = tuple((note, at.file.place_of(note)) for note in notes if note not in own)
    return drawn


def _told(at: Desk, note: Note, span: Span) -> dict[str, Any]:
    text = at.file.text
    elsewhere = note.span is not None and note.span.source != span.source
    said: dict[str, Any] = {
        "severity": note.severity.value,
        "message": shortly(visible(note.message)),
        "hints": [shortly(visible(hint)) for hint in note.hints],
        "line": text.count("\n", 0, span.start) + 1,
        "start": to_browser(text, span.start),
        "end": to_browser(text, span.end),
    }
    return said | ({"file": str(note.span)} if elsewhere else {})
