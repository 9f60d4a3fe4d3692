"""What is asked about a place of a text: how it may go on, and what stands there."""

from __future__ import annotations

from draft.editor.complete import complete
from draft.editor.hover import hover
from draft.page.bench import Asked, Bench, Gave
from draft.page.designing.at_hand import desk
from draft.page.designing.browser_offsets import from_browser, to_browser
from draft.page.designing.leaves import leaves

MOST = 200
"""Ways to go on that are offered."""


def completions(asked: Asked, bench: Bench) -> Gave:
    """What may stand at the place `at` of a `text`, nearest first: each `text`, `what` it is, and `words` on it."""
    file = desk(asked, bench).file
    found = complete(file.text, file.known_while_typing, from_browser(file.text, asked.get("at")), file.kind_of)
    return {"found": [{"text": one.text, "what": one.what, "words": one.words} for one in found[:MOST]]}


def hovered(asked: Asked, bench: Bench) -> Gave:
    """What there is to say about the words at the place `at` of a `text`: `leaves`, and from `start` to `end`."""
    file = desk(asked, bench).file
    size = asked.get("size")
    file.size = size if isinstance(size, str) else ""
    found = hover(file.now, file.known, file.figures, from_browser(file.text, asked.get("at")))
    if found is None:
        return {}
    words, span = found
    start, end = (to_browser(file.text, offset) for offset in (span.start, span.end))
    return {"leaves": leaves(words), "start": start, "end": end}
